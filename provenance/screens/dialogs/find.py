"""Finding anything: what is typed above, what it leads to below, letter by letter."""

from typing import TYPE_CHECKING, ClassVar, cast

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, Static

from provenance.screens.dialogs.typed_ahead import TypedAhead
from provenance.screens.frame import Rule
from provenance.screens.widgets.record_table import RecordTable
from provenance.screens.widgets.tables import FOUND
from provenance.studio.finding import FoundRows

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp

KEYS = (("enter", "open"), ("up down", "choose"), ("esc", "leave"))


class Find(TypedAhead[int | None]):
    """Answers with the record that was chosen; None when it is left."""

    TITLE = "Find"
    ASKED_FOR = "words, a code, a number as QUAY 7/25, a mark on the back, or a certificate"
    CSS = """
    Find { background: $background; color: $foreground; }
    Find #title { height: 1; padding: 0 1; text-style: bold; }
    Find Rule { height: 1; color: $rule; }
    Find #content { height: 1fr; padding: 0 1; }
    Find Input { margin: 0 0 1 1; background: $background; }
    Find #note { height: auto; padding: 0 1; color: $accent; display: none; }
    Find #note.said { display: block; margin: 0 0 1 0; }
    Find #keys { height: 1; padding: 0 1; color: $quiet; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "leave", show=False),
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
    ]
    AUTO_FOCUS = "Input"

    def __init__(self) -> None:
        super().__init__()
        self._open_when_found = False

    def compose(self) -> ComposeResult:
        """The line to type in and the table of what is found."""
        self._found = FoundRows(cast("StudioApp", self.app).register)
        keys = Text(no_wrap=True)
        for key, about in KEYS:
            keys.append(f"{key} ", "bold").append(f"{about}   ")
        yield Static(self.TITLE, id="title")
        yield Rule()
        with Vertical(id="content"):
            yield Input(compact=True, placeholder=self.ASKED_FOR, select_on_focus=False)
            yield Static(id="note", markup=False)
            yield RecordTable(self._found, FOUND, empty="")
        yield Rule()
        yield Static(keys, id="keys")

    @property
    def _table(self) -> RecordTable:
        return self.query_one(RecordTable)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Look for what is typed; the best is under the cursor."""
        self._open_when_found = False
        self._table.show_only(event.value, from_the_top=True)

    def on_input_submitted(self) -> None:
        """Open what the cursor is on, as soon as the last letter was looked for."""
        if self._table.busy:
            self._open_when_found = True
        else:
            self._table.action_open()

    def on_record_table_arranged(self) -> None:
        """Say what has to be said about what was found."""
        note = self.query_one("#note", Static)
        note.update(self._found.note)
        note.set_class(bool(self._found.note), "said")
        if self._open_when_found:
            self._open_when_found = False
            self._table.action_open()

    def on_record_table_opened(self, event: RecordTable.Opened) -> None:
        """Give the answer."""
        self.dismiss(event.record)

    def action_leave(self) -> None:
        """Leave without an answer."""
        self.dismiss(None)

    def action_move(self, by: int) -> None:
        """Move in the table while the line keeps the keys."""
        self._table.action_move(by)

    def action_page(self, by: int) -> None:
        """A screenful of the table."""
        self._table.action_page(by)
