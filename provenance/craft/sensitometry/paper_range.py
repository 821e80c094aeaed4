"""Log exposure range of a paper, its class, and its speed point."""

from dataclasses import dataclass
from math import floor, hypot

from provenance.craft.sensitometry.curve import Curve
from provenance.model.sources import Sourced

TOE = 0.04
"""Density above D-min at which the range begins."""
TOE_SOURCE = Sourced("S", "Focal Encyclopedia of Photography, p. 679")
SHOULDER = 0.90
"""Share of D-max above D-min at which the range ends."""
SPEED_POINT = 0.60
"""Density above D-min at which the speed is taken."""
STANDARD_SOURCE = Sourced("M", "ISO 6846")


@dataclass(frozen=True)
class PaperRange:
    """Where the useful exposures of a paper begin and end, in log H."""

    begins: float
    ends: float
    error: float = 0.0
    """The standard error of the range."""

    @property
    def log_h(self) -> float:
        """The range."""
        return self.ends - self.begins

    @property
    def class_r(self) -> int:
        """R: a hundred times the range, to the nearest 10."""
        return _to_ten(self.log_h)

    @property
    def classes(self) -> tuple[int, int]:
        """The lowest and the highest R within two standard errors."""
        return _to_ten(self.log_h - 2 * self.error), _to_ten(self.log_h + 2 * self.error)


def _to_ten(log_h: float) -> int:
    return 10 * floor(10 * log_h + 0.5)


def range_densities(d_min: float, d_max: float) -> tuple[float, float]:
    """The densities between which the range is taken."""
    return d_min + TOE, d_min + SHOULDER * (d_max - d_min)


def paper_range(curve: Curve) -> PaperRange:
    """The range read off the curve.  Raises Refused when the tablet did not cover it."""
    toe, shoulder = range_densities(curve.d_min, curve.d_max)
    of_d_min, of_d_max = curve.end_errors
    at_toe, at_shoulder = curve.run_at(toe), curve.run_at(shoulder)
    return PaperRange(
        curve.log_h_at(toe),
        curve.log_h_at(shoulder),
        hypot(
            curve.error_at(toe),
            curve.error_at(shoulder),
            of_d_min * ((1 - SHOULDER) * at_shoulder - at_toe),
            of_d_max * SHOULDER * at_shoulder,
        ),
    )


def speed_point(curve: Curve) -> float:
    """The log H that gives D-min + 0.60."""
    return curve.log_h_at(curve.d_min + SPEED_POINT)


def slower_by(old: Curve, new: Curve) -> float:
    """How much more log exposure the new paper needs at the speed point; below zero if less.

    Both curves must be of one tablet in one light.
    """
    return speed_point(new) - speed_point(old)
