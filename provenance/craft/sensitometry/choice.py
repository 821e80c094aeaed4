"""Which grade or filter of the new paper comes nearest, tone by tone.

Candidates are ranked by the density error that each would leave over the
print's own tones, not by how near their ranges are: two papers of one range can
part in the highlights.  A tone beyond the old curve counts for none: it would
weigh on all candidates, and none of them can be told to come near.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot, sqrt
from typing import Literal

from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.matching import Match, Target, match
from provenance.errors import Problem, Refused

Reach = Literal["", "below D-min", "beyond D-max", "not measured"]
"""Why a tone is not simply predicted; empty when it is."""


@dataclass(frozen=True)
class Predicted:
    """One tone, and what the new paper would give for it."""

    target: Target
    density: float
    reach: Reach
    counts: bool
    """Whether the old curve tells its exposure; else the prediction is no more than a bound."""
    error_of_prediction: float = 0.0
    """The standard error of the density, from those of the exposure and of a reading."""

    @property
    def error(self) -> float:
        """How much too dense it would be."""
        return self.density - self.target.density


@dataclass(frozen=True)
class Candidate:
    """One grade or filter with its best exposure."""

    name: str
    match: Match
    tones: tuple[Predicted, ...]

    @property
    def rms_error(self) -> float:
        """The root of the mean square of the density errors, over the tones that count."""
        errors = [one.error for one in self.tones if one.counts]
        return sqrt(sum(error**2 for error in errors) / len(errors))

    @property
    def worst(self) -> Predicted:
        """The tone that would be off most, of those that count."""
        return max((one for one in self.tones if one.counts), key=lambda one: abs(one.error))

    @property
    def unreachable(self) -> tuple[Predicted, ...]:
        """Tones that the paper cannot give, or of which its readings say nothing."""
        return tuple(one for one in self.tones if one.reach)


def ranked(
    old: Curve, candidates: Mapping[str, Curve], targets: Sequence[Target]
) -> tuple[Candidate, ...]:
    """The candidates, best first.

    One that shares no tone with the print is left out.  Raises Refused when that
    leaves none, or when there was none to choose from.
    """
    found = []
    for name, new in candidates.items():
        try:
            matched = match(old, new, targets)
        except Refused:
            continue
        tones = tuple(predict(old, new, matched.delta_log_h, one, matched.error) for one in targets)
        found.append(Candidate(name, matched, tones))
    if not found:
        raise Refused(
            Problem(
                what="no candidate shares a tone with the print",
                field="candidates",
                mend="read a mid-tone of the reference print, and wedges of the new paper",
            )
        )
    return tuple(sorted(found, key=lambda one: one.rms_error))


def predict(
    old: Curve, new: Curve, delta_log_h: float, target: Target, error_log_h: float = 0.0
) -> Predicted:
    """What the new paper gives where the old one gave `target`.

    `error_log_h` is the standard error of the exposure.

    Beyond what was read, the last reading is taken and the tone is flagged.
    """
    within = min(max(target.density, old.density[0]), old.density[-1])
    if within == target.density and old.reads(within):
        exposure = old.log_h_at(within) + delta_log_h
    else:
        edge = old.log_h[0] if within == old.density[0] else old.log_h[-1]
        exposure = edge + delta_log_h
    measured = old.reads(target.density) and new.log_h[0] <= exposure <= new.log_h[-1]
    density = new.density_at(min(max(exposure, new.log_h[0]), new.log_h[-1]))
    reach: Reach = "" if measured else "not measured"
    if target.density < new.d_min:
        reach = "below D-min"
    elif target.density > new.d_max:
        reach = "beyond D-max"
    of_exposure = error_log_h / new.run_at(density) if new.reads(density) else 0.0
    error = hypot(of_exposure, max(new.error))
    return Predicted(target, density, reach, old.reads(target.density), error)
