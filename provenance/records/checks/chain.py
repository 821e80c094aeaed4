"""The chain: is every entry the one that was written, where it was written?

Reads the journal once, entry by entry, and holds eight bytes for each.
"""

import sqlite3
from array import array
from collections.abc import Iterator

from provenance.errors import NewerRegister, ProvenanceError
from provenance.model.proof import Test
from provenance.records.checks.finding import Finding, damage, note
from provenance.records.entry import GENESIS, Entry, decode, digest
from provenance.records.forms import read_body
from provenance.records.progress import Progress
from provenance.records.witness import Head, disagreement

HELD = "CREATE TABLE held (record INTEGER PRIMARY KEY, kind TEXT NOT NULL, seq INTEGER NOT NULL)"
"""Filled on the way: the live records that speak of something outside the register."""
_POINTS_OUTSIDE = frozenset({"scan", "certificate", "custody", "instruction"})
_EVERY = 10_000
_WIDEST_GAP = 10_000_000


def check_chain(
    connection: sqlite3.Connection, progress: Progress | None = None
) -> Iterator[Finding]:
    """Findings of the journal that `connection` sees; fills the table `held`."""
    (total,) = connection.execute("SELECT coalesce(max(seq), 0) FROM journal").fetchone()
    if not total:
        yield damage("the journal is empty")
    walk = _Walk(connection)
    rows = connection.execute("SELECT seq, entry, digest FROM journal ORDER BY seq")
    while True:
        try:
            row = rows.fetchone()
        except sqlite3.Error as error:
            yield damage(f"the journal can be read up to entry {walk.seq} only ({error})")
            return
        if row is None:
            return
        if row[0] - walk.seq > _WIDEST_GAP:
            # a number that no journal came to: eight bytes for each up to it would be gigabytes
            yield damage(
                f"{row[0] - walk.seq - 1} entries before it are missing; it is not read further",
                f"entry {row[0]}",
            )
            return
        yield from walk.take(*row)
        if progress and walk.seq % _EVERY == 0:
            progress("journal", walk.seq, total)


class _Walk:
    """Where the reading has come to."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self.seq = 0
        self._act = 0
        self._digest: object = GENESIS
        self._versions = array("q", [0])
        """The present version of each record, by its id; 0 where the id is none."""

    def take(self, seq: int, data: object, mark: object) -> Iterator[Finding]:
        name = f"entry {seq}"
        gap = seq - self.seq - 1
        if gap:
            one = "one entry before it is missing"
            yield damage(one if gap == 1 else f"{gap} entries before it are missing", name)
        self._versions.extend([0] * (seq + 1 - len(self._versions)))
        before, self.seq, self._digest = self._digest, seq, mark
        # a spoiled page may hold a value of any sort, whatever the table declares
        if not (isinstance(data, bytes) and isinstance(mark, str)):
            yield damage("it is not stored as an entry is", name)
            return
        if digest(data) != mark:
            yield damage("its bytes are not those that its digest was taken of", name)
        try:
            entry = decode(data)
        except ProvenanceError as error:
            yield damage(error.problems[0].what, name)
            return
        for what in self._faults(seq, entry, None if gap else before):
            yield damage(what, name)
        if entry.record <= seq:
            self._versions[entry.record] = seq
        self._act = entry.act
        yield from self._body(seq, entry, name)

    def _faults(self, seq: int, entry: Entry, before: object) -> Iterator[str]:
        if entry.seq != seq:
            yield f"it says that it is entry {entry.seq}"
        if before is not None and entry.previous != before:
            yield "it does not follow the entry before it; one of the two was changed"
        if entry.act not in (seq, self._act):
            yield f"it says that it belongs to act {entry.act}, which is not the act under way"
        new = entry.verb == "enter"
        if new != (entry.record == seq) or new != (entry.base is None):
            yield f"a record #{entry.record} cannot be written by the verb {entry.verb} here"
        elif not new and (entry.record > seq or self._versions[entry.record] != entry.base):
            yield f"it replaces version {entry.base} of #{entry.record}, which was not in force"

    def _body(self, seq: int, entry: Entry, name: str) -> Iterator[Finding]:
        run = self._connection.execute
        if entry.retires:
            run("DELETE FROM held WHERE record = ?", (entry.record,))
            return
        try:
            body = read_body(entry.kind, entry.form, entry.body)
        except NewerRegister as error:
            yield note(error.problems[0].what, name, error.problems[0].mend)
            return
        except ProvenanceError as error:
            yield damage(error.problems[0].what, name)
            return
        if seq == 1 and body.KIND != "studio":
            yield damage("the journal does not begin with a studio", name)
        if entry.kind in _POINTS_OUTSIDE or (isinstance(body, Test) and body.attached):
            run(
                "INSERT OR REPLACE INTO held VALUES (?, ?, ?)",
                (entry.record, entry.kind, seq),
            )
        elif isinstance(body, Test) and entry.base is not None:
            run("DELETE FROM held WHERE record = ?", (entry.record,))


def check_witness(connection: sqlite3.Connection, witness: Head | None) -> Iterator[Finding]:
    """Whether the journal has what the witness remembers."""
    if witness is None:
        yield note(
            "the file `head` is missing or cannot be read, so a lost end would not show",
            mend="it is written anew with the next entry",
        )
        return
    why = disagreement(connection, witness)
    if why:
        yield damage(why)
