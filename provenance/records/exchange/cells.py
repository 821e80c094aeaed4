"""Cells of tables that a spreadsheet may open: none is taken for a formula.

A text that a spreadsheet would calculate gets an apostrophe in front when it is
written, and loses it when it is read; so does one that has such an apostrophe
of its own, and one that begins or ends with a blank.  Every text comes back as
it was; blanks around a cell that a person typed are dropped.
"""

import csv
import io
import itertools
from collections.abc import Iterable, Iterator, Sequence

Cell = str | int | None
_RUNS = "=+-@\t\r\n＝＋－＠"
_APOSTROPHE = "'"
_MARKED = tuple(_RUNS + _APOSTROPHE)


class _AsWritten(str):
    """A cell that stands in the table as it is."""

    __slots__ = ()


NO_TEXT: str = _AsWritten(_APOSTROPHE)
"""The cell of an optional text that is there and empty."""


def guard(text: str) -> str:
    """`text` as a cell that no spreadsheet takes for a formula, and no reader shortens."""
    return _APOSTROPHE + text if _wants_mark(text) else text


def unguard(cell: str) -> str:
    """The text that `guard` made `cell` of; any other cell as it is."""
    marked = cell.startswith(_APOSTROPHE) and _wants_mark(cell[1:])
    return cell[1:] if marked else cell


def text_of(cell: str) -> str:
    """What a cell says: as it was exported, or as a person typed it, without blanks around."""
    bare = cell.strip()
    if bare[:1] != _APOSTROPHE:
        return bare
    whole = unguard(cell)
    return unguard(bare) if whole == cell else whole


def _wants_mark(text: str) -> bool:
    return text.startswith(_MARKED) or text[:1].isspace() or text[-1:].isspace()


def table_lines(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Iterator[bytes]:
    """A table as CSV (RFC 4180, UTF-8), line by line: texts in quotes, numbers bare."""
    held = io.StringIO(newline="")
    writer = csv.writer(held, quoting=csv.QUOTE_NONNUMERIC)
    for row in itertools.chain([heads], rows):
        writer.writerow([_written(cell) for cell in row])
        yield held.getvalue().encode("utf-8")
        held.seek(0)
        held.truncate()


def _written(cell: Cell) -> int | str:
    if isinstance(cell, str):
        return cell if isinstance(cell, _AsWritten) else guard(cell)
    return "" if cell is None else cell
