"""A step tablet printed on a paper, and what was read of it."""

from collections.abc import Iterable

from textual.suggester import SuggestFromList

from provenance.craft.units import parse_duration_ms
from provenance.model.paper import Paper
from provenance.model.quantity_text import format_duration
from provenance.model.readings import How, Wedge
from provenance.screens.dialogs.pieces import begin, date_field, put_all, source_field
from provenance.screens.dialogs.reading import HOW, how_rows
from provenance.screens.widgets.fields import LinesField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled

_WEDGE = ("paper", "grade", "tablet", "exposure", "light", "developer", "readings", *HOW)
_TABLE = "tablet,density\nunexposed,\n\nfull,"


class NewWedge(Form):
    """Same tablet and light as the last time, unless typed."""

    KIND = "wedge"
    TITLE = "Wedge"

    def __init__(self, paper: str = "") -> None:
        super().__init__()
        self._paper = paper

    def rows(self) -> Iterable[Row]:
        """The paper, the light, the readings."""
        held = self.read.all(Wedge)
        last = held[-1].body if held else None
        papers = [one.body.code for one in self.read.all(Paper)]
        yield Row(
            TextField(
                "paper",
                "Paper",
                value=self._paper,
                suggester=SuggestFromList(papers, case_sensitive=False),
            ),
            TextField("grade", "Grade or filter", hint="2 1/2"),
            date_field(self, "Printed on"),
            source_field(),
        )
        yield Row(
            TextField("tablet", "Tablet", value=last.tablet if last else "", hint="its own name"),
            TextField(
                "exposure",
                "Exposure, s",
                value=format_duration(last.exposure_ms) if last else "",
                check=parse_duration_ms,
                unit="s",
            ),
            TextField("light", "Light", value=last.light if last else "", width=2),
            TextField("developer", "Developer", value=last.developer if last else "", width=2),
        )
        yield Row(
            LinesField(
                "readings",
                "Tablet's density, reading, further readings: a step a line",
                value=_TABLE,
                hint="unexposed and full are the ends",
                rows=6,
            )
        )
        yield from how_rows(last.how if last else How())

    def fill(self) -> Filled:
        """One wedge."""
        filled = begin(self)
        put_all(self, filled, {key: key for key in _WEDGE}, "wedge", 0)
        return filled
