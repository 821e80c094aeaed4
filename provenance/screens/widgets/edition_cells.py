"""An edition at a glance: one cell for each impression, its state in a letter."""

from collections import Counter

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text
from textual.geometry import Size
from textual.widget import Widget

from provenance.studio.drawer import EditionView, Impression

LEGEND = "· not made  w at work  p tested  n signed  c certified  r released  x gone"
_GAP = 3
LEAST_ROWS = 10
"""So many rows of cells there may always be; on a higher screen, nearly half of it."""


class EditionCells(Widget):
    """Cells in rows, as many as fit; a legend stands below them."""

    DEFAULT_CSS = """
    EditionCells { height: auto; width: 1fr; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._view: EditionView | None = None

    def show(self, view: EditionView | None) -> None:
        """Show the impressions of an edition."""
        self._view = view
        self.refresh(layout=True)

    def _rows(self, width: int) -> list[Text]:
        if self._view is None:
            return []
        numbered = tuple(one for one in self._view.declared if one.name.isdecimal())
        proofs = tuple(one for one in self._view.declared if not one.name.isdecimal())
        rows: list[Text] = []
        most = max(LEAST_ROWS, self.app.size.height // 2 - 2)
        for group in (numbered, proofs, self._view.beside):
            rows += _grid(group, width, self._quiet(), most)
        return [*rows, Text(), Text(LEGEND, style=self._quiet(), no_wrap=True, overflow="ellipsis")]

    def _quiet(self) -> Style:
        colour = self.app.theme_variables.get("quiet", "")
        return Style(color=colour) if colour else Style.null()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many rows as the cells take."""
        return len(self._rows(width))

    def render(self) -> Text:
        """The cells."""
        return Text("\n").join(self._rows(self.size.width))


def _grid(impressions: tuple[Impression, ...], width: int, quiet: Style, most: int) -> list[Text]:
    if not impressions:
        return []
    name = max(cell_len(one.name) for one in impressions)
    cell = name + 2 + _GAP
    columns = max(1, (width + _GAP) // cell)
    # a multiple of five is counted at a glance
    columns -= columns % 5 if columns > 5 else 0
    rows: list[Text] = []
    # where not all have room, a few rows show the beginning, and the rest is counted
    fits = len(impressions) <= columns * most
    shown = len(impressions) if fits else columns * (most // 2)
    for first in range(0, shown, columns):
        row = Text(no_wrap=True, overflow="crop")
        for one in impressions[first : first + columns]:
            made = one.record is not None
            space = " " * (name - cell_len(one.name))
            label = space + one.name if one.name.isdecimal() else one.name + space
            row.append(f"{label} ", style=None if made else quiet)
            row.append(one.state, style="bold" if made else quiet)
            row.append(" " * _GAP)
        rows.append(row)
    if left_out := Counter(one.state for one in impressions[shown:]):
        said = ", ".join(f"{count:,} {state}" for state, count in left_out.most_common())
        told = f"and {left_out.total():,} more: {said}"
        rows.append(Text(told, style=quiet, no_wrap=True, overflow="ellipsis"))
    return rows
