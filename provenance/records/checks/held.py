"""The records of one kind as they stand, by the journal alone."""

import sqlite3
from collections.abc import Iterator

from provenance.records.entry import decode
from provenance.records.forms import read_body


def held(connection: sqlite3.Connection, kind: str) -> Iterator[tuple[int, object]]:
    """Each live record of a kind that speaks of something outside the register, and its body."""
    for record, data in connection.execute(
        "SELECT record, entry FROM held JOIN journal USING (seq) WHERE kind = ? ORDER BY record",
        (kind,),
    ):
        entry = decode(data)
        yield record, read_body(entry.kind, entry.form, entry.body)
