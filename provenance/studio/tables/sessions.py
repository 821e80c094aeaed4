"""The printings that the prints of a table came from: those on record, or new ones."""

from provenance.errors import Problem, Refused
from provenance.model.evidence import Source
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.tables.row import Other, Row

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
        place = _place(row)
        of = (negative, done_on, paper, printer, place)
        if of not in self._found:
            there = self._dates(negative).setdefault(done_on, [])
            found = _placed(there, of) if place else _like(there, of)
            if found is None:
                made = self._act.enter(
                    Printing(
                        negative=negative,
                        done_on=done_on,
                        paper=paper,
                        printer=printer,
                        source=source,
                    )
                )
                found = self._act.get(Printing, made)
                there.append(found)
            self._found[of] = found.id
        return self._found[of]

    def differing(
        self, row: Row, held: Stored[Printing], paper: Stored[Paper] | None
    ) -> list[Other]:
        """What a row says of the printing of its print otherwise than is on record."""
        others = [
            Other(field, there, row.get(field))
            for field, there in (("printed_on", held.body.done_on), ("printer", held.body.printer))
            if row.get(field) and row.get(field) != there
        ]
        if paper is not None and paper.id != held.body.paper:
            stands = self._act.get(Paper, held.body.paper).body.code if held.body.paper else ""
            others.append(Other("paper", stands, paper.body.code))
        if place := _place(row):
            dated = self._dates(held.body.negative)[held.body.done_on]
            there = 1 + [one.id for one in dated].index(held.id)
            if place != there:
                others.append(Other("printing_place", str(there), str(place)))
        return others

    def _dates(self, negative: int) -> dict[str, list[Stored[Printing]]]:
        """The printings of the negative by their dates, in the order of entry."""
        if negative not in self._dated:
            dates = self._dated[negative] = {}
            for held in self._act.linked(negative, Printing, "negative"):
                dates.setdefault(held.body.done_on, []).append(held)
        return self._dated[negative]


def _place(row: Row) -> int:
    """Which printing of its date a row names; 0 where it names none.  Raises Refused."""
    if not row.get("printing_place"):
        return 0
    place = row.whole("printing_place")
    if place == 0:
        mend = "the first printing of a day is 1"
        raise Refused(Problem("there is no printing 0", field="printing_place", mend=mend))
    return place


def _placed(there: list[Stored[Printing]], of: _Of) -> Stored[Printing] | None:
    """The printing at that place of the date; None for the one after the last there is."""
    _, done_on, paper, printer, place = of
    if place == len(there) + 1:
        return None
    if place > len(there):
        raise Refused(
            Problem(
                f"{len(there)} printings of {done_on} are on record",
                field="printing_place",
                mend="bring in the table of printings first, or leave printing_place out",
            )
        )
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
    return held


def _like(there: list[Stored[Printing]], of: _Of) -> Stored[Printing] | None:
    """A printing that says no more than such rows do, from an earlier import."""
    _, _, paper, printer, _ = of
    for held in there:
        body = held.body
        more = body.exposure or body.process or body.note
        if (body.paper, body.printer) == (paper, printer) and not more:
            return held
    return None
