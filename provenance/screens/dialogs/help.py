"""The keys that work on a page, and the words that are used there."""

from collections.abc import Sequence
from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from provenance.screens.actions import MOVING, applying, with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.frame import Rule, TitleLine
from provenance.screens.widgets.line_list import Line, LineList
from provenance.screens.words import WORDS
from provenance.studio.settings import Settings


class Keys(Static):
    """A line of keys that are always the same."""

    DEFAULT_CSS = "Keys { height: 1; padding: 0 1; color: $quiet; }"

    def __init__(self, keys: Sequence[tuple[str, str]]) -> None:
        line = Text(no_wrap=True)
        for key, about in keys:
            line.append(f"{key} ", "bold").append(f"{about}   ")
        super().__init__(line)


class Help(ModalScreen[None]):
    """Everything that can be pressed here, then the words."""

    DEFAULT_CSS = """
    Help { background: $background; }
    Help TitleLine { height: 1; padding: 0 1; }
    Help Rule { height: 1; color: $rule; }
    Help #content { height: 1fr; padding: 0 1; max-width: 100; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,backspace,q,question_mark", "dismiss", "back", show=False)
    ]

    def __init__(self, where: str, settings: Settings) -> None:
        super().__init__()
        self._where = where
        self._settings = settings

    def compose(self) -> ComposeResult:
        """A heading, the list, the way out."""
        yield TitleLine()
        yield Rule()
        with Vertical(id="content"):
            yield LineList(lead_width=16, id="help")
        yield Rule()
        yield Keys((("up down", "read on"), ("esc", "back")))

    def on_mount(self) -> None:
        """Fill the list."""
        self.query_one(TitleLine).set("Keys and words")
        groups = applying(self._where, with_keys(self._settings.keys))
        lines: list[Line] = []
        for heading, group in zip(("on this page", "in a list", "everywhere"), groups, strict=True):
            if group:
                lines.append(Line(heading, heading=True))
                lines += [Line(one.about, lead=shown_key(one.key)) for one in group]
                lines.append(Line("", heading=True))
        lines.append(Line("moving about", heading=True))
        lines += [Line(about, lead=keys) for keys, about in MOVING.items()]
        lines += [Line("", heading=True), Line("words", heading=True)]
        lines += [Line(about, lead=word) for word, about in WORDS.items()]
        listed = self.query_one(LineList)
        listed.show(lines)
        listed.focus()
