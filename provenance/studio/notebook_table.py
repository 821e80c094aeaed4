"""Reads a table (CSV) as a person saved it: its heads, and the rows with their lines."""

import csv
import io
from collections.abc import Sequence
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.records.exchange.cells import text_of

MOST_BYTES = 50_000_000
"""A notebook larger than this is not one."""
Rows = list[tuple[int, Sequence[str]]]
"""The rows of a table, each with its line in the file."""
_SAVE = "save the table anew as CSV in UTF-8, and bring that file in"
_SIXTEEN = (b"\xff\xfe", b"\xfe\xff")
"""What a file in UTF-16 begins with."""


def read_table(path: Path) -> tuple[list[str], Rows]:
    """The heads, and each row that holds anything with its line in the file.  Raises Refused."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refused(Problem("is larger than any notebook", str(path), mend="split it"))
        data = path.read_bytes()
    except OSError as error:
        raise Refused(Problem(f"cannot be read: {error.strerror}", str(path))) from error
    text = _text(data, path.name)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        # a cell may have line breaks: a row is where it begins; of tuples of texts the collector
        # of garbage keeps no account, so that a long table does not slow it down
        begins = 1
        table: Rows = []
        for row in reader:
            table.append((begins, tuple(map(text_of, row))))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise Refused(
            Problem(
                f"is not a table: {error}", path.name, line=reader.line_num, mend="mend the row"
            )
        ) from error
    if not table:
        raise Refused(Problem("is empty", path.name, mend="name the columns in the first row"))
    return list(table[0][1]), [row for row in table[1:] if any(row[1])]


def _text(data: bytes, name: str) -> str:
    """The text of a file.  Raises Refused for another encoding than UTF-8: none is guessed."""
    if data.startswith(_SIXTEEN):
        raise Refused(Problem("is text in UTF-16, not in UTF-8", name, mend=_SAVE))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused(
            Problem(
                f"is not UTF-8 text: the byte {data[error.start]:02x} stands there alone",
                name,
                mend=_SAVE,
                line=data.count(b"\n", 0, error.start) + 1,
            )
        ) from error
    if (null := text.find("\0")) >= 0:
        line = text.count("\n", 0, null) + 1
        raise Refused(Problem("is not UTF-8 text: it has a null in it", name, "", _SAVE, line))
    return text


def _delimiter(text: str) -> str:
    """What stands between cells: of comma, semicolon and tab the one the first row has most of."""
    first = text.partition("\n")[0]
    return max(",;\t", key=first.count)
