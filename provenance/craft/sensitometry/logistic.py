"""A logistic for the range, where few steps were read; and only when it fits.

A paper of one emulsion follows the logistic well.  One made of two emulsions
has a hump, and a logistic drawn through it makes the range far too long: so it
is refused as soon as one reading is 0.03 off.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import exp, log, tanh

from provenance.craft.sensitometry.paper_range import SPEED_POINT, PaperRange, range_densities
from provenance.craft.sensitometry.steps import Step, gathered
from provenance.errors import Problem, Refused

WORST_RESIDUAL = 0.03
FEWEST_STEPS = 4


@dataclass(frozen=True)
class Logistic:
    """Density against log H as a logistic between D-min and D-max."""

    d_min: float
    d_max: float
    steepness: float
    """Per unit of log H."""
    centre: float
    """The log H half way between the two."""
    worst_residual: float = 0.0

    def density_at(self, log_h: float) -> float:
        """The density that an exposure gives."""
        share = (1 + tanh(self.steepness * (log_h - self.centre) / 2)) / 2
        return self.d_min + (self.d_max - self.d_min) * share

    def log_h_at(self, density: float) -> float:
        """The exposure that gives a density between D-min and D-max."""
        share = (density - self.d_min) / (self.d_max - self.d_min)
        return self.centre + log(share / (1 - share)) / self.steepness

    @property
    def range(self) -> PaperRange:
        """The range.  Raises Refused when a reading is 0.03 off or more."""
        if self.worst_residual >= WORST_RESIDUAL:
            raise Refused(
                Problem(
                    what=f"a logistic misses a reading by {self.worst_residual:.2f}, and"
                    f" {WORST_RESIDUAL:g} is too much to take a range from it",
                    field="wedge",
                    mend="read all steps of the tablet and take the range from the curve",
                )
            )
        toe, shoulder = range_densities(self.d_min, self.d_max)
        return PaperRange(self.log_h_at(toe), self.log_h_at(shoulder))


def logistic_of_range(
    log_h: float, *, d_min: float, d_max: float, speed_point_log_h: float = 0.0
) -> Logistic:
    """The logistic paper that has a given range and speed point: closed, for plans and proofs."""
    toe, shoulder = range_densities(d_min, d_max)
    unit = Logistic(d_min, d_max, 1.0, 0.0)
    steepness = (unit.log_h_at(shoulder) - unit.log_h_at(toe)) / log_h
    centre = speed_point_log_h - unit.log_h_at(d_min + SPEED_POINT) / steepness
    return Logistic(d_min, d_max, steepness, centre)


def fit_logistic(steps: Iterable[Step], d_min: float, d_max: float) -> Logistic:
    """The logistic nearest to the readings, with the worst residual it leaves.

    Raises Refused for fewer than four exposures and for readings that no
    logistic follows.
    """
    ordered = gathered(steps)
    if len(ordered) < FEWEST_STEPS:
        raise Refused(
            Problem(
                what=f"{len(ordered)} exposures do not make a logistic",
                field="wedge",
                mend=f"read at least {FEWEST_STEPS} steps",
            )
        )
    from scipy.optimize import least_squares

    middle = (d_min + d_max) / 2
    start = min(ordered, key=lambda step: abs(step.density - middle)).log_h

    def residuals(shape: tuple[float, float]) -> list[float]:
        tried = Logistic(d_min, d_max, exp(shape[0]), shape[1])
        return [tried.density_at(step.log_h) - step.density for step in ordered]

    # The logarithm keeps the steepness above zero, the bounds within any paper's.
    found = least_squares(
        residuals, (log(5.0), start), bounds=((log(0.5), start - 2), (log(50.0), start + 2))
    )
    steepness, centre = exp(float(found.x[0])), float(found.x[1])
    worst = max(abs(float(one)) for one in found.fun)
    return Logistic(d_min, d_max, steepness, centre, worst)
