"""Curves in braille: a terminal cell is two dots wide and four high."""

from collections.abc import Sequence
from dataclasses import dataclass

Point = tuple[float, float]
_BLANK = 0x2800
_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot of a braille cell, by row and column."""


@dataclass(frozen=True)
class Line:
    """Points joined by straight lines, or marked singly; dotted where `every` is above 1."""

    points: Sequence[Point]
    every: int = 1
    joined: bool = True


@dataclass(frozen=True)
class Frame:
    """The part of the plane that is shown."""

    left: float
    right: float
    bottom: float
    top: float


def frame_of(lines: Sequence[Line]) -> Frame:
    """The smallest frame that holds every point, never without width or height."""
    xs = [x for line in lines for x, _y in line.points] or [0.0]
    ys = [y for line in lines for _x, y in line.points] or [0.0]
    left, bottom = min(xs), min(ys)
    return Frame(left, max(max(xs), left + 1e-9), bottom, max(max(ys), bottom + 1e-9))


def braille(
    lines: Sequence[Line], columns: int, rows: int, frame: Frame | None = None
) -> list[str]:
    """`rows` lines of text, each `columns` wide; what lies outside of the frame is left out."""
    shown = frame or frame_of(lines)
    cells = [[_BLANK] * columns for _row in range(rows)]
    across, down = 2 * columns - 1, 4 * rows - 1

    def place(x: float, y: float) -> tuple[float, float]:
        return (
            (x - shown.left) / (shown.right - shown.left) * across,
            (shown.top - y) / (shown.top - shown.bottom) * down,
        )

    for line in lines:
        for x, y in _dots([place(x, y) for x, y in line.points], line):
            if 0 <= x <= across and 0 <= y <= down:
                cells[y // 4][x // 2] |= _DOTS[y % 4][x % 2]
    return ["".join(map(chr, row)) for row in cells]


def _dots(placed: Sequence[Point], line: Line) -> list[tuple[int, int]]:
    """The dots of a line in order, each once, every so many of them."""
    dots: dict[tuple[int, int], None] = {}
    ends = [*placed[1:], *placed[-1:]] if line.joined else placed
    for (x, y), (to_x, to_y) in zip(placed, ends, strict=True):
        steps = max(1, round(max(abs(to_x - x), abs(to_y - y))))
        for step in range(steps):
            share = step / steps
            dots[round(x + (to_x - x) * share), round(y + (to_y - y) * share)] = None
    return list(dots)[:: line.every]
