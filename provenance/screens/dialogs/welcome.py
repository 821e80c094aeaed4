"""The first start: founds a studio."""

import asyncio
from collections.abc import Iterable
from typing import Literal, cast, get_args

from msgspec.structs import replace

from provenance.model.certificate import Page
from provenance.model.quantity_text import Units
from provenance.records.clock import Clock, Moment, SystemClock
from provenance.screens.lights import LitApp
from provenance.screens.widgets.fields import ChoiceField, Field, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.forms import StudioForm
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.founding import found, propose_mark
from provenance.studio.settings import read_settings
from provenance.studio.written.forms import fill_form

_COLON: dict[str, Literal["parts", "total"] | None] = {
    "1+10": "parts",
    "1+9": "total",
    "neither": None,
}
_STUDIO = ("name", "artist", "place", "mark")


class Welcome(Form):
    """Asks for what a studio cannot do without; everything can be changed later."""

    KIND = "welcome"
    TITLE = "A new studio"

    def __init__(self, folder: StudioFolder, clock: Clock | None = None) -> None:
        super().__init__()
        self._folder = folder
        self._clock = clock or SystemClock()

    @property
    def studio_folder(self) -> StudioFolder:
        """Where the studio will be."""
        return self._folder

    def now(self) -> Moment:
        """The present moment; there is no register to ask."""
        return self._clock()

    def rows(self) -> Iterable[Row]:
        """Who and where, then how things are written."""
        yield Row(
            TextField("name", "Name of the studio", hint="certificates print it", width=2),
            TextField("mark", "Letters", hint="certificates begin so"),
        )
        yield Row(
            TextField("artist", "Artist", hint="whose prints they are"),
            TextField("place", "Place"),
            TextField("who", "Who enters records", value="printer", hint="role or initials"),
        )
        yield Row(
            ChoiceField("units", "Lengths are shown in", ("metric", "inch"), value="metric"),
            ChoiceField("page", "Certificates are on", get_args(Page), value="A4"),
        )
        yield Row(
            ChoiceField(
                "colon",
                "1:10 on a bottle means",
                tuple(_COLON),
                value="neither",
                hint="neither: a colon is refused, and asked about each time",
            )
        )

    def opened(self) -> None:
        """Say where the studio will be."""
        self.say_title(str(self._folder.path))

    def left(self, field: Field) -> None:
        """The letters follow from the name."""
        if field.key == "name":
            self.fields["mark"].propose(propose_mark(field.value))

    async def enter(self) -> Recorded:
        """Found the studio; nothing is there yet that could write."""
        studio = {key: self.value(key) for key in _STUDIO if self.value(key)}
        form = fill_form(studio, StudioForm, {})
        settings = replace(
            read_settings(self._folder),
            units=cast("Units", self.value("units")),
            page=cast("Page", self.value("page")),
            who=self.value("who") or "printer",
            colon_dilution=_COLON[self.value("colon")],
        )
        return await asyncio.to_thread(found, self._folder, form, settings, clock=self._clock)


class WelcomeApp(LitApp[None]):
    """Shows nothing but the welcome; ends once there is a studio, or when it is left."""

    TITLE = "provenance"

    def __init__(
        self, folder: StudioFolder, *, clock: Clock | None = None, light: str = "day"
    ) -> None:
        super().__init__(light=light)
        self._folder = folder
        self._clock = clock

    def on_mount(self) -> None:
        """Ask."""
        self.push_screen(Welcome(self._folder, self._clock), lambda _recorded: self.exit())
