"""A list that is read: wrapped lines with a word at the right edge, and a cursor among them."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import ClassVar

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding, BindingType
from textual.events import Click, Resize
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip


@dataclass(frozen=True)
class Line:
    """One entry: `lead` stands at the left, `text` is wrapped, `right` is the quiet word."""

    text: str
    lead: str = ""
    right: str = ""
    records: tuple[int, ...] = ()
    group: str = ""
    heading: bool = False
    """A heading cannot be stood on."""
    quiet: bool = False
    strong: bool = False


@dataclass(frozen=True)
class _Row:
    line: int
    lead: str
    text: str
    right: str
    style: str = field(default="line-list--plain")


def wrap(text: str, width: int) -> list[str]:
    """`text` in rows of at most `width` cells, broken between words where it can be."""
    rows: list[str] = []
    row = ""
    for word in text.split(" "):
        while cell_len(word) > width:
            if row:
                rows.append(row)
                row = ""
            cut = _cells(word, width)
            rows.append(word[:cut])
            word = word[cut:]
        joined = f"{row} {word}" if row else word
        if cell_len(joined) > width and row:
            rows.append(row)
            row = word
        else:
            row = joined
    rows.append(row)
    return rows


def _cells(text: str, width: int) -> int:
    """How many characters of `text` fill at most `width` cells, at least one."""
    count, used = 0, 0
    for character in text:
        used += cell_len(character)
        if used > width and count:
            break
        count += 1
    return max(1, count)


class LineList(ScrollView, can_focus=True):
    """Lines to read and to stand on; enter opens the one under the cursor."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "line-list--plain",
        "line-list--quiet",
        "line-list--strong",
        "line-list--heading",
        "line-list--cursor",
    }
    DEFAULT_CSS = """
    LineList { height: 1fr; scrollbar-size-vertical: 1; background: $background; }
    LineList .line-list--plain { color: $foreground; }
    LineList .line-list--quiet { color: $quiet; }
    LineList .line-list--strong { color: $foreground; text-style: bold; }
    LineList .line-list--heading { color: $quiet; }
    LineList .line-list--cursor { background: $cursor; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,k", "move(-1)", "up", show=False),
        Binding("down,j", "move(1)", "down", show=False),
        Binding("pageup", "move(-10)", "page up", show=False),
        Binding("pagedown", "move(10)", "page down", show=False),
        Binding("home", "move(-100000)", "first", show=False),
        Binding("end", "move(100000)", "last", show=False),
    ]

    cursor = reactive(0)

    class Opened(Message):
        """Enter was pressed, or the mouse clicked, on a line."""

        def __init__(self, line: Line) -> None:
            super().__init__()
            self.line = line

    def __init__(
        self,
        *,
        lead_width: int = 0,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__(id=id)
        self._lead_width = lead_width
        self._lines: tuple[Line, ...] = ()
        self._rows: list[_Row] = []

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is shown."""
        return self._lines

    @property
    def current(self) -> Line | None:
        """The line under the cursor."""
        return self._lines[self.cursor] if self._lines else None

    def show(self, lines: Sequence[Line]) -> None:
        """Show `lines`; the cursor stays where it was, as far as it can."""
        self._lines = tuple(lines)
        self._layout_rows()
        if self._lines:
            self.cursor = self._nearest(min(self.cursor, len(self._lines) - 1), 1)

    def _nearest(self, place: int, step: int) -> int:
        """The first line that can be stood on, from `place` on in the direction of `step`."""
        for direction in (step, -step):
            at = place
            while 0 <= at < len(self._lines):
                if not self._lines[at].heading:
                    return at
                at += direction
        return place

    def _layout_rows(self) -> None:
        width = max(20, self.size.width - 2)
        self._rows = []
        for place, line in enumerate(self._lines):
            room = width - self._lead_width - (cell_len(line.right) + 2 if line.right else 0)
            style = (
                "heading" if line.heading
                else "strong" if line.strong
                else "quiet" if line.quiet
                else "plain"
            )  # fmt: skip
            texts = [line.text] if line.heading else wrap(line.text, max(12, room))
            for number, text in enumerate(texts):
                last = number == len(texts) - 1
                self._rows.append(
                    _Row(
                        place,
                        line.lead if number == 0 else "",
                        text,
                        line.right if last else "",
                        f"line-list--{style}",
                    )
                )
        self.virtual_size = Size(width, len(self._rows))
        self.refresh()

    def on_resize(self, _event: Resize) -> None:
        """Wrap anew."""
        self._layout_rows()

    def render_line(self, y: int) -> Strip:
        """One row, drawn when it is needed."""
        place = y + self.scroll_offset.y
        width = self.size.width
        base = self.rich_style
        if place >= len(self._rows):
            return Strip.blank(width, base)
        row = self._rows[place]
        style = self.get_component_rich_style(row.style)
        quiet = self.get_component_rich_style("line-list--quiet")
        if row.style == "line-list--heading" and row.text:
            rule = row.text + " " + "─" * max(0, width - cell_len(row.text) - 2)
            return Strip([Segment(set_cell_size(rule, width), style)])
        right = f"{row.right} " if row.right else ""
        room = width - self._lead_width - cell_len(right)
        on = row.line == self.cursor and self.has_focus
        under = (
            Style(bgcolor=self.get_component_rich_style("line-list--cursor").bgcolor)
            if on
            else Style.null()
        )
        return Strip(
            [
                Segment(set_cell_size(row.lead, self._lead_width), quiet + under),
                Segment(set_cell_size(row.text, room), style + under),
                Segment(right, quiet + under),
            ]
        ).adjust_cell_length(width, base + under)

    def action_move(self, by: int) -> None:
        """Move the cursor by so many lines; headings are passed over."""
        if self._lines:
            wanted = max(0, min(len(self._lines) - 1, self.cursor + by))
            self.cursor = self._nearest(wanted, 1 if by > 0 else -1)

    def watch_cursor(self) -> None:
        """Keep the line under the cursor in sight, with the heading above it."""
        rows = [place for place, row in enumerate(self._rows) if row.line == self.cursor]
        if rows:
            top = rows[0]
            while top > 0 and self._lines[self._rows[top - 1].line].heading:
                top -= 1
            self.scroll_to_region(Region(0, top, 1, rows[-1] - top + 1), animate=False, force=True)
        self.refresh()

    def on_focus(self) -> None:
        """The cursor is drawn only where keys go."""
        self.refresh()

    def on_blur(self) -> None:
        """The cursor is drawn only where keys go."""
        self.refresh()

    def open_current(self) -> None:
        """Say that the line under the cursor is to be opened."""
        line = self.current
        if line is not None and not line.heading:
            self.post_message(self.Opened(line))

    def on_click(self, event: Click) -> None:
        """A click puts the cursor there; a second one opens."""
        place = event.y + self.scroll_offset.y
        if 0 <= place < len(self._rows):
            line = self._rows[place].line
            if line == self.cursor and event.chain > 1:
                self.open_current()
            elif not self._lines[line].heading:
                self.cursor = line
