"""A short list whose order is chosen: plus and minus move what the cursor is on."""

from collections.abc import Sequence
from typing import ClassVar

from rich.text import Text
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widget import Widget

from provenance.screens.widgets.fields import Field


class Order(Widget, can_focus=True):
    """Names, one a line, with what each is to become."""

    DEFAULT_CSS = """
    Order { height: auto; background: $background; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "cursor(-1)", "up", show=False),
        Binding("down", "cursor(1)", "down", show=False),
        Binding("minus,K,shift+up", "move(-1)", "earlier"),
        Binding("plus,J,shift+down", "move(1)", "later"),
    ]

    class Moved(Message):
        """The order is another."""

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__()
        self.names = list(names)
        self.become: list[str] = []
        self.at = 0

    def render(self) -> Text:
        """A line each; the one under the cursor is marked by a sign as well."""
        width = max((len(name) for name in self.names), default=0)
        text = Text(no_wrap=True, overflow="ellipsis")
        for place, name in enumerate(self.names):
            here = place == self.at and self.has_focus
            becomes = self.become[place] if place < len(self.become) else ""
            line = f"{'▸' if here else ' '}{name:<{width}}   {becomes}"
            text.append(line, "bold" if here else "")
            text.append("\n" if place + 1 < len(self.names) else "")
        return text

    def get_content_height(self, *_: object) -> int:
        """As many lines as there are names."""
        return max(1, len(self.names))

    def action_cursor(self, by: int) -> None:
        """Move the cursor; past the ends it leaves the list."""
        if not 0 <= self.at + by < len(self.names):
            self.screen.focus_next() if by > 0 else self.screen.focus_previous()
            return
        self.at += by
        self.refresh()

    def action_move(self, by: int) -> None:
        """Move what the cursor is on."""
        to = self.at + by
        if 0 <= to < len(self.names):
            self.names[self.at], self.names[to] = self.names[to], self.names[self.at]
            self.at = to
            self.refresh()
            self.post_message(self.Moved())


class OrderField(Field):
    """Its value is the names, in order, between commas."""

    def __init__(self, key: str, label: str, names: Sequence[str]) -> None:
        super().__init__(
            key, label, value=", ".join(names), hint="+ or J moves one down, - or K up"
        )
        self._order = Order(names)

    def control(self) -> Widget:
        """The list."""
        return self._order

    @property
    def value(self) -> str:
        """The names, in order."""
        return ", ".join(self._order.names)

    @value.setter
    def value(self, value: str) -> None:
        wanted = [name.strip() for name in value.split(",")]
        if sorted(wanted) == sorted(self._order.names):
            self._order.names[:] = wanted
            self._order.refresh()
            self.post_message(self.Changed(self))

    def show_becoming(self, names: Sequence[str]) -> None:
        """Show what each name in turn becomes."""
        self._order.become = list(names)
        self._order.refresh(layout=True)

    def on_order_moved(self, event: Order.Moved) -> None:
        """Pass on that the order is another."""
        event.stop()
        self.post_message(self.Changed(self))
