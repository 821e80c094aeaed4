"""The view: tables made from the journal, and made again whenever need be.

What a table holds is a function of the live records, never of the way they
came to be: `take` notes each entry, `settle` derives the rows of everything
that was touched.  Projecting an accepted entry never fails.
"""

import sqlite3
from collections.abc import Callable

from provenance.model.body import Body, links_of
from provenance.model.prints import Print
from provenance.records.at_hand import USES, use_of
from provenance.records.entry import decode
from provenance.records.forms import read_body
from provenance.records.impressions import (
    Derived,
    derive_all_impressions,
    derive_impressions,
    untouched_row,
    write_rows,
)
from provenance.records.progress import Progress
from provenance.records.reader import Reader
from provenance.records.schema import META, VIEW, VIEW_TABLES, fingerprint, statements

_JOURNAL = "SELECT seq, entry FROM journal ORDER BY seq"
_LAST = """
SELECT coalesce(v.seq, j.seq), coalesce(last.entry, j.entry) FROM journal j
LEFT JOIN (SELECT record, max(seq) AS seq FROM version GROUP BY record) v ON v.record = j.seq
LEFT JOIN journal last ON last.seq = v.seq
WHERE j.seq NOT IN (SELECT seq FROM version) ORDER BY j.seq
"""
"""The last entry of each record, in the order of the records."""
_MADE_AGAIN = "view, made again"
_AT_ONCE = 50
_NEW_AT_ONCE = 1000

_SPEAKS_FOR_PRINTS = {"step": "sheets", "run": "sheets", "test": "covers", "finish": "prints"}
_POINTS_AT_PRINT = {"certificate": "print", "custody": "print", "scan": "print"}
_PRINTS_POINT_AT_IT = {"edition": "edition", "printing": "printing"}


class Projection:
    """Brings the view up to the journal, entry by entry, then settles."""

    def __init__(self, reader: Reader) -> None:
        self._reader = reader
        self._connection = reader.connection
        self._prints: set[int] = set()
        self._new: list[Derived] = []

    def take(
        self,
        seq: int,
        record: int,
        kind: str,
        body: Body | None,
        links: tuple[tuple[str, int], ...],
    ) -> None:
        """Note entry `seq`: `body` is the record's new content, None when it is retired."""
        run = self._connection.execute
        code = getattr(body, "code", None)
        if record == seq:
            run("INSERT INTO record VALUES (?, ?, ?, TRUE, ?)", (record, kind, seq, code))
        else:
            self._forget(record, kind)
            run(
                "UPDATE record SET version = ?, live = ?, code = ? WHERE id = ?",
                (seq, body is not None, code, record),
            )
            run("INSERT INTO version VALUES (?, ?)", (record, seq))
        if body is None:
            return
        if isinstance(body, Print):
            run(
                "INSERT INTO print_key VALUES (?, ?, ?, ?)",
                (record, body.edition, body.mark, body.designation),
            )
        if kind in USES and (use := use_of(body)):
            run("INSERT INTO at_hand VALUES (?, ?)", (use, record))
        self._connection.executemany(
            "INSERT INTO link VALUES (?, ?, ?, ?)",
            [(record, field, target, kind) for field, target in links],
        )
        if body.WORDS and kind != Print.KIND:
            run(
                "INSERT INTO search (rowid, words, kind) VALUES (?, ?, ?)",
                (record, _words(body), kind),
            )
        if isinstance(body, Print) and record == seq and not body.opening:
            self._add(untouched_row(self._reader, record, body))
        else:
            self._touch(record, kind)

    def _add(self, derived: Derived) -> None:
        """Keep the row of a new print for a while: many are written sooner than one by one."""
        self._new.append(derived)
        if len(self._new) == _NEW_AT_ONCE:
            self._write_new()

    def _write_new(self) -> None:
        write_rows(self._connection, self._new)
        self._new.clear()

    def _forget(self, record: int, kind: str) -> None:
        """Take out the rows of a record's former version."""
        self._touch(record, kind)
        run = self._connection.execute
        run("DELETE FROM link WHERE source = ?", (record,))
        run("DELETE FROM search WHERE rowid = ?", (record,))
        if kind == Print.KIND:
            run("DELETE FROM print_key WHERE id = ?", (record,))
        for use in USES.get(kind, ()):
            run("DELETE FROM at_hand WHERE use = ? AND id = ?", (use, record))

    def _touch(self, record: int, kind: str) -> None:
        """Mark every print whose row may change with `record`, by its links as they stand."""
        if kind == Print.KIND:
            self._prints.add(record)
            return
        field = _SPEAKS_FOR_PRINTS.get(kind) or _POINTS_AT_PRINT.get(kind)
        if field:
            rows = self._connection.execute(
                "SELECT target FROM link WHERE source = ? AND field = ?", (record, field)
            )
        elif kind in _PRINTS_POINT_AT_IT:
            rows = self._connection.execute(
                "SELECT source FROM link WHERE target = ? AND kind = 'print' AND field = ?",
                (record, _PRINTS_POINT_AT_IT[kind]),
            )
        else:
            return
        self._prints.update(row[0] for row in rows)

    def settle(self) -> None:
        """Derive the rows of every print that was touched."""
        self._write_new()
        derive_impressions(self._connection, self._prints)
        self._prints.clear()


def make_view(connection: sqlite3.Connection, progress: Progress | None = None) -> None:
    """Fill empty view tables from the journal that `connection` can see.

    It reads the journal twice, in order: first to learn which entry is the last
    of its record, then to take those alone.
    """
    (entries,) = connection.execute("SELECT coalesce(max(seq), 0) FROM journal").fetchone()
    connection.executemany(
        "INSERT INTO version VALUES (?, ?)",
        (
            (record, seq)
            for seq, data in connection.execute(_JOURNAL)
            if (record := decode(data).record) != seq
        ),
    )
    last = connection.execute(_LAST)
    while some := last.fetchmany(_AT_ONCE):
        _take_all(connection, some)
        if progress and some[-1][0] < entries:
            progress(_MADE_AGAIN, some[-1][0], entries)
    derive_all_impressions(connection)
    if progress:
        progress(_MADE_AGAIN, entries, entries)


def _take_all(connection: sqlite3.Connection, entries: list[tuple[int, bytes]]) -> None:
    """Take the last entries of some records at once."""
    records: list[tuple[int, str, int, bool, str | None]] = []
    links: list[tuple[int, str, int, str]] = []
    keys: list[tuple[int, int, str, str | None]] = []
    words: list[tuple[int, str, str]] = []
    uses: list[tuple[str, int]] = []
    for seq, data in entries:
        entry = decode(data)
        record, kind = entry.record, entry.kind
        body = None if entry.retires else read_body(kind, entry.form, entry.body)
        records.append((record, kind, seq, body is not None, getattr(body, "code", None)))
        if body is None:
            continue
        links += [(record, field, target, kind) for field, target in links_of(body)]
        if kind in USES and (use := use_of(body)):
            uses.append((use, record))
        if isinstance(body, Print):
            keys.append((record, body.edition, body.mark, body.designation))
        elif body.WORDS:
            words.append((record, _words(body), kind))
    connection.executemany("INSERT INTO record VALUES (?, ?, ?, ?, ?)", records)
    connection.executemany("INSERT INTO link VALUES (?, ?, ?, ?)", links)
    connection.executemany("INSERT INTO print_key VALUES (?, ?, ?, ?)", keys)
    connection.executemany("INSERT INTO at_hand VALUES (?, ?)", uses)
    connection.executemany("INSERT INTO search (rowid, words, kind) VALUES (?, ?, ?)", words)


def _words(body: Body) -> str:
    return " ".join(str(getattr(body, field) or "") for field in body.WORDS)


def rebuild(
    connection: sqlite3.Connection,
    progress: Progress | None = None,
    *,
    first: Callable[[sqlite3.Connection], None] | None = None,
) -> None:
    """Throw the view away and make it again, in one transaction that begins with `first`."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        if first is not None:
            first(connection)
        for table in VIEW_TABLES:
            connection.execute(f"DROP TABLE IF EXISTS {table}")
        for statement in statements(META + VIEW):
            connection.execute(statement)
        make_view(connection, progress)
        connection.execute("DELETE FROM view_made_by")
        connection.execute("INSERT INTO view_made_by VALUES (?)", (fingerprint(),))
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
