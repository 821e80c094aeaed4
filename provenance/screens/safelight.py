"""The last gate before the terminal: in safelight nothing but pure red leaves it.

A theme alone is not enough: scroll bars, pictures and whatever a library draws
bring colours of their own.  A line filter sees every segment last.
"""

from functools import lru_cache

from rich.color import Color
from rich.color_triplet import ColorTriplet
from rich.segment import Segment
from rich.style import Style
from textual.color import Color as TextualColor
from textual.filter import LineFilter

RED = 0xEA
"""The red of plain text; on black its contrast is 4.5 to 1."""
QUIET_RED = 0xB4
"""The red of quiet text."""


def _level(triplet: ColorTriplet) -> float:
    """How bright a colour is, 0 to 1 (weights of ITU-R BT.709)."""
    return (0.2126 * triplet.red + 0.7152 * triplet.green + 0.0722 * triplet.blue) / 255


@lru_cache(maxsize=4096)
def _red(colour: Color, *, ground: bool) -> Color:
    if colour.is_default:
        return Color.from_rgb(0, 0, 0) if ground else Color.from_rgb(RED, 0, 0)
    triplet = colour.get_truecolor()
    if triplet.green == triplet.blue == 0:
        return Color.from_rgb(triplet.red, 0, 0)
    return Color.from_rgb(round(255 * _level(triplet)), 0, 0)


@lru_cache(maxsize=4096)
def red_style(style: Style) -> Style:
    """`style` in black and pure red, of the brightness it had."""
    fore = _red(style.color or Color.default(), ground=False)
    back = _red(style.bgcolor or Color.default(), ground=True)
    return style + Style.from_color(fore, back)


class PureRed(LineFilter):
    """Turns every colour of a line into a red of the same brightness."""

    def apply(self, segments: list[Segment], background: TextualColor) -> list[Segment]:
        """The segments, recoloured; `background` is what lies below them."""
        return [
            Segment(text, red_style(style or Style.null()), None) for text, style, _ in segments
        ]


DARKEN_TERMINAL = "\x1b]10;rgb:ea/00/00\x07\x1b]11;rgb:00/00/00\x07\x1b]12;rgb:ea/00/00\x07"
"""Sets the terminal's own text, ground and cursor colours (OSC 10, 11, 12)."""
RESTORE_TERMINAL = "\x1b]110\x07\x1b]111\x07\x1b]112\x07"
"""Gives them back (OSC 110, 111, 112)."""
