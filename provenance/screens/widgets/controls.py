"""What takes the keys in a field: a line, several lines, or words to choose from."""

from collections.abc import Callable, Sequence

from rich.text import Text
from textual.events import Focus, Key
from textual.message import Message
from textual.suggester import Suggester
from textual.widget import Widget
from textual.widgets import Input, TextArea


class Line(Input):
    """A line to type in.

    A proposal is replaced by what is typed; end or left keeps it, to be changed.
    """

    def __init__(
        self, value: str, proposed: Callable[[], str], suggester: Suggester | None
    ) -> None:
        super().__init__(value, compact=True, suggester=suggester)
        self._proposed = proposed

    def _on_focus(self, event: Focus) -> None:
        # runs before the one of Input, which selects
        self.select_on_focus = self.value == self._proposed()

    async def _on_key(self, event: Key) -> None:
        """Edit in the order of the keys: a binding would let letters pass that came after it."""
        bindings = self._bindings.key_to_bindings.get(event.key, [])
        if bindings and not event.is_printable:
            event.stop()
            event.prevent_default()
            await self.run_action(bindings[0].action)


class Lines(TextArea):
    """Text of several lines; the cursor leaves it at its top and bottom."""

    def action_cursor_up(self, select: bool = False) -> None:
        """Up, and from the first line to the field before."""
        if self.cursor_location[0] == 0 and not select:
            self.screen.focus_previous()
        else:
            super().action_cursor_up(select)

    def action_cursor_down(self, select: bool = False) -> None:
        """Down, and from the last line to the next field."""
        if self.cursor_location[0] == self.document.line_count - 1 and not select:
            self.screen.focus_next()
        else:
            super().action_cursor_down(select)


class Options(Widget, can_focus=True):
    """Words of which one is chosen, by left and right or by its first letter."""

    DEFAULT_CSS = """
    Options { height: 1; }
    Options:focus { background: $cursor; }
    """

    class Chosen(Message):
        """Another word was chosen."""

    def __init__(self, words: Sequence[str], chosen: str) -> None:
        super().__init__()
        self.words = tuple(words)
        self.chosen = chosen

    def render(self) -> Text:
        """All the words where there is room, else the chosen one and how many there are."""
        line = Text(no_wrap=True, overflow="crop")
        if sum(len(word) + 2 for word in self.words) <= self.size.width:
            for word in self.words:
                chosen = word == self.chosen
                line.append(f"[{word}]" if chosen else f" {word} ", "bold" if chosen else "")
            return line
        line.append(f"[{self.chosen or ' '}]", "bold")
        place = f"{self.words.index(self.chosen) + 1}" if self.chosen in self.words else "one"
        line.append(f" {place} of {len(self.words)}")
        return line

    def choose(self, word: str) -> None:
        """Choose `word`."""
        if word != self.chosen:
            self.chosen = word
            self.refresh()
            self.post_message(self.Chosen())

    def on_key(self, event: Key) -> None:
        """Left and right, space, or the first letter of a word."""
        here = self.words.index(self.chosen) if self.chosen in self.words else None
        if event.key in ("left", "right", "space"):
            step = -1 if event.key == "left" else 1
            to = (here + step) % len(self.words) if here is not None else min(step, 0)
            self.choose(self.words[to])
        elif event.character and event.character.isalnum():
            order = self.words[here + 1 :] + self.words[: here + 1] if here is not None else ()
            letter = event.character.casefold()
            for word in order or self.words:
                if word.casefold().startswith(letter):
                    self.choose(word)
                    break
        else:
            return
        event.stop()
        event.prevent_default()
