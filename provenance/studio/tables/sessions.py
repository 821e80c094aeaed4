"""The printings that the prints of a table came from: those on record, or new ones."""

from provenance.errors import Problem, Refused
from provenance.model.evidence import Source
from provenance.model.printing import Printing
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.tables.row import Row

_Of = tuple[int, str, int | None, str, int]
"""What tells printings apart: negative, date, paper, printer, place among those of the date."""


class Sessions:
    """Gives each print its printing."""

    def __init__(self, act: Act) -> None:
        self._act = act
        self._found: dict[_Of, int] = {}
        self._dated: dict[int, dict[str, list[Stored[Printing]]]] = {}

    def printing(
        self, row: Row, negative: int, done_on: str, paper: int | None, source: Source
    ) -> int:
        """The printing that a row names by its date and what else it gives.  Raises Refused."""
        printer = row.get("printer")
        place = row.whole("printing_place") if row.get("printing_place") else 0
        of = (negative, done_on, paper, printer, place)
        if of not in self._found:
            found = self._placed(of) if place else self._like(of)
            self._found[of] = found or self._act.enter(
                Printing(
                    negative=negative, done_on=done_on, paper=paper, printer=printer, source=source
                )
            )
        return self._found[of]

    def _on_record(self, of: _Of) -> list[Stored[Printing]]:
        """The printings of the negative on the date, as they were before the table."""
        negative, done_on = of[:2]
        if negative not in self._dated:
            dates = self._dated[negative] = {}
            for held in self._act.linked(negative, Printing, "negative"):
                dates.setdefault(held.body.done_on, []).append(held)
        return self._dated[negative].get(done_on, [])

    def _placed(self, of: _Of) -> int | None:
        """The printing at that place of the date; None where there are fewer."""
        _, done_on, paper, printer, place = of
        there = self._on_record(of)
        if place > len(there):
            return None
        held = there[place - 1]
        for field, said, stands in (
            ("paper", paper, held.body.paper),
            ("printer", printer, held.body.printer),
        ):
            if said and said != stands:
                raise Refused(
                    Problem(
                        f"printing {place} of {done_on} (#{held.id}) is on record otherwise",
                        field=field,
                        mend="leave printing_place out, or bring in the table of printings first",
                    )
                )
        return held.id

    def _like(self, of: _Of) -> int | None:
        """A printing that says no more than such rows do, from an earlier import."""
        _, _, paper, printer, _ = of
        for held in self._on_record(of):
            body = held.body
            more = body.exposure or body.process or body.note
            if (body.paper, body.printer) == (paper, printer) and not more:
                return held.id
        return None
