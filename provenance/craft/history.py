"""All that the record holds about one print, as values."""

from dataclasses import dataclass
from datetime import date
from typing import Generic, TypeVar

from provenance.craft.custody import Move, Whereabouts, whereabouts
from provenance.model.body import Body
from provenance.model.certificate import Certificate
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.dates import earliest, latest
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan
from provenance.model.proof import Test
from provenance.model.run import Override
from provenance.model.studio import Studio
from provenance.model.study import SpotCalibration, ToningStudy

B_co = TypeVar("B_co", bound=Body, covariant=True)


@dataclass(frozen=True)
class Fact(Generic[B_co]):
    """A record as evidence: its id, the version read, and the date that was written."""

    id: int
    version: int
    body: B_co
    entered_on: date


@dataclass(frozen=True)
class HeldAgainst:
    """A match of the print to a reference: what that is called, and when it was printed."""

    report: Fact[MatchReport]
    reference: str
    reference_printing: int
    reference_printed_on: str


@dataclass(frozen=True)
class Overridden:
    """A finding that the printer went on in spite of, with the print in hand."""

    run: int
    entry: int
    """The entry that put it on record: steps with a higher id were entered afterwards."""
    on: date
    body: Override
    explained_on: date | None = None
    """When it was last said more of; None while nobody has."""


@dataclass(frozen=True)
class PrintHistory:
    """One print with everything that touches it; steps and tests in order of work.

    `steps` are those that stand; what the printer's own word at the trays speaks
    against is among `contradicted`, and counts for nothing.
    """

    studio: Fact[Studio]
    print: Fact[Print]
    edition: Fact[Edition]
    negative: Fact[Negative]
    printing: Fact[Printing]
    paper: Fact[Paper] | None = None
    baths: tuple[Fact[Bath], ...] = ()
    steps: tuple[Fact[Step], ...] = ()
    tests: tuple[Fact[Test], ...] = ()
    overrides: tuple[Overridden, ...] = ()
    """In the order in which they were pressed."""
    contradicted: tuple[Fact[Step], ...] = ()
    scans: tuple[Fact[Scan], ...] = ()
    certificates: tuple[Fact[Certificate], ...] = ()
    custody: tuple[Fact[CustodyEvent], ...] = ()
    matches: tuple[HeldAgainst, ...] = ()
    """In the order in which they were decided."""
    finishes: tuple[Fact[Finish], ...] = ()
    """What was done after the wash, in order."""
    toning_studies: tuple[Fact[ToningStudy], ...] = ()
    """Those of its paper, whatever the process."""
    calibrations: tuple[Fact[SpotCalibration], ...] = ()
    """The studio's own scales that its tests were read by."""
    replaced: Fact[Print] | None = None
    """The print whose number it bears, which is gone for good."""
    signature_entered_on: date | None = None
    """When the signature was entered; None when the print is not signed."""

    @property
    def posthumous(self) -> bool | None:
        """Whether it was printed after the artist's death; None where the dates overlap."""
        died, printed = self.studio.body.died, self.printing.body.done_on
        if died is None or latest(printed) <= earliest(died):
            return False
        return True if latest(died) < earliest(printed) else None

    @property
    def whereabouts(self) -> Whereabouts:
        """Where the print is, by its custody events."""
        moves = (Move(event.id, event.body) for event in self.custody)
        return whereabouts(moves, opening=self.print.body.opening)

    def bath(self, record: int | None) -> Bath | None:
        """The bath with that id, when a step of this print names it."""
        return next((fact.body for fact in self.baths if fact.id == record), None)

    def calibration(self, record: int | None) -> Fact[SpotCalibration] | None:
        """The scale with that id, when a test of this print names it."""
        return next((fact for fact in self.calibrations if fact.id == record), None)


def work_order(fact: Fact[Step] | Fact[Test] | Fact[Finish]) -> tuple[date, int, int]:
    """Sorts steps, tests and finishes as the work went: by day, place within the day, entry."""
    return earliest(fact.body.done_on), fact.body.place, fact.id


def comes_before(
    first: Fact[Step] | Fact[Test] | Fact[Finish], second: Fact[Step] | Fact[Test] | Fact[Finish]
) -> bool:
    """Whether the record shows that `first` was done before `second`.

    Within one date the place decides; otherwise the dates must not overlap: a
    wash of "1998" may have come before or after a test of June 1998.
    """
    one, other = (_span(fact.body.done_on) for fact in (first, second))
    if one == other:
        return first.body.place < second.body.place
    return one[1] < other[0]


def _span(done_on: str) -> tuple[date, date]:
    return earliest(done_on), latest(done_on)
