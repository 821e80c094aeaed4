"""A chart on paper: black lines of one strength, figures at its edges, letters in it."""

from collections.abc import Sequence

from provenance.craft.chart import Chart, ticks
from provenance.documents.fonts import width_pt
from provenance.documents.marks import Drawing, Element, Ink, Mark, Point, Stroke, Style, Words

_TICK_PT = 3.0
_LEFT_PT, _BELOW_PT = 22.0, 24.0
"""Room for the figures and for what they tell."""


def draw_chart(
    chart: Chart,
    box: tuple[float, float, float, float],
    style: Style,
    *,
    weight_pt: float,
    told: tuple[str, str],
    alternative: str,
) -> Mark:
    """The chart in a box (left, top below the slab's, width, height in points).

    `told` is what stands below the axis across and over the axis up;
    `alternative` is for who cannot see it.
    """
    left, top, width, height = box
    head = style.leading_pt
    inner_w, inner_h = width - _LEFT_PT, height - _BELOW_PT - head
    frame = chart.frame

    def place(at: Point) -> Point:
        across, down = frame.shares(at)
        return across * inner_w, down * inner_h

    def inside(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(
            (min(max(x, 0.0), inner_w), min(max(down, 0.0), inner_h))
            for x, down in map(place, points)
        )

    edge = ((0.0, 0.0), (0.0, inner_h), (inner_w, inner_h))
    strokes = [Stroke(edge, weight_pt)]
    words: list[Ink] = []

    def write(text: str, x: float, down: float, share: float = 0.5) -> None:
        x -= share * width_pt(text, style.font, style.size_pt)
        words.append(Words(left + _LEFT_PT + x, top + head + down, text, style))

    for value in ticks(frame.bottom, frame.top, 5):
        _x, down = place((frame.left, value))
        strokes.append(Stroke(((0.0, down), (_TICK_PT, down)), weight_pt))
        write(f"{value:.1f}", -3, down + style.size_pt * 0.33, 1.0)
    for value in ticks(frame.left, frame.right, 6):
        x, _down = place((value, frame.bottom))
        strokes.append(Stroke(((x, inner_h - _TICK_PT), (x, inner_h)), weight_pt))
        write(f"{value:.1f}", x, inner_h + style.size_pt)
    write(told[0], inner_w, inner_h + 2.1 * style.size_pt, 1.0)
    write(told[1], -_LEFT_PT, -style.size_pt * 0.5, 0.0)
    for trace in chart.traces:
        strokes.append(Stroke(inside(trace.points), weight_pt * 1.15, trace.dashed))
    for bar in chart.bars:
        (x1, d1), (x2, d2) = inside((bar.start, bar.end))
        upright = abs(x2 - x1) < abs(d2 - d1)
        dx, dd = (1.6, 0.0) if upright else (0.0, 1.6)
        strokes.append(Stroke(((x1, d1), (x2, d2)), weight_pt))
        strokes += [
            Stroke(((x - dx, d - dd), (x + dx, d + dd)), weight_pt) for x, d in ((x1, d1), (x2, d2))
        ]
    for sign in chart.signs:
        x, down = place(sign.at)
        write(sign.letter, x - 4, down - 3, 1.0)
    drawing = Drawing(left + _LEFT_PT, top + head, inner_w, inner_h, tuple(strokes))
    return Mark(Element("Figure", alternative=alternative), (drawing, *words))
