"""The keypad in one line."""

from rich.text import Text
from textual.binding import Binding
from textual.widgets import Static

_RUN = ("press", "more_time", "less_time", "take_back", "spoiled", "other_step", "paper_shut")
_NAMES = {"press": "step", "more_time": "", "less_time": "aim", "paper_shut": "paper"}


class RunKeys(Static):
    """What the keypad does here; digits pick sheets, so places are left by esc."""

    DEFAULT_CSS = "RunKeys { height: 1; padding: 0 1; color: $quiet; }"

    def __init__(self) -> None:
        super().__init__(id="keys")
        self._leave = ""

    def asks(self, leave: str) -> None:
        """While a question stands its digits are answers, and 0 means `leave`; empty after it."""
        self._leave = leave
        self.refresh()

    def render(self) -> Text:
        """The keys, each with its word."""
        line = Text(no_wrap=True, overflow="crop")
        for key, about in self._keys():
            line.append(f"{key} ", "bold")
            line.append(f"{about}  " if about else "")
        return line

    def _keys(self) -> list[tuple[str, str]]:
        if self._leave:
            return [("1-9", "answer"), ("0", self._leave)]
        bound: dict[str, Binding] = {}
        for active in self.screen.active_bindings.values():
            # the first of several keys is the one on the keypad of a plain terminal
            bound.setdefault(active.binding.action, active.binding)
        shown = [("1-9", "sheet")]
        for name in _RUN:
            if name in bound:
                key = self.app.get_key_display(bound[name])
                shown.append((key, _NAMES.get(name, bound[name].description)))
        return [*shown, ("esc", "leave")]
