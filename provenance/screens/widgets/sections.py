"""Several short tables below each other, with one cursor through all of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding, BindingType
from textual.events import Click
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from provenance.screens.widgets import table_lines as lines
from provenance.screens.widgets.columns import Column, lay_out
from provenance.studio.rows import Sort


@dataclass(frozen=True)
class Row:
    """A record, and a text for each column."""

    record: int
    texts: tuple[str, ...]


@dataclass(frozen=True)
class Section:
    """One table; the head of its first column is its name."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    empty: str
    """Said in one line where there are no rows."""
    more: str = ""
    """Said in one line below the rows: what is left out."""


@dataclass(frozen=True)
class _Shown:
    """What stands in one line: a row of a section, its heads, its note, or nothing."""

    section: Section | None = None
    row: int | None = None
    note: bool = False


class Sections(ScrollView, can_focus=True, inherit_bindings=False):
    """Rows of several kinds; cursor and marks are records, and stay with them."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "sections--row",
        "sections--quiet",
        "sections--marked",
        "sections--cursor",
        "sections--gutter",
    }
    DEFAULT_CSS = """
    Sections { height: 1fr; overflow-x: hidden; overflow-y: auto;
               scrollbar-size-vertical: 1; scrollbar-gutter: stable; background: $background; }
    Sections .sections--row { color: $foreground; background: $background; }
    Sections .sections--quiet { color: $quiet; }
    Sections .sections--marked { text-style: bold; }
    Sections .sections--cursor { background: $cursor; }
    Sections .sections--gutter { color: $accent; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "move(-100000)", "first", show=False),
        Binding("end", "move(100000)", "last", show=False),
    ]

    class Moved(Message):
        """Another record is under the cursor."""

    class Opened(Message):
        """The mouse clicked twice on a row."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._shown: list[_Shown] = []
        self._records: list[int] = []
        self._place = 0
        self._marks: set[int] = set()

    @property
    def cursor(self) -> int | None:
        """The record under the cursor."""
        return self._records[self._place] if self._records else None

    @property
    def chosen(self) -> tuple[int, ...]:
        """The marked records in the order shown; without any mark, the one under the cursor."""
        marked = tuple(one for one in self._records if one in self._marks)
        return marked or (() if self.cursor is None else (self.cursor,))

    def show(self, sections: Sequence[Section]) -> None:
        """Show these; cursor and marks stay with their records."""
        before = self.cursor
        self._shown = []
        for section in sections:
            self._shown += [_Shown()] if self._shown else []
            self._shown.append(_Shown(section))
            self._shown += [_Shown(section, place) for place in range(len(section.rows))]
            noted = section.more or not section.rows
            self._shown += [_Shown(section, note=True)] if noted else []
        self._records = [row.record for section in sections for row in section.rows]
        self._marks &= set(self._records)
        if before in self._records:
            self._place = self._records.index(before)
        self._place = max(0, min(self._place, len(self._records) - 1))
        self.virtual_size = Size(1, len(self._shown))
        self.refresh()
        self.call_after_refresh(self._reveal)
        self.post_message(self.Moved())

    def turn_mark(self) -> None:
        """Mark the record under the cursor, or take its mark away, and move on."""
        if self.cursor is not None:
            self._marks ^= {self.cursor}
            self.action_move(1)
            self.refresh()

    def clear_marks(self) -> None:
        """Mark nothing."""
        self._marks.clear()
        self.refresh()

    def action_move(self, by: int) -> None:
        """So many rows down, or up; heads are passed over."""
        self._go(self._place + by)

    def action_page(self, by: int) -> None:
        """A screenful down, or up."""
        self._go(self._place + by * max(1, self.size.height - 2))

    def _go(self, place: int) -> None:
        place = max(0, min(place, len(self._records) - 1))
        if self._records and place != self._place:
            self._place = place
            self._reveal()
            self.refresh()
            self.post_message(self.Moved())

    def _line_of(self, place: int) -> int:
        rows = [line for line, one in enumerate(self._shown) if one.row is not None]
        return rows[place] if rows else 0

    def _reveal(self) -> None:
        bottom = top = self._line_of(self._place)
        # with the heads above it, where it is the first below them
        if top and self._shown[top - 1].row is None:
            top -= 1
        self.scroll_to_region(Region(0, top, 1, bottom - top + 1), animate=False, force=True)

    def on_resize(self) -> None:
        """Keep the cursor in sight."""
        self._reveal()

    def on_click(self, event: Click) -> None:
        """A click moves the cursor, two open."""
        line = event.y + self.scroll_offset.y
        if line < len(self._shown) and self._shown[line].row is not None:
            self._go(sum(one.row is not None for one in self._shown[:line]))
            if event.chain == 2:
                self.post_message(self.Opened())

    def render_line(self, y: int) -> Strip:
        """One line, drawn when it is needed."""
        width = self.scrollable_content_region.width
        base = self.get_component_rich_style("sections--row")
        line = self.scroll_offset.y + y
        pieces = self._pieces(self._shown[line], width) if line < len(self._shown) else []
        segments = [Segment(text, self._styled(base, names)) for text, names in pieces]
        return Strip(segments).adjust_cell_length(width, base).simplify()

    def _pieces(self, shown: _Shown, width: int) -> list[lines.Piece]:
        section = shown.section
        if section is None:
            return []
        if shown.note:
            return lines.note(section.more or section.empty, width)
        spans = lay_out(section.columns, width - lines.GUTTER)
        if shown.row is None:
            return lines.heads(spans, Sort())
        row = section.rows[shown.row]
        here, marked = row.record == self.cursor, row.record in self._marks
        return lines.row(spans, row.texts, width, here=here, marked=marked)

    def _styled(self, base: Style, names: tuple[str, ...]) -> Style:
        for name in names:
            base += self.get_component_rich_style(f"sections--{name}", partial=True)
        return base
