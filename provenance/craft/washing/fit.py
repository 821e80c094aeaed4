"""Fits what a studio's own tests found after several wash times.

Least squares on the logarithm, since what scatters is a share of what is left.
Two parts are told apart only where the readings bear it; otherwise one part
stands for both, and the fit says why.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, sqrt
from typing import Literal

from provenance.craft.washing.curve import Parts, WashPart, log_left, slopes_of_log
from provenance.craft.washing.least_squares import (
    Matrix,
    Solution,
    Vector,
    inverse,
    least_squares,
)
from provenance.craft.washing.readings import check_readings
from provenance.craft.washing.starts import BOUNDS, starts
from provenance.craft.washing.student import standard_errors
from provenance.errors import Problem, Refused
from provenance.model.study import WashReading

LEAST_FOR_TWO = 6
"""Two parts have four unknowns; fewer readings leave nothing to judge them by."""
_TIMES_FOR_TWO = 5
_BEST_SCATTER = 0.01
"""No figure of what is left is taken to be better than 1 % (an assumption)."""
_CHANCE = 0.05
_LEAST_RATIO = 2.0
_KNOWN_WITHIN = 5.0
"""A part whose start or half-life is known less closely than this factor is not known."""
_OPEN = 100.0
"""The logarithm of a factor that leaves everything open."""
_STANDING_STILL = exp(1)
"""A rate whose error is as large as itself may be none."""

WhyOne = Literal["too few", "no better", "alike", "not fixed"]
"""Why one part stands for both: too few readings, a fit that a second part makes
no better, two rates that are much the same, a part that the readings leave open."""


@dataclass(frozen=True)
class WashFit:
    """A curve through readings, and how well they fix it.

    `scatter` is the standard deviation of one reading as a share of what is
    left.  `bends` says that one straight part is refuted by the readings though
    two could not be told apart: such a fit tells no time.
    """

    parts: Parts
    """The faster first."""
    covariance: Matrix
    scatter: float
    freedom: int
    shortest_ms: int
    longest_ms: int
    why_one: WhyOne | None = None
    bends: bool = False

    def left_ng_per_cm2(self, washed_ms: float) -> float:
        """What is likely to be left."""
        return exp(log_left(self.parts, washed_ms))

    def band_ng_per_cm2(self, washed_ms: float) -> tuple[float, float]:
        """Between which 95 % of sheets washed so long are expected."""
        slopes = slopes_of_log(self.parts, washed_ms)
        along = sum(
            one * value * other
            for one, row in zip(slopes, self.covariance, strict=True)
            for other, value in zip(slopes, row, strict=True)
        )
        reach = standard_errors(self.freedom) * sqrt(max(0.0, along) + self.scatter**2)
        middle = log_left(self.parts, washed_ms)
        return exp(middle - reach), exp(middle + reach)

    @property
    def known_within(self) -> tuple[tuple[float, float], ...]:
        """For each part, the factors within which its start and its half-life are known (95 %)."""
        reach = standard_errors(self.freedom)
        logs = [reach * sqrt(row[place]) for place, row in enumerate(self.covariance)]
        factors = [exp(min(one, _OPEN)) for one in logs]
        return tuple(zip(factors[::2], factors[1::2], strict=True))


def fit_washing(readings: Sequence[WashReading]) -> WashFit:
    """The curve of a paper from its readings.

    Raises Refused when there are too few, when one says that nothing was left,
    and when what is left cannot be told from staying the same.
    """
    check_readings(readings)
    one = _search(readings, 1)
    if len(readings) < LEAST_FOR_TWO or len(_times(readings)) < _TIMES_FOR_TWO:
        return _falling(_finished(readings, one, why_one="too few"))
    two = _search(readings, 2)
    if _by_chance(one, two, len(readings)):
        return _falling(_finished(readings, one, why_one="no better"))
    try:
        finished = _finished(readings, two)
    except ZeroDivisionError:
        return _finished(readings, one, why_one="not fixed", bends=True)
    if finished.parts[0].rate_per_min < _LEAST_RATIO * finished.parts[1].rate_per_min:
        return _finished(readings, one, why_one="alike", bends=True)
    if max(map(max, finished.known_within)) > _KNOWN_WITHIN or _at_a_bound(two):
        return _finished(readings, one, why_one="not fixed", bends=True)
    return finished


def _search(readings: Sequence[WashReading], parts: int) -> Solution:
    found = [
        least_squares(lambda vector: _misfit(readings, vector), start, BOUNDS * parts)
        for start in starts(readings, parts)
    ]
    return min(found, key=lambda solution: solution.squares)


def _misfit(readings: Sequence[WashReading], vector: Vector) -> tuple[Vector, Matrix]:
    parts = _parts(vector)
    wrong = tuple(
        log_left(parts, reading.washed_ms) - log(reading.left_ng_per_cm2) for reading in readings
    )
    return wrong, tuple(slopes_of_log(parts, reading.washed_ms) for reading in readings)


def _parts(vector: Vector) -> Parts:
    return tuple(
        WashPart(exp(start), exp(rate))
        for start, rate in zip(vector[::2], vector[1::2], strict=True)
    )


def _finished(
    readings: Sequence[WashReading],
    solution: Solution,
    *,
    why_one: WhyOne | None = None,
    bends: bool = False,
) -> WashFit:
    """The fit of a search, the faster part first.

    Raises ZeroDivisionError when the readings leave a parameter open.
    """
    parts = _parts(solution.parameters)
    order = sorted(range(len(parts)), key=lambda part: -parts[part].rate_per_min)
    places = [place for part in order for place in (2 * part, 2 * part + 1)]
    freedom = len(readings) - len(solution.parameters)
    variance = max(solution.squares / freedom, _BEST_SCATTER**2)
    unit = inverse(solution.normal)
    if any(row[place] <= 0 for place, row in enumerate(unit)):
        raise ZeroDivisionError("the normal matrix is singular to the last figure")
    times = _times(readings)
    return WashFit(
        parts=tuple(parts[part] for part in order),
        covariance=tuple(
            tuple(variance * unit[row][column] for column in places) for row in places
        ),
        scatter=sqrt(variance),
        freedom=freedom,
        shortest_ms=times[0],
        longest_ms=times[-1],
        why_one=why_one,
        bends=bends,
    )


def _by_chance(one: Solution, two: Solution, readings: int) -> bool:
    """Whether the second part's gain could be chance: the F test, in closed form for two more."""
    floor = readings * _BEST_SCATTER**2
    gain = (two.squares + floor) / (one.squares + floor)
    chance: float = gain ** ((readings - 4) / 2)
    return chance > _CHANCE


def _at_a_bound(solution: Solution) -> bool:
    return any(
        min(value - low, high - value) < 1e-6
        for value, (low, high) in zip(solution.parameters, BOUNDS * 2, strict=True)
    )


def _falling(fit: WashFit) -> WashFit:
    """`fit`, when its one part falls beyond doubt."""
    ((_start, half_life),) = fit.known_within
    if half_life > _STANDING_STILL:
        raise Refused(
            Problem(
                "what is left does not fall with the time of washing, as far as these"
                " readings show",
                field="readings",
                mend="check their order and units; add readings further apart in time",
            )
        )
    return fit


def _times(readings: Sequence[WashReading]) -> list[int]:
    return sorted({reading.washed_ms for reading in readings})
