"""One row per print, for lists: its designation, and its state as a letter.

w  at work: wet, or owing a test      c  certified
p  both residual tests passed         r  released
n  numbered and signed                x  spoiled, destroyed or lost
"""

import sqlite3
from collections.abc import Iterable

from provenance.craft.history import PrintHistory
from provenance.craft.proof import judge
from provenance.model.designation import Designation, parse_designation
from provenance.model.prints import Print
from provenance.records.dossier import print_history
from provenance.records.reader import Reader

_SERIES = ("numbered", "AP", "PP", "HC", "BAT", "TP", "unnumbered")
_SPAN = 1_000_000
"""Wider than any edition, so that one number sorts by series, then by numerator."""


def derive_impressions(connection: sqlite3.Connection, prints: Iterable[int]) -> None:
    """Make the rows of `prints` anew from the live records."""
    reader = Reader(connection)
    for record in sorted(prints):
        connection.execute("DELETE FROM impression WHERE id = ?", (record,))
        connection.execute("DELETE FROM search WHERE rowid = ?", (record,))
        if reader.kind_of(record) == "print":
            _derive(connection, print_history(reader, record))


def _derive(connection: sqlite3.Connection, history: PrintHistory) -> None:
    body, edition = history.print.body, history.edition.body
    designation = parse_designation(body.designation) if body.designation else None
    connection.execute(
        "INSERT INTO impression VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            history.print.id,
            history.edition.id,
            edition.code,
            body.mark,
            body.designation,
            designation.series if designation else None,
            designation.number if designation else None,
            _position(designation),
            state_letter(history),
            history.printing.body.done_on,
            _certificate(history),
        ),
    )
    words = [edition.code, edition.name, *(str(getattr(body, field) or "") for field in body.WORDS)]
    connection.execute(
        "INSERT INTO search (rowid, words, kind) VALUES (?, ?, ?)",
        (history.print.id, " ".join(filter(None, words)), Print.KIND),
    )


def _position(designation: Designation | None) -> int:
    if designation is None:
        return (len(_SERIES) + 1) * _SPAN
    return _SERIES.index(designation.series) * _SPAN + (designation.number or 0)


def _certificate(history: PrintHistory) -> str | None:
    issued = [fact.body for fact in history.certificates if fact.body.state == "issued"]
    return issued[-1].number if issued else None


def state_letter(history: PrintHistory) -> str:
    """Where a print stands, as the letter that lists show."""
    body = history.print.body
    if body.existence != "exists":
        return "x"
    if history.custody and history.custody[-1].body.event == "released":
        return "r"
    if _certificate(history):
        return "c"
    if body.designation and body.signature and body.signature.counts:
        return "n"
    if all(judge(history, question).passed for question in ("silver", "thiosulfate")):
        return "p"
    return "w"
