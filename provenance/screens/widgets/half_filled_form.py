"""What a form works with, and how it outlives a kill: it is kept half-filled, and offered again."""

import asyncio
from collections.abc import Iterable
from contextlib import suppress
from typing import TYPE_CHECKING, ClassVar, cast

from textual.screen import ModalScreen
from textual.timer import Timer

from provenance.errors import Refused
from provenance.records.clock import Moment
from provenance.records.reader import Reader
from provenance.screens.dialogs.ask import Ask
from provenance.screens.guard import Guarded
from provenance.screens.widgets.fields import Field
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.half_filled import draft_name, drop, keep, kept

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp

PAUSE_S = 0.4
"""After how long without a key a half-filled form is kept."""


class HalfFilledForm(Guarded, ModalScreen[Recorded | None]):
    """Fields whose values are kept in the private folder after each pause of typing."""

    KIND: ClassVar[str]
    """Names the drafts of this form."""

    def __init__(self, *, about: str, concerns: Iterable[int]) -> None:
        super().__init__()
        self._about = about
        self._concerns = tuple(concerns)
        self._pause: Timer | None = None
        self._keeping = asyncio.Lock()
        self._done = False
        self._to_keep: dict[str, str] | None = None
        """What is to be kept after the next pause."""

    def say(self, text: str) -> None:
        """Say something below the fields."""
        raise NotImplementedError

    def typed(self, field: Field) -> None:
        """Something was typed into `field` or chosen in it."""

    @property
    def host(self) -> "StudioApp":
        """The application, typed."""
        return cast("StudioApp", self.app)

    @property
    def studio_folder(self) -> StudioFolder:
        """The folder of the studio."""
        return self.host.folder

    @property
    def read(self) -> Reader:
        """The register, for quick reads."""
        return self.host.register.read

    def now(self) -> Moment:
        """The present moment, on the studio's clock."""
        return self.host.register.clock()

    @property
    def today(self) -> str:
        """The date in the studio."""
        return self.now().local_date().isoformat()

    @property
    def fields(self) -> dict[str, Field]:
        """Every field, by its key."""
        return {field.key: field for field in self.query(Field)}

    def value(self, key: str) -> str:
        """What stands in one field."""
        return self.fields[key].value.strip()

    @property
    def changed(self) -> bool:
        """Whether anything was typed that is not saved."""
        return any(field.value != field.begun for field in self.query(Field))

    @property
    def _draft(self) -> str:
        return draft_name(self.KIND, f"{self._about} {self._concerns}" if self._about else "")

    def offer_draft(self) -> None:
        """Look for what was left of this form, and ask whether to go on with it."""
        self.run_worker(self._offer_draft(), group="draft")

    async def drop_draft(self) -> None:
        """Keep nothing of this form from now on."""
        self._stop_pause()
        self._done = True
        async with self._keeping:
            with suppress(Refused):
                await asyncio.to_thread(drop, self.studio_folder, self._draft)

    async def _offer_draft(self) -> None:
        found = await asyncio.to_thread(kept, self.studio_folder, self._draft)
        if found is None:
            return
        question = f"This form was half-filled on {found.at}."
        if await self.app.push_screen_wait(Ask(question, yes="go on with it", no="begin anew")):
            for field in self.query(Field):
                field.value = found.values.get(field.key, field.value)
        # the question came before the cursor had found its field
        self.query(Field).first().enter_field()

    def on_field_changed(self, event: Field.Changed) -> None:
        """Keep what was typed, once there is a pause."""
        event.stop()
        self.typed(event.field)
        self._stop_pause()
        if not self._done:
            typed = {field.key: field.value for field in self.query(Field)}
            self._to_keep = typed if self.changed else None
            self._pause = self.set_timer(PAUSE_S, self._keep_soon)

    def _stop_pause(self) -> None:
        if self._pause is not None:
            self._pause.stop()
            self._pause = None

    def _keep_soon(self) -> None:
        self._pause = None
        if self.changed:
            self.run_worker(self._keep(), group="draft")

    async def _keep(self) -> None:
        async with self._keeping:
            typed, self._to_keep = self._to_keep, None
            if self._done or typed is None:
                return
            try:
                await asyncio.to_thread(keep, self.studio_folder, self._draft, typed, self.now())
            except Refused as error:
                self.say(f"what is typed here is not kept for later: {error}")

    async def on_unmount(self) -> None:
        """Keep the last words when the program is left with the form open."""
        self._stop_pause()
        await self._keep()
