"""Readings of a new print against those of its reference, and what was decided."""

from dataclasses import dataclass

from provenance.craft.comparing import PrintMatch, Tolerances, match_prints
from provenance.errors import Problem, Refused
from provenance.model.evidence import Source
from provenance.model.matching import MatchReport, Outcome
from provenance.model.readings import Reading
from provenance.records.act import Act
from provenance.records.reader import Reader, Stored
from provenance.studio.reprinting.reference import latest_reading


@dataclass(frozen=True)
class Matched:
    """Both prints' readings, and what they say."""

    print: int
    reference: int
    new: Stored[Reading]
    old: Stored[Reading]
    found: PrintMatch
    tolerance: Tolerances

    @property
    def differs_at(self) -> tuple[str, ...]:
        """The spots that are off, and those that were not read again."""
        return (
            *(one.spot for one in self.found.spots if not one.matches),
            *self.found.missing,
        )

    @property
    def outcome(self) -> Outcome:
        """In a word."""
        return "matches" if self.found.matches else "differs"


def compare_prints(
    reader: Reader, new: int, reference: int, tolerance: Tolerances | None = None
) -> Matched:
    """The latest readings of two prints, spot by spot, by the default tolerances unless given.

    Raises Refused when either was not read, or no spot was read on both.
    """
    readings = []
    for record, which in ((new, "new print"), (reference, "reference")):
        found = latest_reading(reader, record)
        if found is None:
            raise Refused(
                Problem(
                    what=f"the tones of the {which} are not on record",
                    record=f"#{record}",
                    field="reading",
                    mend="read it at named spots: [[reading]] of a day sheet, or provenance import",
                )
            )
        readings.append(found)
    fresh, old = readings
    tolerance = tolerance or Tolerances()
    compared = match_prints(
        old.body.patches, fresh.body.patches, (old.body.how, fresh.body.how), tolerance
    )
    return Matched(new, reference, fresh, old, compared, tolerance)


def decide(
    act: Act, matched: Matched, *, accepted: bool, by: str, on: str, why: str, source: Source
) -> int:
    """Put on record what the readings said and what a person decided.  Raises Refused."""
    tolerance = matched.tolerance
    return act.enter(
        MatchReport(
            print=matched.print,
            reference=matched.reference,
            reading=matched.new.id,
            reference_reading=matched.old.id,
            light_from_hundredth=round(100 * tolerance.light_from),
            light_md=round(1000 * tolerance.light_density),
            dark_to_hundredth=round(100 * tolerance.dark_to),
            dark_md=round(1000 * tolerance.dark_density),
            delta_e00_hundredth=round(100 * tolerance.delta_e00),
            tolerance_source=str(tolerance.source),
            outcome=matched.outcome,
            differs_at=matched.differs_at,
            accepted=accepted,
            by=by,
            on=on,
            why=why,
            source=source,
        )
    )
