"""The characteristic curve of a paper, from readings that may be noisy.

Readings are first made to rise (isotonic regression, pooling neighbours that
fall), then joined by a monotone cubic (PCHIP), so the curve rises wherever the
paper does and never swings between readings.  Nothing is said outside of what
was read.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import hypot, sqrt
from statistics import fmean
from typing import Any

from provenance.craft.sensitometry.steps import Step, gathered, reading_error
from provenance.errors import Problem, Refused

FEWEST_STEPS = 5
LEAST_NET_DENSITY = 0.3
"""Readings that rise by less are not those of a tablet printed on paper."""


@dataclass(frozen=True)
class Curve:
    """A rising curve through knots, between D-min and D-max of the paper."""

    log_h: tuple[float, ...]
    density: tuple[float, ...]
    error: tuple[float, ...]
    """Of the density at each knot."""
    d_min: float
    d_max: float
    end_errors: tuple[float, float]
    """Of D-min and D-max."""
    moved: float = 0.0
    """By how much a reading had to be moved at most, for the curve to rise."""

    @property
    def net(self) -> float:
        """D-max above D-min."""
        return self.d_max - self.d_min

    def density_at(self, log_h: float) -> float:
        """The density that an exposure gives.  Raises Refused outside of the readings."""
        if not self.log_h[0] <= log_h <= self.log_h[-1]:
            raise Refused(
                Problem(
                    what=f"an exposure of log H {log_h:.2f} lies outside of the readings,"
                    f" {self.log_h[0]:.2f} to {self.log_h[-1]:.2f}",
                    field="log_h",
                    mend="print the tablet again with another exposure; a curve is not extended",
                )
            )
        return float(self._cubic(log_h))

    def reads(self, density: float) -> bool:
        """Whether a single exposure for this density can be told."""
        return self.density[0] < density < self.density[-1]

    def log_h_at(self, density: float) -> float:
        """The exposure that gives a density.

        Where the curve is level the middle of the level is taken.  Raises
        Refused outside of the readings, D-min and D-max included.
        """
        left, right = self._around(density)
        if self.density[right] == density:
            return (self.log_h[right] + self.log_h[bisect_right(self.density, density) - 1]) / 2
        from scipy.optimize import brentq

        def off(log_h: float) -> float:
            return float(self._cubic(log_h)) - density

        low, high = self.log_h[left], self.log_h[right]
        if off(low) >= 0 or off(high) <= 0:  # by rounding, a hair from a knot
            return low if off(low) >= 0 else high
        return float(brentq(off, low, high, xtol=1e-9))

    def sensitivities(self, density: float) -> dict[int, float]:
        """By how much `log_h_at` falls when each knot reads higher, as log H per density unit.

        To first order only the two knots around it count.
        """
        left, right = self._around(density)
        share = (density - self.density[left]) / (self.density[right] - self.density[left])
        # Noise between two neighbours can pass for steepness; a knot further out steadies it.
        low, high = max(left - 1, 0), min(right + 1, len(self.density) - 1)
        run = (self.log_h[high] - self.log_h[low]) / (self.density[high] - self.density[low])
        return {left: run * (1 - share), right: run * share}

    def run_at(self, density: float) -> float:
        """Log H for one density unit: how much exposure an error of density costs there."""
        return sum(self.sensitivities(density).values())

    def error_at(self, density: float) -> float:
        """The standard error of `log_h_at`, from those of the readings."""
        return hypot(*(run * self.error[knot] for knot, run in self.sensitivities(density).items()))

    def samples(self, count: int = 121) -> list[tuple[float, float]]:
        """Points along the curve for a drawing: log H and density."""
        first, last = self.log_h[0], self.log_h[-1]
        # by rounding the last point could lie a hair outside, where the curve says nothing
        exposures = [
            min(last, first + (last - first) * place / (count - 1)) for place in range(count)
        ]
        return [(log_h, float(self._cubic(log_h))) for log_h in exposures]

    def _around(self, density: float) -> tuple[int, int]:
        """The knots to either side of a density."""
        if not self.reads(density):
            raise Refused(
                Problem(
                    what=f"density {density:.2f} lies outside of the readings,"
                    f" {self.density[0]:.2f} to {self.density[-1]:.2f}",
                    field="density",
                    mend="no exposure can be told for it; a curve is not extended",
                )
            )
        right = bisect_left(self.density, density)
        return right - 1, right

    @cached_property
    def _cubic(self) -> Any:
        from scipy.interpolate import PchipInterpolator  # half a second, so only when used

        return PchipInterpolator(self.log_h, self.density, extrapolate=False)


def fit_curve(
    steps: Iterable[Step], unexposed: Sequence[float], fully_exposed: Sequence[float]
) -> Curve:
    """The curve of a paper from its readings and those of its two ends.

    `unexposed` and `fully_exposed` are readings of patches of their own: the
    ends of a tablet need not reach D-min or D-max.  Raises Refused without
    them, for ends the wrong way round, for fewer than five exposures, and for
    readings that do not rise.
    """
    for readings, name, mend in (
        (unexposed, "an unexposed patch", "read the border or a covered patch for D-min"),
        (fully_exposed, "a fully exposed patch", "expose one far past black for D-max"),
    ):
        if not readings:
            raise Refused(Problem(what=f"{name} was not read", field="wedge", mend=mend))
    d_min, d_max = fmean(unexposed), fmean(fully_exposed)
    if d_max - d_min < LEAST_NET_DENSITY:
        raise Refused(
            Problem(
                what=f"D-max {d_max:.2f} does not lie above D-min {d_min:.2f}",
                field="wedge",
                mend="check which patch was unexposed and which fully exposed",
            )
        )
    ordered = gathered(steps)
    if len(ordered) < FEWEST_STEPS:
        raise Refused(
            Problem(
                what=f"{len(ordered)} exposures do not make a curve",
                field="wedge",
                mend=f"read at least {FEWEST_STEPS} steps, better all",
            )
        )
    error = reading_error(one.densities for one in ordered)
    densities, counts = _made_to_rise(ordered)
    if densities[-1] - densities[0] < LEAST_NET_DENSITY:
        raise Refused(
            Problem(
                what="the readings do not rise with exposure",
                field="wedge",
                mend="check the order of the steps: a denser step of the tablet gives less"
                " exposure and a lighter patch",
            )
        )
    return Curve(
        tuple(step.log_h for step in ordered),
        densities,
        tuple(error / sqrt(count) for count in counts),
        d_min,
        d_max,
        (error / sqrt(len(unexposed)), error / sqrt(len(fully_exposed))),
        max(abs(one - step.density) for one, step in zip(densities, ordered, strict=True)),
    )


def _made_to_rise(steps: Sequence[Step]) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Densities that rise, and how many readings each rests on."""
    from scipy.optimize import isotonic_regression

    weights = [len(step.densities) for step in steps]
    fitted = isotonic_regression([step.density for step in steps], weights=weights)
    densities = tuple(float(one) for one in fitted.x)
    blocks = [int(one) for one in fitted.blocks]
    counts: list[int] = []
    for begin, end in pairwise(blocks):
        counts += [sum(weights[begin:end])] * (end - begin)
    return densities, tuple(counts)
