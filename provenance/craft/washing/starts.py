"""Where a search for the parts of a wash begins."""

from collections.abc import Iterator, Sequence
from math import exp, log

from provenance.craft.washing.curve import MS_PER_MIN
from provenance.craft.washing.least_squares import Vector
from provenance.model.study import WashReading

BOUNDS = ((log(1e-3), log(1e9)), (log(1e-5), log(50)))
"""Of the logarithms of a start (up to a gram on a square centimetre) and of a rate
a minute (half-lives from a second to seven weeks)."""

_GENTLE = 1e-4


def starts(readings: Sequence[WashReading], parts: int) -> Iterator[Vector]:
    """One start for one part; for two, one for every way to cut the readings in time.

    A line through the late readings gives the slow part; what the early ones
    show above it gives the fast part (curve peeling).
    """
    ordered = sorted(readings, key=lambda reading: reading.washed_ms)
    points = [(one.washed_ms / MS_PER_MIN, log(one.left_ng_per_cm2)) for one in ordered]
    if parts == 1:
        yield _line(points)
        return
    for cut in range(1, len(points) - 1):
        start, rate = _line(points[cut:])
        above = [
            (time, log(over))
            for time, left in points[:cut]
            if (over := exp(left) - exp(start - exp(rate) * time)) > 0
        ] or [(0.0, start)]
        # one reading shows how much, not how fast: say ten times as fast
        fast = _line(above) if len(above) > 1 else (above[0][1], rate + log(10))
        yield (*fast, start, rate)


def _line(points: Sequence[tuple[float, float]]) -> Vector:
    """The logarithms of start and rate of the straight line through `points`."""
    count = len(points)
    middle = sum(time for time, _left in points) / count
    height = sum(left for _time, left in points) / count
    spread = sum((time - middle) ** 2 for time, _left in points)
    rise = sum((time - middle) * (left - height) for time, left in points)
    rate = max(_GENTLE, -rise / spread) if spread else _GENTLE
    return height + rate * middle, log(rate)
