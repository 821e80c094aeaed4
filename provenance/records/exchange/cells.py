"""Cells of tables that a spreadsheet may open: none is taken for a formula.

A text that a spreadsheet would calculate gets an apostrophe in front when it is
written, and loses it when it is read; so does one that has such an apostrophe
of its own.  Every text comes back as it was.
"""

import csv
import io
import itertools
from collections.abc import Iterable, Iterator, Sequence

Cell = str | int | None
_RUNS = "=+-@\t\r\n＝＋－＠"
_APOSTROPHE = "'"
_MARKED = tuple(_RUNS + _APOSTROPHE)


def guard(text: str) -> str:
    """`text` as a cell that no spreadsheet takes for a formula."""
    return _APOSTROPHE + text if text.startswith(_MARKED) else text


def unguard(cell: str) -> str:
    """The text that `guard` made `cell` of; any other cell as it is."""
    marked = cell.startswith(_APOSTROPHE) and cell[1:].startswith(_MARKED)
    return cell[1:] if marked else cell


def table_lines(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Iterator[bytes]:
    """A table as CSV (RFC 4180, UTF-8), line by line: texts in quotes, numbers bare."""
    held = io.StringIO(newline="")
    writer = csv.writer(held, quoting=csv.QUOTE_NONNUMERIC)
    for row in itertools.chain([heads], rows):
        writer.writerow([guard(cell) if isinstance(cell, str) else _bare(cell) for cell in row])
        yield held.getvalue().encode("utf-8")
        held.seek(0)
        held.truncate()


def _bare(cell: int | None) -> int | str:
    return "" if cell is None else cell
