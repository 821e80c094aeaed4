"""Columns of a table: how wide each is, and how a text is made to fit."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size

GAP = 2
"""Cells between two columns."""
LEAST_FLEX = 8
"""A column that takes what is left is not narrower than this."""

_NOT_SHOWN = str.maketrans(
    # what would move the cursor, colour the terminal or turn the line around
    dict.fromkeys((*range(32), *range(127, 160), 8232, 8233), " ")
    | dict.fromkeys((0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF), "")
)


@dataclass(frozen=True)
class Column:
    """One column of a table.

    `key` is what its source sorts by, empty where it does not.  `width` is in
    cells; 0 takes a share, `flex`, of what the others leave.
    """

    head: str
    width: int = 0
    key: str = ""
    flex: int = 1
    right: bool = False
    """Numbers stand at the right of their column."""
    quiet: bool = False


@dataclass(frozen=True)
class Span:
    """Where a column stands in the line, in cells."""

    column: Column
    place: int
    """Its place in a row's texts."""
    start: int
    width: int


def lay_out(columns: Sequence[Column], width: int) -> tuple[Span, ...]:
    """The columns side by side in `width` cells; where room lacks, the last ones are left out."""
    shown = list(enumerate(columns))
    while len(shown) > 1 and _least([column for _, column in shown]) > width:
        shown.pop()
    flexing = [column for _, column in shown if not column.width]
    spare = max(0, width - _least([column for _, column in shown]))
    shares = sum(column.flex for column in flexing)
    spans: list[Span] = []
    start = 0
    for place, column in shown:
        cells = column.width
        if not cells:
            share = spare * column.flex // shares
            spare -= share
            shares -= column.flex
            cells = LEAST_FLEX + share
        spans.append(Span(column, place, start, min(cells, max(0, width - start))))
        start += cells + GAP
    return tuple(spans)


def _least(columns: Sequence[Column]) -> int:
    return sum(column.width or LEAST_FLEX for column in columns) + GAP * (len(columns) - 1)


def fit(text: str, width: int, *, right: bool = False) -> str:
    """`text` in exactly `width` cells of the terminal; cut with … where it is longer."""
    text = text.translate(_NOT_SHOWN)
    size = cell_len(text)
    if size > width:
        text = set_cell_size(text, width - 1) + "…" if width > 0 else ""
        size = width
    space = " " * (width - size)
    return space + text if right else text + space
