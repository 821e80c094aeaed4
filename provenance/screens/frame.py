"""What every place looks like: a title line, a rule, the content, a rule, a line of keys."""

import asyncio
import sqlite3
from collections.abc import Iterable
from contextlib import suppress
from typing import TYPE_CHECKING, ClassVar, cast

from rich.cells import cell_len, set_cell_size
from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.message import Message
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from provenance.errors import ProvenanceError
from provenance.screens.bindings import bindings_for
from provenance.screens.guard import Guarded

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp

SMALLEST = (60, 16)
"""Below this the screen says so, and still works."""
LONGEST_TO_LAY_OUT_S = 5.0


class RegisterChanged(Message):
    """Something was written, here or by another program: what is shown may be old."""


class TitleLine(Static):
    """The place, what is shown and where we are: left, middle and right on one line."""

    def set(self, left: str, middle: str = "", right: str = "") -> None:
        """Show the three parts; what does not fit is cut from the middle."""
        self._parts = (left, middle, right)
        self.refresh()

    _parts: tuple[str, str, str] = ("", "", "")

    def render(self) -> Text:
        """The line, as wide as the screen."""
        left, middle, right = self._parts
        room = max(0, self.size.width - cell_len(left) - cell_len(right) - 4)
        line = Text(no_wrap=True, overflow="crop")
        line.append(left, "bold")
        line.append("  " + set_cell_size(middle, room) + "  ")
        line.append(right)
        return line


class Rule(Static):
    """A thin line from edge to edge."""

    def render(self) -> Text:
        """The line."""
        return Text("─" * self.size.width, no_wrap=True, overflow="crop")


class KeyLine(Static):
    """The keys that matter here, the most important first: at most six, then the places."""

    MOST = 6
    LAST = "help"
    """The action that is never left out."""

    def on_mount(self) -> None:
        """Follow what may be pressed at the moment."""
        self.screen.bindings_updated_signal.subscribe(self, lambda _screen: self.refresh())

    def render(self) -> Text:
        """The line, made from the bindings that apply now, as many as fit."""
        pairs: list[tuple[str, str]] = []
        last: list[tuple[str, str]] = []
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if binding.show and active.enabled:
                pair = (self.app.get_key_display(binding), binding.description)
                (last if binding.action == self.LAST else pairs).append(pair)
        pairs, last = pairs[: self.MOST - len(last)], [*last, ("1-6", "places")]
        while pairs and _width([*pairs, *last]) > self.size.width:
            pairs.pop()
        line = Text(no_wrap=True, overflow="crop")
        for key, about in [*pairs, *last]:
            line.append(f"{key} ", "bold")
            line.append(f"{about}   ")
        return line


def _width(pairs: list[tuple[str, str]]) -> int:
    return sum(cell_len(key) + cell_len(about) + 4 for key, about in pairs) - 3


class Frame(Guarded, Screen[None]):
    """A place or page of the application.

    Subclasses give `content` and may answer `refresh_content`, which is called
    when the page is shown again and when the register has changed.
    """

    WHERE: ClassVar[str] = ""
    """The names that the place has in the table of actions, with spaces between them."""
    KEYS_AHEAD: ClassVar[bool] = True
    """Whether a key is decided before the page sees it as an event."""
    DEFAULT_CSS = """
    Frame { layout: vertical; background: $background; color: $foreground; }
    Frame TitleLine { height: 1; padding: 0 1; }
    Frame Rule { height: 1; color: $rule; }
    Frame KeyLine { height: 1; padding: 0 1; color: $quiet; }
    Frame #content { height: 1fr; padding: 0 1; }
    Frame #finding { height: auto; max-height: 50%; padding: 0 1; display: none;
                     text-style: bold; color: $accent; }
    Frame #finding.said { display: block; }
    Screen.-low Rule { display: none; }
    """

    def __init_subclass__(cls) -> None:
        """Give each place the bindings that the table of actions holds for it."""
        # Textual merges the bindings of a class as soon as it is made
        cls.BINDINGS = [binding for where in cls.WHERE.split() for binding in bindings_for(where)]
        super().__init_subclass__()

    @property
    def studio(self) -> "StudioApp":
        """The application, typed."""
        return cast("StudioApp", self.app)

    def compose(self) -> ComposeResult:
        """The frame around the content."""
        yield TitleLine(id="title")
        yield Rule()
        with Vertical(id="content"):
            yield from self.content()
        yield Static(id="finding", markup=False)
        yield Rule()
        yield self.key_line()

    def key_line(self) -> Widget:
        """The last line."""
        return KeyLine(id="keys")

    def content(self) -> Iterable[Widget]:
        """What stands between the rules."""
        return ()

    def refresh_content(self) -> None:
        """Read anew what is shown."""

    def headline(self, left: str, middle: str = "", right: str = "") -> None:
        """Set the title line."""
        self.query_one(TitleLine).set(left, middle, right)

    async def laid_out(self) -> None:
        """Wait until the page is there; not for ever, since the program may be left meanwhile."""
        with suppress(TimeoutError):
            await asyncio.wait_for(self._mounted_event.wait(), LONGEST_TO_LAY_OUT_S)

    def say(self, text: str) -> None:
        """Below the content, until the next key: what was saved, or refused."""
        # a page that is not laid out, or is being taken down, has no place to say it
        for finding in self.query("#finding").results(Static):
            finding.update(Text(text))
            finding.set_class(bool(text), "said")

    def read_again(self) -> None:
        """Refresh the content; what cannot be read is said, and the page stands."""
        try:
            self.refresh_content()
        except (ProvenanceError, sqlite3.DatabaseError) as error:
            # not left to the guard: the library has work of its own after this
            self.app._handle_exception(error)

    def on_mount(self) -> None:
        """Show the content for the first time."""
        self.read_again()

    def on_screen_resume(self) -> None:
        """Coming back: something may have been written meanwhile."""
        if self.is_mounted:
            news, self.studio.news = self.studio.news, ""
            self.say(news)
            self.read_again()

    def on_register_changed(self) -> None:
        """Something was written; a page that is covered reads it when it is shown again."""
        if self.is_current:
            self.read_again()

    def on_resize(self) -> None:
        """Say when there is hardly room; go on working."""
        small = self.size.width < SMALLEST[0] or self.size.height < SMALLEST[1]
        if small != self._small:
            least = f"{SMALLEST[0]} by {SMALLEST[1]}"
            self.say(f"This window is small; {least} shows more." if small else "")
        self._small = small

    _small = False
