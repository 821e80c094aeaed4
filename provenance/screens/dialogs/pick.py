"""One of several, picked by a digit."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.events import Key
from textual.screen import ModalScreen

from provenance.screens.widgets.choices import Choices, Question


class Pick(ModalScreen[int | None]):
    """Answers with the place of what was picked, counted from 0."""

    DEFAULT_CSS = """
    Pick { align: center middle; background: $background; }
    Pick Vertical { width: 64; height: auto; border: solid $rule; padding: 1 1;
                    background: $background; }
    Pick Choices { height: auto; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("0,escape,q", "leave", "leave", show=False),
    ]

    def __init__(self, asks: str, answers: Sequence[str]) -> None:
        super().__init__()
        self._question = Question(asks, answers=tuple(answers), leave="none of them")

    def compose(self) -> ComposeResult:
        """The question."""
        with Vertical():
            yield Choices(classes="asking")

    def on_mount(self) -> None:
        """Ask."""
        self.query_one(Choices).ask(self._question)

    def on_key(self, event: Key) -> None:
        """A digit answers."""
        if event.key in "123456789":
            event.stop()
            chosen = self.query_one(Choices).digit(event.key)
            if chosen is not None:
                self.dismiss(chosen)

    def action_leave(self) -> None:
        """Pick none."""
        self.dismiss(None)
