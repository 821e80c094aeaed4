"""Records of a kind from the newest on, without reading all that there ever were."""

from collections.abc import Iterator
from typing import TypeVar

from provenance.model.body import Body
from provenance.records.reader import Reader, Stored

B = TypeVar("B", bound=Body)

_AT_ONCE = 50


def newest_first(reader: Reader, kind: type[B]) -> Iterator[Stored[B]]:
    """Every live record of one kind, the one that was entered last first; read as asked for."""
    # a page at a time: a statement that is left open would keep the log from being folded in
    query = "SELECT id FROM record WHERE kind = ? AND live = 1 AND id < ? ORDER BY id DESC LIMIT ?"
    before = 2**63 - 1
    while rows := reader.connection.execute(query, (kind.KIND, before, _AT_ONCE)).fetchall():
        yield from (reader.get(kind, row[0]) for row in rows)
        before = rows[-1][0]


def newest(reader: Reader, kind: type[B]) -> Stored[B] | None:
    """The one that was entered last; None where there is none."""
    return next(newest_first(reader, kind), None)


def how_many(reader: Reader, kind: type[Body]) -> int:
    """How many live records of one kind there are."""
    row = reader.connection.execute(
        "SELECT count(*) FROM record WHERE kind = ? AND live = 1", (kind.KIND,)
    ).fetchone()
    return int(row[0])
