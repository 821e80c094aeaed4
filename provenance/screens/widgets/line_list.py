"""A list that is read: wrapped lines with a word at the right edge, and a cursor among them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding, BindingType
from textual.events import Click, Resize
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from provenance.screens.widgets.columns import fit
from provenance.screens.widgets.wrapping import wrap

HERE = "▸"
GUTTER = 1
"""Cells before every line, where the cursor's sign stands."""
GAP, MARGIN = 1, 1
"""Cells before and after the word at the right edge."""
LEAST_TEXT = 12


@dataclass(frozen=True)
class Line:
    """One entry: `lead` stands at the left, `text` is wrapped, `right` is the quiet word."""

    text: str
    lead: str = ""
    right: str = ""
    note: str = ""
    """Stands below the text, in the quiet weight."""
    records: tuple[int, ...] = ()
    group: str = ""
    heading: bool = False
    """A heading cannot be stood on; a rule fills its line unless it is quiet."""
    quiet: bool = False
    strong: bool = False
    wide: bool = False
    """The text begins at the left edge instead of behind the leads."""


@dataclass(frozen=True)
class _Row:
    line: int
    lead: str
    text: str
    right: str
    first: bool
    note: bool = False


class LineList(ScrollView, can_focus=True, inherit_bindings=False):
    """Lines to read and to stand on."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "line-list--plain",
        "line-list--quiet",
        "line-list--strong",
        "line-list--rule",
        "line-list--cursor",
        "line-list--sign",
    }
    DEFAULT_CSS = """
    LineList { height: 1fr; scrollbar-size-vertical: 1; scrollbar-gutter: stable;
               overflow-x: hidden; overflow-y: auto; background: $background; }
    LineList .line-list--plain { color: $foreground; }
    LineList .line-list--quiet { color: $quiet; }
    LineList .line-list--strong { color: $foreground; text-style: bold; }
    LineList .line-list--rule { color: $rule; }
    LineList .line-list--cursor { background: $cursor; }
    LineList .line-list--sign { color: $accent; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "move(-100000)", "first", show=False),
        Binding("end", "move(100000)", "last", show=False),
    ]

    cursor = reactive(0)
    always_lit = False
    """Whether the cursor is drawn although the keys go elsewhere."""

    class Opened(Message):
        """The mouse clicked twice on a line."""

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
        self.lead_width = lead_width
        """Cells before the texts; a change shows with the next `show`."""
        self._lines: tuple[Line, ...] = ()
        self._rows: list[_Row] = []
        self._right_width = 0

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is shown."""
        return self._lines

    @property
    def current(self) -> Line | None:
        """The line under the cursor."""
        return self._lines[self.cursor] if self.cursor < len(self._lines) else None

    def show(self, lines: Sequence[Line]) -> None:
        """Show `lines`; the cursor stays with its records, else where it was."""
        before = self.current
        self._lines = tuple(lines)
        self._layout_rows()
        if self._lines:
            place = min(self.cursor, len(self._lines) - 1)
            self.cursor = self._nearest(self._same(before, place), 1)
            self.call_after_refresh(self._reveal)

    def _same(self, before: Line | None, place: int) -> int:
        """Where the line now is that the cursor was on."""
        if before is None or not before.records:
            return place
        same = [
            at
            for at, line in enumerate(self._lines)
            if (line.records, line.group) == (before.records, before.group)
        ]
        return min(same, key=lambda at: abs(at - place), default=place)

    def _nearest(self, place: int, step: int) -> int:
        """The first line that can be stood on, from `place` on in the direction of `step`."""
        for direction in (step, -step):
            at = place
            while 0 <= at < len(self._lines):
                if not self._lines[at].heading:
                    return at
                at += direction
        return place

    @property
    def _width(self) -> int:
        return self.scrollable_content_region.width

    def _layout_rows(self) -> None:
        self._right_width = max((cell_len(line.right) for line in self._lines), default=0)
        self._rows = []
        # before its first size there is nothing to wrap to; `on_resize` comes with one
        for place, line in enumerate(self._lines if self._width else ()):
            room = max(LEAST_TEXT, self._width - self._text_start(line) - self._right_room(line))
            texts = [line.text] if line.heading else wrap(line.text, room)
            last = len(texts) - 1
            self._rows += [
                _Row(
                    place,
                    "" if number else line.lead,
                    text,
                    line.right if number == last else "",
                    not number,
                )
                for number, text in enumerate(texts)
            ]
            notes = [row for part in line.note.splitlines() for row in wrap(part, room)]
            self._rows += [_Row(place, "", text, "", False, note=True) for text in notes]
        self.virtual_size = Size(1, len(self._rows))
        self.refresh()

    def _text_start(self, line: Line) -> int:
        return GUTTER + (0 if line.wide or line.heading else self.lead_width)

    def _right_room(self, line: Line) -> int:
        return GAP + self._right_width + MARGIN if line.right else 0

    def on_resize(self, _event: Resize) -> None:
        """Wrap anew."""
        self._layout_rows()
        self._reveal()

    def render_line(self, y: int) -> Strip:
        """One row, drawn when it is needed."""
        place = y + self.scroll_offset.y
        width, base = self._width, self.rich_style
        if place >= len(self._rows):
            return Strip.blank(self.size.width, base)
        row = self._rows[place]
        line = self._lines[row.line]
        quiet = self._styled("quiet")
        if line.heading:
            rule = "" if line.quiet or not line.text else " " + "─" * width
            pieces = [(row.text, quiet), (rule, self._styled("rule"))]
            strip = Strip([Segment(text, base + style) for text, style in pieces])
            return strip.adjust_cell_length(width, base)
        here = row.line == self.cursor and (self.has_focus or self.always_lit)
        under = base + self._styled("cursor") if here else base
        lead = 0 if line.wide else self.lead_width
        right = self._right_room(line)
        calm = line.quiet or row.note
        tone = self._styled("quiet" if calm else "strong" if line.strong else "plain")
        room = max(0, width - GUTTER - lead - right)
        pieces = [
            (HERE if here and row.first else " ", self._styled("sign")),
            (fit(row.lead, lead), quiet),
            (fit(row.text, room), tone),
            (fit(row.right + " " * MARGIN, right, right=True), quiet),
        ]
        strip = Strip([Segment(text, under + style) for text, style in pieces])
        return strip.adjust_cell_length(width, under)

    def _styled(self, name: str) -> Style:
        return self.get_component_rich_style(f"line-list--{name}", partial=True)

    def action_move(self, by: int) -> None:
        """Move the cursor by so many lines; headings are passed over."""
        if self._lines:
            wanted = max(0, min(len(self._lines) - 1, self.cursor + by))
            self.cursor = self._nearest(wanted, 1 if by > 0 else -1)

    def action_page(self, by: int) -> None:
        """A screenful; lines may take several rows of it."""
        if not self._rows:
            return
        here = next(place for place, row in enumerate(self._rows) if row.line == self.cursor)
        wanted = here + by * max(1, self.size.height - 1)
        line = self._rows[max(0, min(len(self._rows) - 1, wanted))].line
        self.cursor = self._nearest(line, 1 if by > 0 else -1)

    def watch_cursor(self) -> None:
        """Keep the line under the cursor in sight."""
        self._reveal()
        self.refresh()

    def _reveal(self) -> None:
        rows = [place for place, row in enumerate(self._rows) if row.line == self.cursor]
        if not rows:
            return
        top, bottom = rows[0], rows[-1]
        # with the headings above it, as far as there is room for them
        while (
            top > 0
            and self._lines[self._rows[top - 1].line].heading
            and bottom - top + 2 <= self.size.height
        ):
            top -= 1
        self.scroll_to_region(Region(0, top, 1, bottom - top + 1), animate=False, force=True)

    def on_focus(self) -> None:
        """The cursor is drawn only where keys go."""
        self.refresh()

    def on_blur(self) -> None:
        """The cursor is drawn only where keys go."""
        self.refresh()

    def on_click(self, event: Click) -> None:
        """A click puts the cursor there; a second one opens."""
        place = event.y + self.scroll_offset.y
        if 0 <= place < len(self._rows):
            line = self._rows[place].line
            if self._lines[line].heading:
                return
            self.cursor = line
            if event.chain == 2:
                self.post_message(self.Opened(self._lines[line]))
