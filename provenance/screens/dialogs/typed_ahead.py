"""What is typed before a line to type in has the keys goes into it all the same."""

from typing import TypeVar

from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Input

T = TypeVar("T")


class TypedAhead(ModalScreen[T]):
    """A page around one line; a fast hand, or a slow network, loses no letter."""

    def on_key(self, event: Key) -> None:
        """Hand on what came before the line had the keys; the line itself keeps what it takes."""
        line = self.query_one(Input)
        if event.is_printable and event.character:
            event.stop()
            line.insert_text_at_cursor(event.character)
        elif event.key == "enter":
            event.stop()
            self.call_later(line.action_submit)
