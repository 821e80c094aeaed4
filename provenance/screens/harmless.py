"""A gate before the terminal: nothing that was recorded, or that a file is called, can steer it.

The journal takes no control characters; a file's name may hold any, and marks
that turn the direction of writing are in texts that mean well.  Cells are
counted without them, so they are left out; the command line writes them as escapes.
"""

import re

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

_STEERING = re.compile(
    "[\x00-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ufeff]"
)
_HALF = re.compile("[\ud800-\udfff]")
"""Half a character, of a file name that is not UTF-8; it has a cell of its own."""


class Harmless(LineFilter):
    """Leaves out what a terminal would obey."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The segments without such characters; the controls of the library itself stay."""
        if all(segment.text.isprintable() or segment.control for segment in segments):
            return segments
        return [
            segment
            if segment.control
            else Segment(_HALF.sub("?", _STEERING.sub("", segment.text)), segment.style, None)
            for segment in segments
        ]
