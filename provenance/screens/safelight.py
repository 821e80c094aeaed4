"""The last gate before the terminal: in safelight nothing but pure red leaves it.

A theme alone is not enough: scroll bars, pictures and whatever a library draws
bring colours of their own.  A line filter sees every segment last; after it
only the terminal's own palette remains, which is bracketed.
"""

from functools import lru_cache

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.color import Color as TextualColor
from textual.filter import LineFilter

RED = 0xEA
"""The red of plain text; on black its contrast is 4.5 to 1."""
CUBE = (0, 95, 135, 175, 215, 255)
"""The reds of a palette of 256; none is brightened with another colour."""
LIT = 0x60
"""Where there is one red only, what is at least so bright is red, the rest black."""
HALF_CELL = "▀"
"""Ground and text of a picture's cell are two of its points."""


def red_level(colour: Color | None, *, ground: bool) -> int:
    """How bright the red is that stands for `colour`, 0 to 255 (weights of ITU-R BT.709)."""
    if colour is None or colour.is_default:
        return 0 if ground else RED
    red, green, blue = colour.get_truecolor()
    if green == blue == 0:
        return red
    return round(0.2126 * red + 0.7152 * green + 0.0722 * blue)


@lru_cache(maxsize=4096)
def _pair(fore: int, back: int, system: str, *, points: bool) -> Style:
    if system == "truecolor":
        return Style.from_color(Color.from_rgb(fore, 0, 0), Color.from_rgb(back, 0, 0))
    if system == "256":
        # never darker than it was meant
        text, ground = (next(step for step in CUBE if step >= level) for level in (fore, back))
        if text == ground and fore > back:
            ground = CUBE[max(0, CUBE.index(ground) - 1)]
        return Style.from_color(Color.from_rgb(text, 0, 0), Color.from_rgb(ground, 0, 0))
    if points:
        return _of_sixteen(fore >= LIT, back >= LIT)
    # one red and black: text must be told from its ground
    return _of_sixteen(fore >= back, fore < back)


def _of_sixteen(text: bool, ground: bool) -> Style:
    return Style.from_color(Color.from_ansi(int(text)), Color.from_ansi(int(ground)))


class PureRed(LineFilter):
    """Turns every colour of a line into a red of about the same brightness.

    `system` is what the terminal can show, as rich calls it: truecolor, 256 or
    standard.  The reds are chosen so that nothing is left to be rounded later.
    """

    def __init__(self, system: str = "truecolor") -> None:
        super().__init__()
        self._system = system

    def apply(self, segments: list[Segment], background: TextualColor) -> list[Segment]:
        """The segments, recoloured; `background` is what lies below them."""
        return [
            Segment(text, self._red(style or Style.null(), points=HALF_CELL in text), None)
            for text, style, _ in segments
        ]

    def _red(self, style: Style, *, points: bool) -> Style:
        fore = red_level(style.color, ground=False)
        back = red_level(style.bgcolor, ground=True)
        if style.reverse:
            fore, back = back, fore
        plain = Style(reverse=False, dim=False)
        return style + plain + _pair(fore, back, self._system, points=points)


DARKEN_TERMINAL = (
    "\x1b]4;0;rgb:00/00/00;1;rgb:ea/00/00;8;rgb:00/00/00;9;rgb:ff/00/00\x07"
    "\x1b]10;rgb:ea/00/00\x07\x1b]11;rgb:00/00/00\x07\x1b]12;rgb:ea/00/00\x07"
)
"""Sets the terminal's text, ground and cursor, and the black and red of its palette."""
RESTORE_TERMINAL = "\x1b]104;0;1;8;9\x07\x1b]110\x07\x1b]111\x07\x1b]112\x07"
"""Gives them back (OSC 104, 110, 111, 112)."""
