"""Figures drawn of cells, to be read from two metres."""

from rich.text import Text
from textual.widget import Widget

HIGH = 7
"""Rows of a figure at its plain size; on a low screen the upright rows are drawn once: 5."""
_FIGURES = {
    "0": ("####", "#..#", "#..#", "#..#", "#..#", "#..#", "####"),
    "1": ("..#.", ".##.", "..#.", "..#.", "..#.", "..#.", ".###"),
    "2": ("####", "...#", "...#", "####", "#...", "#...", "####"),
    "3": ("####", "...#", "...#", ".###", "...#", "...#", "####"),
    "4": ("#..#", "#..#", "#..#", "####", "...#", "...#", "...#"),
    "5": ("####", "#...", "#...", "####", "...#", "...#", "####"),
    "6": ("####", "#...", "#...", "####", "#..#", "#..#", "####"),
    "7": ("####", "...#", "...#", "..#.", "..#.", ".#..", ".#.."),
    "8": ("####", "#..#", "#..#", "####", "#..#", "#..#", "####"),
    "9": ("####", "#..#", "#..#", "####", "...#", "...#", "####"),
    ":": (".", ".", "#", ".", "#", ".", "."),
    "-": ("....", "....", "....", "####", "....", "....", "...."),
}
_LOW_ROWS = (0, 1, 3, 4, 6)
_LOW_COLON = (".", "#", ".", "#", ".")


class BigClock(Widget):
    """A time in figures as large as there is room for, never less than five rows high."""

    DEFAULT_CSS = "BigClock { height: 1fr; color: $foreground; text-style: bold; }"

    def __init__(self) -> None:
        super().__init__()
        self._shown = ""

    def show(self, time: str) -> None:
        """Show a time, such as ``12:34``; anything but figures, colons and dashes is left out."""
        if time != self._shown:
            self._shown = time
            self.refresh()

    def render(self) -> Text:
        """The figures, in the middle of the height."""
        rows = figures(self._shown, self.size.width, self.size.height)
        above = max(0, (self.size.height - len(rows)) // 2)
        return Text("\n" * above + "\n".join(rows), no_wrap=True, overflow="crop")


def figures(time: str, width: int, height: int) -> list[str]:
    """The rows of the figures, as large as fits into `width` by `height` cells."""
    glyphs = [_glyph(one, low=height < HIGH) for one in time if one in _FIGURES]
    points = sum(len(glyph[0]) for glyph in glyphs) + max(0, len(glyphs) - 1)
    tall = max(1, height // HIGH)
    # a cell is about twice as high as it is wide
    wide = max(1, min(2 * tall, width // max(1, points)))
    rows = [".".join(parts) for parts in zip(*glyphs, strict=True)]
    drawn = ["".join("█" * wide if one == "#" else " " * wide for one in row) for row in rows]
    return [row.rstrip() for row in drawn for _ in range(tall)]


def _glyph(one: str, *, low: bool) -> tuple[str, ...]:
    if low and one == ":":
        return _LOW_COLON
    return tuple(_FIGURES[one][row] for row in _LOW_ROWS) if low else _FIGURES[one]
