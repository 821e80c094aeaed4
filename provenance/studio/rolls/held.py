"""What an edition holds: every impression on record, where it is, and what is still to come."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from provenance.craft.custody import Move, Whereabouts, whereabouts
from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.dates import earliest
from provenance.model.edition import Edition
from provenance.model.negative import UNPRINTABLE, Negative
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.quantity_text import Units
from provenance.model.roman import from_roman
from provenance.model.studio import Studio
from provenance.records.print_order import print_order
from provenance.records.reader import Reader, Stored
from provenance.studio.drawer import view_edition
from provenance.studio.editions.promise import PromiseChange, promise_changes


@dataclass(frozen=True)
class Impression:
    """One print of an edition."""

    print: Stored[Print]
    name: str
    """Its number, or the mark on its back while it has none."""
    printed_on: str
    posthumous: bool
    where: Whereabouts
    certificate: str
    """The number of the certificate in force; empty where there is none."""
    replaced: str
    """The mark of the print whose number it took."""
    replaced_by: str
    """The mark of the print that took its number, where it is gone."""


@dataclass(frozen=True)
class HeldEdition:
    """An edition with everything that a list of it says."""

    edition: Stored[Edition]
    negative: Stored[Negative]
    impressions: tuple[Impression, ...]
    to_print: tuple[str, ...]
    """What is declared by number and not on record, as runs: ``12–25``, ``AP II``."""
    spare: int
    """How many without a number are declared and not on record."""
    left: int
    """How many both are."""
    others: tuple[Stored[Edition], ...]
    """Other editions of the same negative."""
    changes: tuple[PromiseChange, ...]

    @property
    def may_print(self) -> bool:
        """Whether anything may still be printed."""
        return self.edition.body.closed is None and self.negative.body.state not in UNPRINTABLE


def held_edition(reader: Reader, edition: Stored[Edition], units: Units) -> HeldEdition:
    """Everything on record about the impressions of an edition."""
    body = edition.body
    missing = [one.name for one in view_edition(reader, edition).declared if one.record is None]
    impressions = tuple(_impressions(reader, edition))
    plain = sum(one.print.body.designation == "unnumbered" for one in impressions)
    spare = max(0, body.unnumbered - plain)
    others = reader.linked(body.negative, Edition, "negative")
    return HeldEdition(
        edition=edition,
        negative=reader.get(Negative, body.negative),
        impressions=impressions,
        to_print=tuple(runs(missing)),
        spare=spare,
        left=len(missing) + spare,
        others=tuple(one for one in others if one.id != edition.id),
        changes=tuple(
            one
            for one in promise_changes(reader, edition.id, units)
            # to close an edition keeps its promise; to open it again does not
            if one.field != "closed" or one.before
        ),
    )


def _impressions(reader: Reader, edition: Stored[Edition]) -> Iterator[Impression]:
    prints = [reader.get(Print, one) for one in print_order(reader.connection, edition=edition.id)]
    successors = {one.body.replaces: one.body.mark for one in prints if one.body.replaces}
    died = reader.get(Studio, 1).body.died
    for held in prints:
        body = held.body
        printed_on = reader.get(Printing, body.printing).body.done_on
        moves = [Move(one.id, one.body) for one in reader.linked(held.id, CustodyEvent, "print")]
        certificates = reader.linked(held.id, Certificate, "print")
        yield Impression(
            print=held,
            name=body.designation or body.mark,
            printed_on=printed_on,
            posthumous=died is not None and earliest(printed_on) > earliest(died),
            where=whereabouts(moves, opening=body.opening),
            certificate=next(
                (one.body.number for one in certificates if one.body.state == "issued"), ""
            ),
            replaced=reader.get(Print, body.replaces).body.mark if body.replaces else "",
            replaced_by=successors.get(held.id, ""),
        )


def runs(names: Iterable[str]) -> list[str]:
    """Names that follow each other as one: ``12–25``, ``AP II–III``; places as given."""
    placed = [(at, *_parted(name)) for at, name in enumerate(names)]
    found = []
    for (series, _), group in groupby(placed, key=lambda one: (one[1], one[3] - one[0])):
        members = list(group)
        first, last = members[0][2], members[-1][2]
        run = first if first == last else f"{first}–{last}"
        found.append(f"{series} {run}".strip())
    return found


def _parted(name: str) -> tuple[str, str, int]:
    """The series of a short name, its number as written, and as a number."""
    series, _, number = name.rpartition(" ")
    if number.isdecimal():
        return series, number, int(number)
    return series, number, from_roman(number) or 0
