"""The names of several lists on one line, the one that is shown in strong letters."""

from collections.abc import Sequence

from rich.text import Text
from textual.widgets import Static


class Tabs(Static):
    """Which lists there are, how long each is, and which is shown."""

    DEFAULT_CSS = "Tabs { height: 1; padding: 0 1; }"

    def __init__(self, keys: str) -> None:
        """`keys` says which keys go from one to the next."""
        super().__init__(markup=False)
        self._keys = keys

    def show(self, names: Sequence[tuple[str, int | None]], current: int) -> None:
        """Show the names, each with its count where it is known."""
        variables = self.app.theme_variables
        line = Text(no_wrap=True, overflow="crop")
        for place, (name, count) in enumerate(names):
            here = place == current
            line.append(name, f"bold {variables['accent']}" if here else variables["quiet"])
            line.append(f" {count}" if count is not None else "", variables["quiet"])
            line.append("     ")
        line.append(self._keys, variables["quiet"])
        self.update(line)
