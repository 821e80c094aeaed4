"""A table of any number of records, of which only the lines that are seen are drawn.

Cursor and marks are ids, not places: they stay with their records when the
order changes, and come back when a filter is taken away.
"""

import asyncio
from array import array
from collections.abc import Iterable, Sequence
from typing import ClassVar, TypeAlias

from rich.segment import Segment
from rich.style import Style
from textual import work
from textual.binding import Binding, BindingType
from textual.events import Click
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from provenance.errors import ProvenanceError
from provenance.screens.bindings import bindings_for
from provenance.screens.widgets import table_lines as lines
from provenance.screens.widgets import table_messages as said
from provenance.screens.widgets.columns import Column, Span, lay_out
from provenance.screens.widgets.row_window import PAGE, RowWindow
from provenance.studio.rows import RowSource, Sort

READING = "reading the register"


class RecordTable(ScrollView, can_focus=True, inherit_bindings=False):
    """Rows of records under a line of heads; space marks, enter opens."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "record-table--row",
        "record-table--quiet",
        "record-table--marked",
        "record-table--cursor",
        "record-table--gutter",
    }
    DEFAULT_CSS = """
    RecordTable { height: 1fr; overflow-x: hidden; overflow-y: auto;
                  scrollbar-size-vertical: 1; scrollbar-gutter: stable;
                  background: $background; }
    RecordTable .record-table--row { color: $foreground; background: $background; }
    RecordTable .record-table--quiet { color: $quiet; }
    RecordTable .record-table--marked { text-style: bold; }
    RecordTable .record-table--cursor { background: $cursor; }
    RecordTable .record-table--gutter { color: $accent; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings_for("list"),
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "edge(0)", "first", show=False),
        Binding("end", "edge(1)", "last", show=False),
    ]

    Opened: TypeAlias = said.Opened
    Moved: TypeAlias = said.Moved
    Marked: TypeAlias = said.Marked
    Arranged: TypeAlias = said.Arranged
    Failed: TypeAlias = said.Failed

    def __init__(
        self,
        source: RowSource,
        columns: Sequence[Column],
        *,
        empty: str,
        marks: bool = True,
        sort: Sort | None = None,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        """`empty` says, in one line, what would be here; `marks` whether rows can be marked."""
        super().__init__(id=id)
        self._may_mark = marks
        self.empty = empty
        self._source = source
        self._columns = tuple(columns)
        self._window = RowWindow(source)
        self._sort = sort or Sort()
        self._words = ""
        self._place = 0
        self._wanted: int | None = None
        self._marks: set[int] = set()
        self._shown: tuple[Sort, str] | None = None
        self._busy = True
        self._fault = ""

    @property
    def cursor(self) -> int | None:
        """The record under the cursor."""
        return self._window.id_at(self._place) if len(self._window) else None

    @property
    def marks(self) -> frozenset[int]:
        """Every marked record, shown or not."""
        return frozenset(self._marks)

    @property
    def count(self) -> int:
        """How many rows there are."""
        return len(self._window)

    @property
    def sort(self) -> Sort:
        """By what the rows are sorted."""
        return self._sort

    @property
    def busy(self) -> bool:
        """Whether another order is on its way."""
        return self._busy

    def marked_in_order(self) -> list[int]:
        """The marked records in the order shown; without any mark, the one under the cursor.

        Marks that a filter hides are left out: nobody acts on what cannot be seen.
        """
        here = [] if self.cursor is None else [self.cursor]
        return self._window.among(self._marks) if self._marks else here

    def show_only(self, words: str, *, from_the_top: bool = False) -> None:
        """Show the records whose texts hold all of `words`, or their beginnings.

        The cursor stays with its record, or goes to the first one with `from_the_top`.
        """
        if from_the_top:
            self._wanted = None
        if words != self._words:
            self._words = words
            self.reload()

    def sort_by(self, key: str, *, descending: bool = False) -> None:
        """Sort by the column with that key."""
        self._sort = Sort(key, descending)
        self.reload()

    def move_to(self, record: int) -> None:
        """Put the cursor on a record; if it is not shown now, as soon as it is."""
        self._wanted = record
        place = self._window.place_of(record)
        if place is not None:
            self._go(place)

    def clear_marks(self) -> None:
        """Mark nothing."""
        self._marks.clear()
        self._tell_marks()

    def unmark(self, records: Iterable[int]) -> None:
        """Take the marks of `records` away."""
        self._marks.difference_update(records)
        self._tell_marks()

    def reload(self) -> None:
        """Read the order and the rows anew; cursor and marks stay with their records."""
        self._busy, self._fault = True, ""
        try:
            if self._source.small:
                self.workers.cancel_group(self, "order")
                self._arrived(self._source.order(self._sort, self._words))
                return
            if not len(self._window) and not self._words and not self._sort.key:
                self._arrange(self._source.first(PAGE))
        except ProvenanceError as error:
            self._fail(error)
            return
        self._order_aside()

    @work(group="order", exclusive=True)
    async def _order_aside(self) -> None:
        try:
            order = await asyncio.to_thread(self._source.order, self._sort, self._words)
        except ProvenanceError as error:
            self._fail(error)
        else:
            self._arrived(order)

    def _arrived(self, order: "array[int] | None") -> None:
        if order is None:
            return
        self._busy = False
        same = self._shown == (self._sort, self._words)
        self._shown = (self._sort, self._words)
        self._arrange(order, near=self._place if same else 0)
        self.refresh_bindings()
        self.post_message(said.Arranged(self, len(order)))

    def _arrange(self, order: "array[int]", *, near: int = 0) -> None:
        before = self.cursor
        self._window.arrange(order)
        place = None if self._wanted is None else self._window.place_of(self._wanted)
        # where the record is gone from the same list, the cursor stays about where it was
        self._place = max(0, min(near, len(order) - 1)) if place is None else place
        self.virtual_size = Size(1, len(order) + 1)
        self._reveal()
        self.refresh()
        if self.cursor != before:
            self.post_message(said.Moved(self, self.cursor))

    def _fail(self, error: ProvenanceError) -> None:
        if self._fault:
            return
        self._busy, self._fault = False, str(error)
        self._window.arrange(array("q"))
        self.virtual_size = Size(1, 1)
        self.refresh()
        self.post_message(said.Failed(self, error))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is marked where nothing is done to many, and nothing done to no row."""
        if action == "mark" and not self._may_mark:
            return False
        return bool(len(self._window)) or action not in ("open", "mark", "sort", "reverse") or None

    def on_mount(self) -> None:
        """Read the rows for the first time."""
        self.reload()

    def on_unmount(self) -> None:
        """Nobody waits for an order any more."""
        self._source.stop()

    def on_resize(self) -> None:
        """Keep the cursor in sight."""
        self._reveal()

    def _go(self, place: int) -> None:
        if not len(self._window):
            return
        place = max(0, min(place, len(self._window) - 1))
        self._wanted = self._window.id_at(place)
        if place == self._place:
            return
        before, self._place = self._place, place
        self._reveal()
        self.refresh_line(before + 1)
        self.refresh_line(place + 1)
        self.post_message(said.Moved(self, self._wanted))

    @property
    def _rows_in_sight(self) -> int:
        return max(1, self.size.height - 1)

    def _reveal(self) -> None:
        top = self.scroll_offset.y
        if self._place < top:
            self.scroll_to(y=self._place, animate=False)
        elif self._place >= top + self._rows_in_sight:
            self.scroll_to(y=self._place - self._rows_in_sight + 1, animate=False)

    def action_move(self, by: int) -> None:
        """So many rows down, or up."""
        self._go(self._place + by)

    def action_page(self, by: int) -> None:
        """A screenful down, or up; one row of it stays in sight."""
        self._go(self._place + by * max(1, self._rows_in_sight - 1))

    def action_edge(self, last: int) -> None:
        """The first row, or the last."""
        self._go(len(self._window) - 1 if last else 0)

    def action_open(self) -> None:
        """Open the record under the cursor."""
        if self.cursor is not None:
            self.post_message(said.Opened(self, self.cursor))

    def action_mark(self) -> None:
        """Mark the record under the cursor, or take its mark away, and move on."""
        if self.cursor is not None:
            self._marks ^= {self.cursor}
            self._tell_marks()
            self.action_move(1)

    def _tell_marks(self) -> None:
        self.refresh()
        self.post_message(said.Marked(self, self.marks))

    def action_sort(self) -> None:
        """Sort by the next column that can be sorted by."""
        keys = [column.key for column in self._columns if column.key]
        if keys:
            at = keys.index(self._sort.key) + 1 if self._sort.key in keys else 0
            self.sort_by(keys[at % len(keys)])

    def action_reverse(self) -> None:
        """The same order from its other end."""
        self.sort_by(self._sort.key, descending=not self._sort.descending)

    def on_click(self, event: Click) -> None:
        """A click moves the cursor, two open; a click on a head sorts by it, again reverses."""
        offset = event.get_content_offset(self)
        if offset is None:
            return
        if offset.y == 0:
            self._sort_at(offset.x - lines.GUTTER)
            return
        place = self.scroll_offset.y + offset.y - 1
        if place < len(self._window):
            self._go(place)
            if event.chain == 2:
                self.action_open()

    def _sort_at(self, cell: int) -> None:
        for span in self._spans:
            if span.start <= cell < span.start + span.width and span.column.key:
                again = self._sort == Sort(span.column.key)
                self.sort_by(span.column.key, descending=again)

    def render_line(self, y: int) -> Strip:
        """The line `y` of the widget: the heads, a row, or nothing."""
        width = self._cells
        place = self.scroll_offset.y + y - 1
        pieces: list[lines.Piece] = []
        if y == 0:
            pieces = lines.heads(self._spans, self._sort)
        elif place < len(self._window):
            here, marked = place == self._place, self._window.id_at(place) in self._marks
            pieces = lines.row(self._spans, self._texts(place), width, here=here, marked=marked)
        elif place == 1 and not len(self._window):
            # below the heads, after a line of space
            pieces = lines.note(self._note, width)
        base = self.get_component_rich_style("record-table--row")
        segments = [Segment(text, self._styled(base, names)) for text, names in pieces]
        return Strip(segments).adjust_cell_length(width, base).simplify()

    @property
    def _cells(self) -> int:
        """How wide a line is, without the scroll bar."""
        return self.scrollable_content_region.width

    @property
    def _spans(self) -> tuple[Span, ...]:
        return lay_out(self._columns, self._cells - lines.GUTTER)

    def _styled(self, base: Style, names: tuple[str, ...]) -> Style:
        for name in names:
            base += self.get_component_rich_style(f"record-table--{name}", partial=True)
        return base

    def _texts(self, place: int) -> tuple[str, ...] | None:
        try:
            return self._window.row_at(place)
        except ProvenanceError as error:
            # a line cannot be drawn and the table emptied at once
            self.call_later(self._fail, error)
            return None

    @property
    def _note(self) -> str:
        if self._fault or self._busy:
            return self._fault or READING
        words = self._words.strip()
        return f"nothing here holds “{words}”" if words else self.empty
