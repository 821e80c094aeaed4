"""A table of printings as the export writes it: a printing a row, with its exposure.

A notebook says it otherwise, with its sheets and their baths in the same row.
"""

from collections import Counter

from msgspec.structs import replace

from provenance.model.evidence import Source
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.process import ProcessSheet
from provenance.records.act import Act
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.form import Form
from provenance.studio.tables.named import Named
from provenance.studio.tables.row import Row, Took

_FORM = Form(Printing)
FIELDS = _FORM.fields(
    ("negative", "done_on"), negative="", paper="", process="", done_on="date printed_on"
)


class Printings(Entering):
    """Enters printings; as many of the same as are on record already are passed over."""

    def __init__(self, act: Act, source: Source) -> None:
        self._named = Named(act)
        self._act = act
        self._source = source
        self._on_record: dict[int, Counter[Printing]] = {}

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        said = Printing(
            negative=self._named.id(row, "negative", Negative),
            paper=self._named.id(row, "paper", Paper) if row.get("paper") else None,
            process=self._named.id(row, "process", ProcessSheet) if row.get("process") else None,
            **({"source": self._source} | _FORM.given(row)),
        )
        there = self._there(said.negative)
        if there[_plain(said)] > 0:
            there[_plain(said)] -= 1
            return "on record already"
        self._act.enter(said)
        return "entered"

    def _there(self, negative: int) -> Counter[Printing]:
        """The printings of a negative that no row has spoken of yet."""
        if negative not in self._on_record:
            held = self._act.linked(negative, Printing, "negative")
            self._on_record[negative] = Counter(_plain(one.body) for one in held)
        return self._on_record[negative]


def _plain(printing: Printing) -> Printing:
    """What it says, however it came to be known."""
    return replace(printing, source="notes")
