"""What a form works out while it is typed in: lines below its fields, to be scrolled."""

from collections.abc import Iterable
from dataclasses import dataclass

from rich.cells import cell_len
from rich.text import Text
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static


@dataclass(frozen=True)
class Said:
    """A line of prose: quiet, or strong."""

    text: str
    quiet: bool = False
    strong: bool = False


@dataclass(frozen=True)
class Cells:
    """Lines in columns; those in `right` hold figures; with `head` the first line is the heads."""

    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    head: bool = False


Shown = Said | Cells


class Working(VerticalScroll):
    """Takes the room that the fields leave."""

    DEFAULT_CSS = """
    Working { height: 1fr; min-height: 3; max-width: 102; padding: 0 1; scrollbar-size-vertical: 1;
              border-top: solid $rule; background: $background; }
    Working:focus { border-top: solid $accent; }
    Working Static { width: 1fr; height: auto; }
    """

    def compose(self) -> ComposeResult:
        """One text."""
        yield Static(id="worked", markup=False)

    def show(self, lines: Iterable[Shown]) -> None:
        """Show these instead of what stood here."""
        quiet = self.app.theme_variables["quiet"]
        text = Text()
        for line in lines:
            if isinstance(line, Said):
                style = quiet if line.quiet else "bold" if line.strong else ""
                text.append(f"{line.text}\n", style)
            else:
                for place, row in enumerate(_laid_out(line)):
                    text.append(f"{row}\n", quiet if line.head and not place else "")
        text.rstrip()
        self.query_one("#worked", Static).update(text)


def _laid_out(cells: Cells) -> list[str]:
    columns = max((len(row) for row in cells.rows), default=0)
    widths = [
        max((cell_len(row[at]) for row in cells.rows if at < len(row)), default=0)
        for at in range(columns)
    ]
    return [
        "  ".join(
            " " * (widths[at] - cell_len(text)) + text
            if at in cells.right
            else text + " " * (widths[at] - cell_len(text))
            for at, text in enumerate(row)
        ).rstrip()
        for row in cells.rows
    ]
