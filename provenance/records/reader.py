"""Reading the register: records at their present version, and their history."""

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar, cast

from provenance.errors import Conflict, NotFound, Problem
from provenance.model.body import Body
from provenance.records.clock import Moment
from provenance.records.entry import Entry, decode
from provenance.records.forms import read_body

B = TypeVar("B", bound=Body)
B_co = TypeVar("B_co", bound=Body, covariant=True)

_MOST_HELD = 4096
"""How many records a reader keeps at hand."""


@dataclass(frozen=True)
class Stored(Generic[B_co]):
    """A record as it stands: its body, and who wrote it when."""

    id: int
    version: int
    body: B_co
    entered: Moment
    """When its first entry was written."""
    changed: Moment
    """When the present version was written."""
    who: str

    @property
    def kind(self) -> str:
        """The kind of the record."""
        return type(self.body).KIND


@dataclass(frozen=True)
class Version:
    """One entry in the history of a record; `body` is None where it was retired."""

    entry: Entry
    body: Body | None


class Reader:
    """Questions to the register, over one connection.

    A `still` one reads inside a transaction, where nothing changes unseen: what
    it holds is not looked up again.
    """

    def __init__(self, connection: sqlite3.Connection, *, still: bool = False) -> None:
        self.connection = connection
        self._still = still
        self._held: dict[int, tuple[str, Stored[Body]]] = {}

    def head(self) -> tuple[int, str]:
        """The number and digest of the last entry; (0, "") in an empty journal."""
        row = self.connection.execute(
            "SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1"
        ).fetchone()
        return (row[0], row[1]) if row else (0, "")

    def entry(self, seq: int) -> Entry:
        """Entry number `seq`.  Raises NotFound."""
        row = self.connection.execute("SELECT entry FROM journal WHERE seq = ?", (seq,)).fetchone()
        if row is None:
            raise NotFound(
                Problem(
                    what="the journal has no such entry",
                    record=f"#{seq}",
                    mend="see `provenance history`; if it should be there, run `provenance audit`",
                )
            )
        return decode(row[0])

    def entries(self, first: int = 1) -> Iterator[tuple[int, bytes, str]]:
        """(seq, bytes, digest) of every entry from `first` on, in order."""
        return iter(
            self.connection.execute(
                "SELECT seq, entry, digest FROM journal WHERE seq >= ? ORDER BY seq", (first,)
            )
        )

    def act_entries(self, act: int) -> list[Entry]:
        """The entries of one act, in order; they follow each other without a gap."""
        found: list[Entry] = []
        for _seq, data, _digest in self.entries(act):
            entry = decode(data)
            if entry.act != act:
                break
            found.append(entry)
        return found

    def find(self, record: int) -> Stored[Body] | None:
        """The record with that id, or None when there is none or it was retired."""
        if self._still and record in self._held:
            return self._held[record][1]
        row = self.connection.execute(
            "SELECT r.version, j.digest FROM record r JOIN journal j ON j.seq = r.version"
            " WHERE r.id = ? AND r.live",
            (record,),
        ).fetchone()
        if row is None:
            return None
        # an act that was taken back leaves its numbers free, so the digest decides
        held = self._held.get(record)
        if held is None or held[0] != row[1]:
            if len(self._held) >= _MOST_HELD:
                self._held.clear()
            held = self._held[record] = (row[1], self._load(record, row[0]))
        return held[1]

    def _load(self, record: int, version: int) -> Stored[Body]:
        entry = self.entry(version)
        first = entry if version == record else self.entry(record)
        return Stored(
            id=record,
            version=version,
            body=read_body(entry.kind, entry.form, entry.body),
            entered=first.moment,
            changed=entry.moment,
            who=entry.who,
        )

    def get(self, kind: type[B], record: int) -> Stored[B]:
        """The record of that kind and id.  Raises NotFound."""
        stored = self.find(record)
        if stored is None or not isinstance(stored.body, kind):
            raise NotFound(
                Problem(
                    what=f"there is no {kind.KIND} with this id",
                    record=f"#{record}",
                    mend=f"see `provenance list {kind.KIND}`",
                )
            )
        return cast("Stored[B]", stored)

    def by_code(self, kind: type[B], code: str) -> Stored[B] | None:
        """The live record of that kind with that code, whatever its letter case."""
        row = self.connection.execute(
            "SELECT id FROM record WHERE kind = ? AND code = ? AND live", (kind.KIND, code)
        ).fetchone()
        return self.get(kind, row[0]) if row else None

    def kind_of(self, record: int) -> str | None:
        """The kind of a live record, or None."""
        if self._still and record in self._held:
            return self._held[record][1].kind
        row = self.connection.execute(
            "SELECT kind FROM record WHERE id = ? AND live", (record,)
        ).fetchone()
        return row[0] if row else None

    def all(self, kind: type[B]) -> list[Stored[B]]:
        """Every live record of one kind, in the order in which they were entered."""
        rows = self.connection.execute(
            "SELECT id FROM record WHERE kind = ? AND live ORDER BY id", (kind.KIND,)
        ).fetchall()
        return [self.get(kind, row[0]) for row in rows]

    def linked(self, target: int, kind: type[B], field: str) -> list[Stored[B]]:
        """Live records of `kind` whose `field` names `target`, in order of id."""
        rows = self.connection.execute(
            "SELECT source FROM link WHERE target = ? AND kind = ? AND field = ? ORDER BY source",
            (target, kind.KIND, field),
        ).fetchall()
        return [self.get(kind, row[0]) for row in rows]

    def links_to(self, target: int) -> list[tuple[int, str]]:
        """(id, kind) of every live record that names `target`."""
        return self.connection.execute(
            "SELECT DISTINCT source, kind FROM link WHERE target = ? ORDER BY source", (target,)
        ).fetchall()

    def versions(self, record: int) -> list[Version]:
        """Every entry of a record, oldest first; retired records too."""
        rows = self.connection.execute(
            "SELECT entry FROM journal WHERE seq IN (SELECT id FROM record WHERE id = ?"
            " UNION ALL SELECT seq FROM version WHERE record = ?) ORDER BY seq",
            (record, record),
        ).fetchall()
        entries = [decode(row[0]) for row in rows]
        return [
            Version(
                entry,
                None if entry.retires else read_body(entry.kind, entry.form, entry.body),
            )
            for entry in entries
        ]

    def at_base(self, record: int, base: int) -> Stored[Body]:
        """The record, provided that `base` is still its version.  Raises Conflict."""
        stored = self.find(record)
        if stored is None or stored.version != base:
            raise Conflict(
                Problem(
                    what="it was changed or retired since it was read",
                    record=f"#{record}",
                    mend="read it again, then decide again",
                )
            )
        return stored
