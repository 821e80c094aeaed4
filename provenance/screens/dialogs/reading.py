"""What an instrument showed of a print, spot by spot."""

from collections.abc import Iterable
from typing import get_args

from provenance.errors import Problem, Refused
from provenance.model.readings import Backing, Geometry, How, Reading, State
from provenance.records.newest import newest
from provenance.screens.dialogs.pieces import begin, date_field, put_all, source_field
from provenance.screens.widgets.fields import ChoiceField, LinesField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled

HOW = ("instrument", "geometry", "backing", "filter", "state", "note")


def how_rows(how: How) -> Iterable[Row]:
    """How it was read: as the last time."""
    yield Row(
        TextField("instrument", "Instrument", value=how.instrument, hint="in your own words"),
        TextField("filter", "Filter", value=how.filter, hint="visual"),
        ChoiceField("geometry", "Geometry", get_args(Geometry), value=how.geometry, width=2),
    )
    yield Row(
        ChoiceField("backing", "Backing", get_args(Backing), value=how.backing),
        ChoiceField("state", "State", get_args(State), value="dry"),
        TextField("note", "Note"),
    )


def spots_in(text: str) -> list[tuple[str, str, str]]:
    """(spot, readings, place) of every line ``sky = 0.12; 0.13 @ 30 12``.  Raises Refused."""
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        spot, equals, rest = line.partition("=")
        read, _at, place = rest.partition("@")
        if not (spot.strip() and equals and read.strip()):
            raise Refused(
                Problem(
                    f"line {number} is no reading",
                    field="spots",
                    mend="write sky = 0.12; 0.13, with @ 30 12 behind it for where it lies",
                )
            )
        found.append((spot.strip(), read.strip(), place.strip()))
    return found


class NewReading(Form):
    """A line for each spot."""

    KIND = "reading"
    TITLE = "Readings of a print"

    def __init__(self, print_: str = "") -> None:
        super().__init__()
        self._print = print_

    def rows(self) -> Iterable[Row]:
        """The print, the spots, the instrument."""
        held = newest(self.read, Reading)
        yield Row(
            TextField("print", "Print", value=self._print, hint="QUAY 7/25"),
            date_field(self, "Read on"),
            source_field(),
        )
        yield Row(
            LinesField(
                "spots",
                "A spot a line: density, or L* a* b*; @ percent from left and top",
                hint="sky = 0.12; 0.13 @ 30 12",
                check=spots_in,
                rows=5,
            )
        )
        yield from how_rows(held.body.how if held else How())

    def fill(self) -> Filled:
        """One reading."""
        filled = begin(self)
        filled.put("print", self.value("print"), "reading", 0, "print")
        put_all(self, filled, {key: key for key in HOW}, "reading", 0)
        for spot, read, place in spots_in(self.value("spots")):
            lab = len(read.split(";")[0].split()) == 3
            filled.put("spots", read, "reading", 0, "lab" if lab else "density", spot)
            filled.put("spots", place, "reading", 0, "at", spot)
        return filled
