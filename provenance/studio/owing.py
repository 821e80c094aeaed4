"""What each print still owes before it can leave the studio, straight from the view."""

import sqlite3
from array import array
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from provenance.craft.owing import Debt
from provenance.records.impressions import DEBTS
from provenance.records.print_order import prints_by_id

OWES: dict[Debt, str] = {
    "silver": "residual-silver test, before toning",
    "thiosulfate": "residual-thiosulfate test, last of all",
    "finish": "drying, spotting, mount",
    "number": "number",
    "signature": "signature",
    "scan": "picture",
    "certificate": "certificate",
}
"""What a print can owe, in the order in which it is done."""
NAMED = 24
"""How many prints are named where all that owe one thing are told in short."""
EDITIONS = 50
"""How many editions are told apart where something is answered for one at a time."""

_OF_ONE_EDITION = frozenset({"number"})
_WHY = {"silver": "why_silver", "thiosulfate": "why_thiosulfate"}
_IN_ORDER = "ORDER BY edition_code, position, id"
_AT_ONCE = 500


@dataclass(frozen=True)
class Debtor:
    """A print that owes something: its edition, and its number or its mark on the back."""

    record: int
    edition: str
    name: str
    discounted: str = ""
    """Why a test that was done does not count."""


@dataclass(frozen=True)
class Owing:
    """One thing that is owed, and by how many prints; one answer may serve them all."""

    what: Debt
    count: int
    first: tuple[Debtor, ...]
    """Those that come first by edition and number, at most `NAMED`."""
    discounted: tuple[tuple[str, int], ...] = ()
    """Why tests that were done do not count, and of how many prints."""
    edition: str = ""
    """Of which edition alone, where it is answered for one at a time."""

    @property
    def about(self) -> str:
        """What is owed, in words."""
        return OWES[self.what]

    @property
    def key(self) -> str:
        """Tells what is owed from everything else that is."""
        return f"{self.what} {self.edition}".strip()

    def in_short(self) -> str:
        """``QUAY Q10, Q11   SLIP 4/15``: the prints under the codes of their editions."""
        said = [
            f"{edition} {', '.join(one.name for one in prints)}"
            for edition, prints in groupby(self.first, key=lambda one: one.edition)
        ]
        if more := self.count - len(self.first):
            said.append(f"and {more:,} more")
        return "   ".join(said)


@dataclass(frozen=True)
class Owed:
    """Everything owed by prints that exist and are in the studio, grouped by what it is."""

    prints: int
    """How many prints owe something."""
    things: tuple[Owing, ...]
    editions_left_out: int = 0
    """Editions that owe numbers too, beyond the first `EDITIONS`."""


def read_owed(connection: sqlite3.Connection) -> Owed:
    """What is owed, by how many, and who comes first."""
    counted = ", ".join(f"total(instr(owes, '{letter}') > 0)" for letter in DEBTS.values())
    prints, *counts = connection.execute(
        f"SELECT count(*), {counted} FROM impression WHERE owes <> ''"  # noqa: S608 - our letters
    ).fetchone()
    things: list[Owing] = []
    left_out = 0
    for what, count in zip(OWES, map(int, counts), strict=True):
        if count and what in _OF_ONE_EDITION:
            editions = _by_edition(connection, what)
            left_out += max(0, len(editions) - EDITIONS)
            things += [_owing(connection, what, *one) for one in editions[:EDITIONS]]
        elif count:
            things.append(_owing(connection, what, "", count))
    return Owed(prints, tuple(things), left_out)


def _by_edition(connection: sqlite3.Connection, what: Debt) -> list[tuple[str, int]]:
    return connection.execute(
        "SELECT edition_code, count(*) FROM impression WHERE instr(owes, ?)"
        " GROUP BY edition_code ORDER BY edition_code",
        (DEBTS[what],),
    ).fetchall()


def _owing(connection: sqlite3.Connection, what: Debt, edition: str, count: int) -> Owing:
    first = Owing(what, count, (), edition=edition)
    named = tuple(debtors(connection, first, NAMED))
    return Owing(what, count, named, _discounted(connection, what), edition)


def _discounted(connection: sqlite3.Connection, what: Debt) -> tuple[tuple[str, int], ...]:
    column = _WHY.get(what)
    if column is None:
        return ()
    return tuple(
        connection.execute(
            f"SELECT {column}, count(*) FROM impression WHERE {column} IS NOT NULL"  # noqa: S608
            " GROUP BY 1 ORDER BY 2 DESC, 1"
        )
    )


def debtors(connection: sqlite3.Connection, owing: Owing, most: int) -> Iterator[Debtor]:
    """The prints that owe it, by edition and number."""
    why = _WHY.get(owing.what, "NULL")
    columns = f"id, edition_code, coalesce(designation, mark), coalesce({why}, '')"
    return (Debtor(*row) for row in _rows(connection, columns, owing, most))


def debtor_ids(connection: sqlite3.Connection, owing: Owing) -> "array[int]":
    """The ids of all prints that owe it, by edition and number."""
    return array("q", (row[0] for row in _rows(connection, "id", owing, -1)))


def _rows(connection: sqlite3.Connection, columns: str, owing: Owing, most: int) -> sqlite3.Cursor:
    where, values = "instr(owes, ?)", [DEBTS[owing.what]]
    if owing.edition:
        where += " AND edition_code = ?"
        values.append(owing.edition)
    return connection.execute(
        f"SELECT {columns} FROM impression WHERE {where} {_IN_ORDER} LIMIT ?",  # noqa: S608
        (*values, most),
    )


def names_in_drawer(connection: sqlite3.Connection, prints: Sequence[int]) -> list[tuple[int, str]]:
    """Each of `prints` that is on record, with its edition and its number or mark."""
    named: list[tuple[int, str]] = []
    for at in range(0, len(prints), _AT_ONCE):
        some = prints[at : at + _AT_ONCE]
        rows = prints_by_id(connection, some)
        named += [
            (one, f"{rows[one][0]} {rows[one][1] or rows[one][2]}") for one in some if one in rows
        ]
    return named


def owing_no_more(connection: sqlite3.Connection, what: Debt, prints: Collection[int]) -> set[int]:
    """Which of `prints` do not owe it, or no longer."""
    gone, ids = set(prints), list(prints)
    for at in range(0, len(ids), _AT_ONCE):
        some = ", ".join(map(str, ids[at : at + _AT_ONCE]))
        gone -= {
            row[0]
            for row in connection.execute(
                f"SELECT id FROM impression WHERE id IN ({some}) AND instr(owes, ?)",  # noqa: S608
                (DEBTS[what],),
            )
        }
    return gone
