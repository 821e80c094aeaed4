"""What every place looks like: a title line, a rule, the content, a rule, a line of keys."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar, cast

from rich.cells import cell_len, set_cell_size
from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.message import Message
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from provenance.screens.bindings import bindings_for

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp

SMALLEST = (60, 16)
"""Below this the screen says so, and still works."""


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
    """The keys that matter here: at most six, then where the places are."""

    MOST = 6

    def render(self) -> Text:
        """The line, made from the bindings that apply now."""
        line = Text(no_wrap=True, overflow="ellipsis")
        shown = 0
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if not binding.show or not active.enabled or shown == self.MOST:
                continue
            shown += 1
            line.append(f"{self.app.get_key_display(binding)} ", "bold")
            line.append(f"{binding.description}   ")
        line.append("1-6 ", "bold")
        line.append("places")
        return line


class Frame(Screen[None]):
    """A place or page of the application.

    Subclasses give `content` and may answer `refresh_content`, which is called
    when the page is shown again and when the register has changed.
    """

    WHERE: ClassVar[str] = ""
    """The names that the place has in the table of actions, with spaces between them."""
    DEFAULT_CSS = """
    Frame { layout: vertical; background: $background; color: $foreground; }
    Frame TitleLine { height: 1; padding: 0 1; }
    Frame Rule { height: 1; color: $rule; }
    Frame KeyLine { height: 1; padding: 0 1; color: $quiet; }
    Frame #content { height: 1fr; padding: 0 1; }
    Frame #finding { height: auto; padding: 0 1; display: none; }
    Frame #finding.said { display: block; }
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
        yield KeyLine(id="keys")

    def content(self) -> Iterable[Widget]:
        """What stands between the rules."""
        return ()

    def refresh_content(self) -> None:
        """Read anew what is shown."""

    def headline(self, left: str, middle: str = "", right: str = "") -> None:
        """Set the title line."""
        self.query_one(TitleLine).set(left, middle, right)

    def say(self, text: str) -> None:
        """One line below the content, until the next key: what was saved, or refused."""
        finding = self.query_one("#finding", Static)
        finding.update(Text(text))
        finding.set_class(bool(text), "said")

    def on_mount(self) -> None:
        """Show the content for the first time."""
        self.refresh_content()

    def on_screen_resume(self) -> None:
        """Coming back: something may have been written meanwhile."""
        if self.is_mounted:
            self.refresh_content()

    def on_register_changed(self) -> None:
        """Something was written."""
        self.refresh_content()

    def on_resize(self) -> None:
        """Say when there is hardly room; go on working."""
        small = self.size.width < SMALLEST[0] or self.size.height < SMALLEST[1]
        if small:
            self.say(f"This window is small; {SMALLEST[0]} by {SMALLEST[1]} shows more.")
