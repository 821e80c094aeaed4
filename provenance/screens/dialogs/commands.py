"""Every action that applies here, found by its words."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input

from provenance.screens.actions import Action, applying, with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.help import Keys
from provenance.screens.dialogs.typed_ahead import TypedAhead
from provenance.screens.frame import Rule, TitleLine
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.settings import Settings

KEYS = (("enter", "do it"), ("up down", "choose"), ("esc", "leave"))


class Commands(TypedAhead[str | None]):
    """Answers with the name of an action; None when it is left."""

    DEFAULT_CSS = """
    Commands { background: $background; }
    Commands TitleLine { height: 1; padding: 0 1; }
    Commands Rule { height: 1; color: $rule; }
    Commands #content { height: 1fr; padding: 0 1; }
    Commands Input { margin: 0 0 1 1; background: $panel; padding: 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "leave", show=False),
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
    ]
    AUTO_FOCUS = "Input"

    def __init__(self, where: str, settings: Settings) -> None:
        super().__init__()
        here, lists, everywhere = applying(where, with_keys(settings.keys))
        self._actions = [one for one in (*here, *lists, *everywhere) if one.name != "commands"]
        self._shown: list[Action] = []

    def compose(self) -> ComposeResult:
        """The line to type in, and what it leaves."""
        yield TitleLine()
        yield Rule()
        with Vertical(id="content"):
            yield Input(compact=True, placeholder="what to do, in a word or two")
            yield LineList(lead_width=16)
        yield Rule()
        yield Keys(KEYS)

    def on_mount(self) -> None:
        """All of them."""
        self.query_one(TitleLine).set("Commands")
        listed = self.query_one(LineList)
        listed.can_focus, listed.always_lit = False, True
        self._leave_those_with("")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Those that hold every word that is typed."""
        self._leave_those_with(event.value)

    def _leave_those_with(self, typed: str) -> None:
        words = typed.casefold().split()
        self._shown = [
            one
            for one in self._actions
            if all(word in f"{one.label} {one.about}".casefold() for word in words)
        ]
        self.query_one(LineList).show(
            [Line(one.about, lead=one.label, right=shown_key(one.key)) for one in self._shown],
        )

    def on_input_submitted(self) -> None:
        """Do what the cursor is on."""
        place = self.query_one(LineList).cursor
        if place < len(self._shown):
            self.dismiss(self._shown[place].name)

    def action_move(self, by: int) -> None:
        """Move in the list while the line keeps the keys."""
        self.query_one(LineList).action_move(by)

    def action_leave(self) -> None:
        """Leave without an answer."""
        self.dismiss(None)
