"""A table of printings as the export writes it: a printing a row, with its exposure.

A notebook says it otherwise, with its sheets and their baths in the same row.
"""

from itertools import chain

from msgspec.structs import replace

from provenance.errors import Problem
from provenance.model.evidence import Source
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.process import ProcessSheet
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.form import Form
from provenance.studio.tables.named import Named
from provenance.studio.tables.row import Other, Row, Took, on_record_otherwise

_FORM = Form(Printing)
FIELDS = _FORM.fields(
    ("negative", "done_on"), negative="", paper="", process="", done_on="date printed_on"
)


class Printings(Entering):
    """Enters printings; each that is on record already answers for one row that says the same.

    Nothing but what it says tells a printing from another of its negative and day.  So
    one that differs from those on record is entered beside them, with a warning.
    """

    def __init__(self, act: Act, source: Source) -> None:
        self._named = Named(act)
        self._act = act
        self._source = source
        self._left: dict[int, dict[Printing, list[Stored[Printing]]]] = {}
        """Of each negative the printings on record that no row has spoken of, by what they say."""
        self._entered: list[tuple[Row, Printing]] = []

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        said = Printing(
            negative=self._named.id(row, "negative", Negative),
            paper=self._named.id(row, "paper", Paper) if row.get("paper") else None,
            process=self._named.id(row, "process", ProcessSheet) if row.get("process") else None,
            **({"source": self._source} | _FORM.given(row)),
        )
        alike = self._there(said.negative).get(_plain(said), [])
        if row.get("source"):
            # how it is known tells two printings apart that say the same
            alike.sort(key=lambda one: one.body.source != said.source)
        if alike:
            held = alike[0]
            if row.get("source") and held.body.source != said.source:
                other = Other("source", held.body.source, said.source)
                raise on_record_otherwise(self._act, row, row.get("negative"), held.id, [other])
            alike.remove(held)
            return "on record already"
        self._act.enter(said)
        self._entered.append((row, said))
        return "entered"

    def close(self) -> None:
        """Warn of printings entered beside others of their day that the table does not have."""
        for row, said in self._entered:
            for held in chain.from_iterable(self._there(said.negative).values()):
                if held.body.done_on == said.done_on:
                    self._act.warnings.append(_beside(row, said, held))

    def _there(self, negative: int) -> dict[Printing, list[Stored[Printing]]]:
        if negative not in self._left:
            there = self._left[negative] = {}
            for one in self._act.linked(negative, Printing, "negative"):
                if one.id < self._act.number:
                    there.setdefault(_plain(one.body), []).append(one)
        return self._left[negative]


def _plain(printing: Printing) -> Printing:
    """What it says, however it came to be known."""
    return replace(printing, source="notes")


def _beside(row: Row, said: Printing, held: Stored[Printing]) -> Problem:
    other = [
        field
        for field in said.__struct_fields__
        if field != "source" and getattr(said, field) != getattr(held.body, field)
    ]
    return Problem(
        f"another printing of {row.get('negative')} on that day is on record (#{held.id}),"
        f" with another {', '.join(other)}; this one is entered beside it",
        "",
        other[0],
        "if it is the same printing, take this import back (`provenance undo`)",
        row.line,
    )
