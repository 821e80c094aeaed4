"""The readings of a printed step tablet, ready for a curve."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from statistics import fmean

from provenance.errors import Problem, Refused
from provenance.model.sources import Sourced

READING_ERROR = 0.01
"""The standard error of one reading, where no step was read twice."""
READING_SOURCE = Sourced("P", "0.01 for one reading of a reflection densitometer")
NOMINAL_STEPS = {21: 0.15, 31: 0.10}
"""Steps and what lies between them, as tablets are sold."""
NOMINAL_SOURCE = Sourced("S", "nominal steps; the measured ones of the very tablet are better")


@dataclass(frozen=True)
class Step:
    """One exposure of the paper, and every reading of what it gave."""

    log_h: float
    densities: tuple[float, ...]

    @property
    def density(self) -> float:
        """The mean of the readings."""
        return fmean(self.densities)


def nominal_tablet(steps: int) -> tuple[float, ...]:
    """Densities of a tablet as it is sold.  Raises Refused when none has so many steps."""
    if steps not in NOMINAL_STEPS:
        raise Refused(
            Problem(
                what=f"there is no common tablet of {steps} steps",
                field="tablet",
                mend="give the measured densities of its steps",
            )
        )
    return tuple(place * NOMINAL_STEPS[steps] for place in range(steps))


def gathered(steps: Iterable[Step]) -> tuple[Step, ...]:
    """In the order of exposure, those of the same exposure taken together."""
    found: dict[float, tuple[float, ...]] = {}
    for step in steps:
        exposure = round(step.log_h, 6)
        found[exposure] = (*found.get(exposure, ()), *step.densities)
    return tuple(Step(exposure, found[exposure]) for exposure in sorted(found))


def reading_error(groups: Iterable[tuple[float, ...]]) -> float:
    """The standard error of one reading, from all groups that hold several.

    Falls back on `READING_ERROR` when there are fewer than three readings to
    spare, and never goes below half of it: repeated readings of a patch say
    nothing of the instrument's own error.
    """
    repeated = [group for group in groups if len(group) > 1]
    spare = sum(len(group) - 1 for group in repeated)
    if spare < 3:
        return READING_ERROR
    squares = sum((one - fmean(group)) ** 2 for group in repeated for one in group)
    return max(sqrt(squares / spare), READING_ERROR / 2)
