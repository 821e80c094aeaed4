"""One row per print, for lists: its designation, and its state as a letter.

w  at work: wet, or owing a test      c  certified
p  both residual tests passed         r  released
n  numbered and signed                x  spoiled, destroyed or lost

What it owes stands beside that, a letter for each thing, and why a test that
was done does not count; one that is certified, released or gone owes nothing.
"""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import islice
from typing import TypeVar

from provenance.craft.history import PrintHistory
from provenance.craft.owing import Debt, owed, owed_untouched
from provenance.craft.proof import Why, judge
from provenance.model.designation import SERIES, Designation, parse_designation
from provenance.model.edition import Edition
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.dossier import print_history
from provenance.records.entry import decode
from provenance.records.forms import read_body
from provenance.records.reader import Reader

T = TypeVar("T")
Row = tuple[int | str | None, ...]
Derived = tuple[Row, str]
"""The row of a print, and the words that a search finds it by."""

DEBTS: dict[Debt, str] = {
    "silver": "s",
    "thiosulfate": "t",
    "finish": "f",
    "number": "n",
    "signature": "g",
    "scan": "p",
    "certificate": "c",
}
"""The letter of each thing that a print can owe, in the order in which it is done."""
_AT_WORK = frozenset("wpn")
"""The states of prints that owe something."""

_SPAN = 1_000_000
"""Wider than any edition, so that one number sorts by series, then by numerator."""


_PRINTS = """
SELECT r.id, j.entry, EXISTS (
  SELECT 1 FROM link l WHERE l.target = r.id
  AND +l.kind IN ('step', 'test', 'finish', 'scan', 'certificate', 'custody')
)
FROM record r JOIN journal j ON j.seq = r.version WHERE r.live AND
"""
_AT_ONCE = 1000


def derive_impressions(connection: sqlite3.Connection, prints: Iterable[int]) -> None:
    """Make the rows of `prints` anew from the live records."""
    for batch in _batches(iter(sorted(prints))):
        ids = ", ".join(map(str, batch))
        connection.execute(f"DELETE FROM impression WHERE id IN ({ids})")  # noqa: S608 - whole numbers
        connection.execute(f"DELETE FROM search WHERE rowid IN ({ids})")  # noqa: S608
        # The plus keeps SQLite from going through all prints to find these.
        some = f"{_PRINTS} +r.kind = 'print' AND r.id IN ({ids})"
        _write(connection, connection.execute(some))


def derive_all_impressions(connection: sqlite3.Connection) -> None:
    """Make the row of every live print; the tables hold none yet."""
    _write(connection, connection.execute(f"{_PRINTS} r.kind = 'print'"))


def _batches(items: Iterator[T]) -> Iterator[list[T]]:
    while batch := list(islice(items, _AT_ONCE)):
        yield batch


def _write(connection: sqlite3.Connection, prints: Iterator[tuple[int, bytes, int]]) -> None:
    reader = Reader(connection, still=True)
    for batch in _batches(_derived(reader, *row) for row in prints):
        write_rows(connection, batch)


def write_rows(connection: sqlite3.Connection, derived: Sequence[Derived]) -> None:
    """Put rows of prints that have none into the view, and their words."""
    connection.executemany(
        "INSERT INTO impression VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [row for row, _words in derived],
    )
    connection.executemany(
        "INSERT INTO search (rowid, words, kind) VALUES (?, ?, 'print')",
        [(row[0], words) for row, words in derived],
    )


def _derived(reader: Reader, record: int, data: bytes, touched: int) -> Derived:
    entry = decode(data)
    body = read_body(entry.kind, entry.form, entry.body)
    assert isinstance(body, Print)  # noqa: S101 - the query asks for prints
    if not touched and not body.opening:
        return untouched_row(reader, record, body)
    history = print_history(reader, record)
    state = state_letter(history)
    whys = owed(history) if state in _AT_WORK else {}
    return _row(reader, record, body, state, _certificate(history), tuple(whys), whys)


def untouched_row(reader: Reader, record: int, body: Print) -> Derived:
    """The row of a print that no work and no paper names yet, and its words."""
    state, numbered, signed = (
        _state_of(body),
        body.designation is not None,
        body.signature is not None,
    )
    debts = owed_untouched(numbered=numbered, signed=signed) if state in _AT_WORK else ()
    return _row(reader, record, body, state, None, debts, {})


def _row(
    reader: Reader,
    record: int,
    body: Print,
    state: str,
    certificate: str | None,
    debts: tuple[Debt, ...],
    whys: Mapping[Debt, Why | None],
) -> Derived:
    edition = reader.get(Edition, body.edition).body
    designation = parse_designation(body.designation) if body.designation else None
    row = (
        record,
        body.edition,
        edition.code,
        body.mark,
        body.designation,
        designation.series if designation else None,
        designation.number if designation else None,
        _position(designation),
        state,
        reader.get(Printing, body.printing).body.done_on,
        certificate,
        _letters(debts),
        whys.get("silver"),
        whys.get("thiosulfate"),
    )
    words = [edition.code, edition.name, *(str(getattr(body, field) or "") for field in body.WORDS)]
    return row, " ".join(filter(None, words))


@cache
def _letters(debts: tuple[Debt, ...]) -> str:
    return "".join(letter for debt, letter in DEBTS.items() if debt in debts)


def _position(designation: Designation | None) -> int:
    if designation is None:
        return (len(SERIES) + 1) * _SPAN
    return SERIES.index(designation.series) * _SPAN + (designation.number or 0)


def _certificate(history: PrintHistory) -> str | None:
    issued = [fact.body for fact in history.certificates if fact.body.state == "issued"]
    return issued[-1].number if issued else None


def state_letter(history: PrintHistory) -> str:
    """Where a print stands, as the letter that lists show."""
    body = history.print.body
    if body.existence != "exists":
        return "x"
    if history.whereabouts.away:
        return "r"
    if _certificate(history):
        return "c"
    tested = all(judge(history, question).passed for question in ("silver", "thiosulfate"))
    return _state_of(body, tested=tested)


def _state_of(body: Print, *, tested: bool = False) -> str:
    """The letter of a print that is neither certified nor released."""
    if body.existence != "exists":
        return "x"
    if body.designation and body.signature and body.signature.counts:
        return "n"
    return "p" if tested else "w"
