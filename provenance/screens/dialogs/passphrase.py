"""The passphrase of the studio's key, asked for before anything is sealed."""

import asyncio
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from provenance.errors import Refused
from provenance.screens.widgets.controls import Line
from provenance.studio.folder import StudioFolder


class Passphrase(ModalScreen[str | None]):
    """Answers with the passphrase that opens the key; None when it is left.

    What is typed is shown as dots, and kept nowhere.
    """

    DEFAULT_CSS = """
    Passphrase { align: left bottom; background: transparent; }
    Passphrase Vertical { height: auto; border-top: solid $accent; padding: 1;
                          background: $background; }
    Passphrase Input { width: 48; margin-top: 1; background: $panel; padding: 0; }
    Passphrase #wrong { height: 1; text-style: bold; color: $accent; }
    Passphrase .answers { color: $quiet; margin-top: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "leave", show=False),
        # decided before a key is handed on: nothing typed ahead slips past it
        Binding("enter", "unlock", "unlock", show=False, priority=True),
    ]
    AUTO_FOCUS = "Input"

    def __init__(self, folder: StudioFolder) -> None:
        super().__init__()
        self._folder = folder

    def compose(self) -> ComposeResult:
        """The question, a line, and what the keys mean."""
        line = Line("", lambda: "", None)
        line.password = True
        with Vertical():
            yield Static("The passphrase of the studio's key, which seals the certificate:")
            yield line
            yield Static(id="wrong", markup=False)
            yield Static("enter  seal with it      esc  issue nothing", classes="answers")

    def action_unlock(self) -> None:
        """Try the key."""
        typed = self.query_one(Input).value
        if typed:
            self.run_worker(self._try(typed), exclusive=True, group="unlock")

    async def _try(self, typed: str) -> None:
        # brings cryptography with it, which nothing else on the screen needs
        from provenance.studio.keys.ring import unlock

        try:
            await asyncio.to_thread(unlock, self._folder, lambda: typed)
        except Refused as error:
            (problem, *_) = error.problems
            self.query_one("#wrong", Static).update(f"{problem.what}; {problem.mend}")
            self.query_one(Input).value = ""
        else:
            self.dismiss(typed)

    def action_leave(self) -> None:
        """Give none."""
        self.dismiss(None)
