"""What every page does before it issues certificates: words, layout, key."""

import asyncio
from typing import TYPE_CHECKING

from provenance.screens.dialogs.passphrase import Passphrase

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp
    from provenance.studio.certifying.stationery import Stationery


async def stationery_of(app: "StudioApp") -> "Stationery | None":
    """What certificates are made with, its key unlocked; None when a person leaves it.

    To be awaited in a worker.  Raises Refused for what cannot be used.
    """
    # loads what draws pages: only when a certificate is asked for
    from provenance.studio.certifying.stationery import gather
    from provenance.studio.keys.ring import needs_passphrase

    folder, typed = app.folder, ""
    if needs_passphrase(folder):
        given = await app.push_screen_wait(Passphrase(folder))
        if given is None:
            return None
        typed = given
    return await asyncio.to_thread(gather, folder, lambda: typed)
