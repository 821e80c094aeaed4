"""Draws the cells of a screen as SVG: grounds as rectangles, texts by their runs."""

from collections.abc import Iterator, Sequence
from html import escape

from rich.cells import cell_len
from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

WIDTH, HEIGHT, BASE = 9, 20, 15
"""A cell in pixels, and where in it a text stands."""
EDGE = 12
UPPER_HALF = "▀"


def draw(lines: Sequence[Strip], columns: int, ground: str) -> str:
    """The screen as SVG, on `ground`."""
    across, down = columns * WIDTH + 2 * EDGE, len(lines) * HEIGHT + 2 * EDGE
    names: dict[str, str] = {}
    shapes = [one for row, line in enumerate(lines) for one in _line(line, row, ground, names)]
    styles = "".join(f".{name}{{{rule}}}" for rule, name in names.items())
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {across} {down}"'
        f' width="{across}" height="{down}">'
    )
    font = "15px ui-monospace,Menlo,Consolas,DejaVu Sans Mono,monospace"
    base = f"text{{font:{font};white-space:pre}}rect{{shape-rendering:crispEdges}}"
    sheet = f'<rect width="100%" height="100%" fill="{ground}"/>'
    return "\n".join([head, f"<style>{base}{styles}</style>", sheet, *shapes, "</svg>", ""])


def _line(line: Strip, row: int, ground: str, names: dict[str, str]) -> Iterator[str]:
    x, y = EDGE, EDGE + row * HEIGHT
    for segment in Segment.simplify(line):
        style = segment.style or Style.null()
        fore, back = _colours(style)
        cells = cell_len(segment.text)
        if not cells:
            continue
        if back != ground:
            yield _box(x, y, cells * WIDTH, HEIGHT, back)
        if segment.text.strip(UPPER_HALF) == "":
            yield _box(x, y, cells * WIDTH, HEIGHT // 2, fore)
        elif segment.text.strip():
            bare = segment.text.lstrip()
            at = x + (cells - cell_len(bare)) * WIDTH
            yield _text(bare.rstrip(), at, y + BASE, fore, bold=bool(style.bold), names=names)
        x += cells * WIDTH


def _colours(style: Style) -> tuple[str, str]:
    pair = [
        (colour or Color.default()).get_truecolor().hex for colour in (style.color, style.bgcolor)
    ]
    return (pair[1], pair[0]) if style.reverse else (pair[0], pair[1])


def _box(x: int, y: int, width: int, height: int, fill: str) -> str:
    return f'<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="{fill}"/>'


def _text(text: str, x: int, y: int, fill: str, *, bold: bool, names: dict[str, str]) -> str:
    rule = f"fill:{fill}" + (";font-weight:bold" if bold else "")
    name = names.setdefault(rule, f"t{len(names)}")
    length = cell_len(text) * WIDTH
    return (
        f'<text class="{name}" x="{x}" y="{y}" textLength="{length}"'
        f' lengthAdjust="spacingAndGlyphs" xml:space="preserve">{escape(text, quote=False)}</text>'
    )
