"""A chart as values, for whoever draws it: curves, bars and letters in a part of the plane."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor

Point = tuple[float, float]


@dataclass(frozen=True)
class Frame:
    """The part of the plane that is shown."""

    left: float
    right: float
    bottom: float
    top: float

    def shares(self, at: Point) -> Point:
        """Where a point lies: 0 to 1 from the left, 0 to 1 from the top."""
        return (
            (at[0] - self.left) / (self.right - self.left),
            (self.top - at[1]) / (self.top - self.bottom),
        )


@dataclass(frozen=True)
class Trace:
    """Points joined by straight lines."""

    points: Sequence[Point]
    dashed: bool = False


@dataclass(frozen=True)
class Bar:
    """How far something may be off: from one point to another, with a tick at either end."""

    start: Point
    end: Point


@dataclass(frozen=True)
class Sign:
    """A letter at a point."""

    letter: str
    at: Point


@dataclass(frozen=True)
class Chart:
    """Everything that one picture shows."""

    across: str
    """What is told from left to right."""
    up: str
    frame: Frame
    traces: tuple[Trace, ...]
    bars: tuple[Bar, ...] = ()
    signs: tuple[Sign, ...] = ()


def frame_around(points: Iterable[Point]) -> Frame:
    """The smallest frame of whole halves that holds every point; a unit wide without any."""
    held = list(points) or [(0.0, 0.0)]
    sides = []
    for values in zip(*held, strict=True):
        low, high = floor(2 * min(values)) / 2, ceil(2 * max(values)) / 2
        sides += [low, max(high, low + 0.5)]
    return Frame(*sides)


def ticks(low: float, high: float, most: int = 7) -> list[float]:
    """Halves, units, or round numbers of units from `low` to `high`, at most so many."""
    for step in (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0):
        first = ceil(low / step - 1e-9)
        found = [step * place for place in range(first, floor(high / step + 1e-9) + 1)]
        if len(found) <= most:
            return found
    return [low, high]
