"""A question with two answers: a key for yes, any other way out for no."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static


class Ask(ModalScreen[bool]):
    """Answers True only when a person says so."""

    DEFAULT_CSS = """
    Ask { align: left bottom; background: transparent; }
    Ask Vertical { height: auto; border-top: solid $accent; padding: 1;
                   background: $background; }
    Ask .answers { color: $quiet; margin-top: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "yes", show=False),
        Binding("n,escape,q", "answer(False)", "no", show=False),
    ]

    def __init__(self, question: str, *, yes: str, no: str = "leave it as it is") -> None:
        super().__init__()
        self._question = question
        self._answers = f"y  {yes}      n  {no}"

    def compose(self) -> ComposeResult:
        """The question and what the keys mean."""
        with Vertical():
            yield Static(self._question, markup=False)
            yield Static(self._answers, classes="answers", markup=False)

    def action_answer(self, answer: bool) -> None:
        """Give the answer."""
        self.dismiss(answer)
