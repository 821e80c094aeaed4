"""Curves in braille: a terminal cell is two dots wide and four high."""

from collections.abc import Sequence
from dataclasses import dataclass

from provenance.craft.chart import Chart, Frame, Point, ticks

_BLANK = 0x2800
_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot of a braille cell, by row and column."""


@dataclass(frozen=True)
class Line:
    """Points joined by straight lines, or marked singly; dotted where `every` is above 1."""

    points: Sequence[Point]
    every: int = 1
    joined: bool = True


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


_LABELS = 4
"""Columns that the figures at the left take."""


def chart_rows(chart: Chart, columns: int, rows: int) -> list[str]:
    """The chart in `rows` lines of text at most `columns` wide, its axes in figures.

    Dashed traces are dotted, bars are drawn through, and a letter takes the cell
    that it lies in.
    """
    wide, high = columns - _LABELS - 1, rows - 2
    lines = [Line(one.points, every=3 if one.dashed else 1) for one in chart.traces]
    lines += [Line((one.start, one.end)) for one in chart.bars]
    cells = [list(row) for row in braille(lines, wide, high, chart.frame)]
    for sign in chart.signs:
        across, down = chart.frame.shares(sign.at)
        if 0 <= across <= 1 and 0 <= down <= 1:
            cells[round(down * (high - 1))][round(across * (wide - 1))] = sign.letter
    frame = chart.frame
    heads = [""] * high
    for value in ticks(frame.bottom, frame.top, max(2, high // 2)):
        _across, down = frame.shares((frame.left, value))
        heads[round(down * (high - 1))] = f"{value:.1f}"
    drawn = [
        f"{head:>{_LABELS}}{'┤' if head else '│'}{''.join(row)}"
        for head, row in zip(heads, cells, strict=True)
    ]
    axis, foot = ["─"] * wide, [" "] * (wide + _LABELS)
    for value in ticks(frame.left, frame.right, max(2, wide // 8)):
        across = round(frame.shares((value, frame.bottom))[0] * (wide - 1))
        axis[across] = "┴" if across else "─"
        told = f"{value:.1f}"
        begin = min(across + _LABELS - 1, wide + _LABELS - len(told))
        foot[begin : begin + len(told)] = told
    drawn += [" " * _LABELS + "└" + "".join(axis), " " + "".join(foot).rstrip()]
    return drawn


def letter_rows(
    letters: Sequence[tuple[str, Point]], height: float, width: float, columns: int, rows: int
) -> list[str]:
    """A frame of the proportion `height` to `width` with letters in it, as lines of text.

    Points are shares: 0 to 1 from the left, and 0 to 1 from the top.  A cell is
    taken to be twice as high as it is wide.
    """
    wide, high = columns - 2, rows - 2
    if width * 2 * high > height * wide:
        high = max(1, round(height * wide / width / 2))
    else:
        wide = max(1, round(width * 2 * high / height))
    cells = [[" "] * wide for _row in range(high)]
    for letter, (across, down) in letters:
        cells[round(down * (high - 1))][round(across * (wide - 1))] = letter
    edge = "─" * wide
    return [f"┌{edge}┐", *(f"│{''.join(row)}│" for row in cells), f"└{edge}┘"]
