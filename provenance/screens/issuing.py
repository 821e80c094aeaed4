"""What every page does to issue certificates: asks once, unlocks the key, issues each."""

import asyncio
from collections.abc import Sequence
from typing import TYPE_CHECKING

from provenance.screens.dialogs.ask import Ask
from provenance.screens.dialogs.issue import Issuance, IssueCertificates
from provenance.screens.dialogs.passphrase import Passphrase
from provenance.studio.calling import names_of

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp
    from provenance.studio.certifying.stationery import Stationery

NAMED = 12
"""So many prints are named in a question; of more it says how many they are."""
LOCKED = "Nothing was issued: the key is still locked."


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


async def issue_each(
    app: "StudioApp", prints: Sequence[int], about: str = "", names: Sequence[str] = ()
) -> Issuance | str:
    """Issue the certificate of each of `prints` after one question; what became of them.

    `about` is said below the question; `names` spares reading how each print is
    called.  Empty text when a person leaves it, `LOCKED` when the key stays
    locked.  To be awaited in a worker.
    """
    names = names or names_of(app.register.read, prints)
    question = "\n".join(filter(None, (question_of(names), about)))
    yes = "issue them" if len(prints) > 1 else "issue it"
    if not await app.push_screen_wait(Ask(question, yes=yes)):
        return ""
    stationery = await stationery_of(app)
    if stationery is None:
        return LOCKED
    from provenance.studio.certifying.batch import Owing

    asked = [Owing(*one) for one in zip(prints, names, strict=True)]
    return await app.push_screen_wait(IssueCertificates(asked, stationery))


def question_of(names: Sequence[str]) -> str:
    """Asks of prints whether their certificates shall be issued; names the first of many."""
    many = f"{len(names):,} certificates, of" if len(names) > 1 else "a certificate of"
    more = f" and {len(names) - NAMED:,} more" if len(names) > NAMED else ""
    return f"Issue {many} {', '.join(names[:NAMED])}{more}?"
