"""What the dry side holds: negatives with how they were exposed, papers with their wedges."""

from contextlib import suppress
from dataclasses import dataclass
from itertools import islice

from provenance.craft.caution import Caution
from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.paper_range import PaperRange, paper_range, slower_by
from provenance.craft.sensitometry.wedges import curve_of, wedge_cautions
from provenance.errors import Refused
from provenance.model.dates import earliest
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.readings import Reading, Wedge
from provenance.records.newest import how_many, newest_first
from provenance.records.reader import Reader, Stored
from provenance.studio.reprinting.reference import wedges_on

LATEST = 50
"""How many readings, and how many matches, are listed."""


@dataclass(frozen=True)
class NegativeRow:
    """A negative and the last printing of it that says how it was exposed."""

    negative: Stored[Negative]
    printings: int
    last: Stored[Printing] | None


@dataclass(frozen=True)
class PaperRow:
    """A paper and the latest wedge at each grade."""

    paper: Stored[Paper]
    wedges: dict[str, Stored[Wedge]]


@dataclass(frozen=True)
class DrySide:
    """Negatives and papers, and the latest of what was read and held against another."""

    negatives: tuple[NegativeRow, ...]
    papers: tuple[PaperRow, ...]
    readings: tuple[Stored[Reading], ...]
    matches: tuple[Stored[MatchReport], ...]
    readings_left_out: int
    matches_left_out: int


@dataclass(frozen=True)
class WedgeSeen:
    """A wedge as a curve, and what it tells."""

    wedge: Stored[Wedge]
    curve: Curve
    range: PaperRange | None
    why_none: str
    """Why no range can be told."""
    slower: float | None
    """In log H than the first wedge shown, at the speed point."""
    cautions: tuple[Caution, ...]


def view_dry_side(reader: Reader) -> DrySide:
    """The dry side as it stands."""
    readings = tuple(islice(newest_first(reader, Reading), LATEST))
    matches = tuple(islice(newest_first(reader, MatchReport), LATEST))
    return DrySide(
        tuple(_negative(reader, one) for one in reversed(reader.all(Negative))),
        tuple(
            PaperRow(one, {wedge.body.grade: wedge for wedge in wedges_on(reader, one.id)})
            for one in reversed(reader.all(Paper))
        ),
        readings,
        matches,
        how_many(reader, Reading) - len(readings),
        how_many(reader, MatchReport) - len(matches),
    )


def printings_of(reader: Reader, negative: int) -> list[Stored[Printing]]:
    """The printings of a negative, by the day of the work."""
    found = reader.linked(negative, Printing, "negative")
    return sorted(found, key=lambda one: (earliest(one.body.done_on), one.id))


def _negative(reader: Reader, negative: Stored[Negative]) -> NegativeRow:
    printings = printings_of(reader, negative.id)
    exposed = [one for one in printings if one.body.exposure is not None]
    return NegativeRow(negative, len(printings), exposed[-1] if exposed else None)


def wedges_seen(reader: Reader, paper: int) -> tuple[WedgeSeen, ...]:
    """The latest wedge at each grade of a paper, in the order of the grades' first wedges."""
    latest = {one.body.grade: one for one in wedges_on(reader, paper)}
    curves = {grade: curve_of(one.body) for grade, one in latest.items()}
    first = next(iter(curves.values()), None)
    return tuple(_seen(one, curves[grade], first) for grade, one in latest.items())


def _seen(wedge: Stored[Wedge], curve: Curve, first: Curve | None) -> WedgeSeen:
    found, why = None, ""
    try:
        found = paper_range(curve)
    except Refused as refused:
        why = refused.problems[0].what
    slower = None
    # where the speed point was not reached, there is no range either, and that says why
    with suppress(Refused):
        slower = slower_by(first, curve) if first is not None and first is not curve else None
    return WedgeSeen(wedge, curve, found, why, slower, wedge_cautions(wedge.body, curve))


def worth_matching(reader: Reader, negative: int) -> int | None:
    """The print of a negative to go by: the bon à tirer, else the first that was read.

    None where no print of it exists.
    """
    prints = [
        one
        for printing in printings_of(reader, negative)
        for one in reader.linked(printing.id, Print, "printing")
    ]
    read = {one.id for one in prints if reader.linked(one.id, Reading, "print")}

    def worth(one: Stored[Print]) -> tuple[bool, bool, bool, int]:
        body = one.body
        return body.designation == "BAT", one.id in read, body.existence == "exists", -one.id

    return max(prints, key=worth).id if prints else None
