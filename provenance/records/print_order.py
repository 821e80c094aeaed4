"""Prints for a table that shows a window of them: the ids in an order, and rows by id."""

import sqlite3
from array import array
from collections.abc import Sequence

from provenance.records.listing import match_query

_LETTERS = "rtrim(mark, '0123456789')"
_IN_THE_DRAWER = ("edition_code", "position", "id")
_ORDERS: dict[str, tuple[str, ...]] = {
    "": _IN_THE_DRAWER,
    "edition": _IN_THE_DRAWER,
    "number": ("position", "edition_code", "id"),
    # Q9 before Q10
    "mark": (
        f"{_LETTERS} COLLATE NOCASE",
        f"CAST(substr(mark, length({_LETTERS}) + 1) AS INTEGER)",
        *_IN_THE_DRAWER,
    ),
    "state": ("instr('wpncrx', state)", *_IN_THE_DRAWER),
    "date": ("printed_on", *_IN_THE_DRAWER),
    "certificate": ("certificate IS NULL", "certificate", *_IN_THE_DRAWER),
}


def print_order(
    connection: sqlite3.Connection,
    key: str = "",
    *,
    descending: bool = False,
    words: str = "",
    edition: int | None = None,
    limit: int = -1,
) -> "array[int]":
    """Ids of the prints whose texts hold all of `words`, in the order of `key`.

    Keys are edition (the default), number, mark, state, date and certificate.
    """
    where: list[str] = []
    values: list[str | int] = []
    if query := match_query(words):
        where.append("id IN (SELECT rowid FROM search WHERE search MATCH ?)")
        values.append(query)
    if edition is not None:
        where.append("edition = ?")
        values.append(edition)
    direction = " DESC" if descending else ""
    sql = "SELECT id FROM impression"
    sql += " WHERE " + " AND ".join(where) if where else ""
    sql += " ORDER BY " + ", ".join(term + direction for term in _ORDERS[key]) + " LIMIT ?"
    return array("q", (row[0] for row in connection.execute(sql, (*values, limit))))


def prints_by_id(
    connection: sqlite3.Connection, ids: Sequence[int]
) -> dict[int, tuple[str, str, str, str, str, str]]:
    """Edition, designation, mark, state, printed on and certificate of each of `ids` on record."""
    places = ", ".join("?" * len(ids))
    return {
        row[0]: row[1:]
        for row in connection.execute(
            "SELECT id, edition_code, coalesce(designation, ''), mark, state, printed_on,"  # noqa: S608
            f" coalesce(certificate, '') FROM impression WHERE id IN ({places})",
            tuple(ids),
        )
    }
