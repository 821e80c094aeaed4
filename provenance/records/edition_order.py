"""Editions for a table that shows a window of them: the ids in an order."""

import sqlite3
from array import array

from provenance.records.listing import match_query

_LAST = "(SELECT max(printed_on) FROM impression WHERE edition = record.id)"
_ORDERS = {"": "code", "code": "code", "date": _LAST}


def edition_order(
    connection: sqlite3.Connection,
    key: str = "",
    *,
    descending: bool = False,
    words: str = "",
    limit: int = -1,
) -> "array[int]":
    """Ids of the editions whose texts hold all of `words`, by ``code`` or by ``date``.

    The date is that of the last printing.
    """
    values: list[str | int] = []
    sql = "SELECT id FROM record WHERE kind = 'edition' AND live"
    if query := match_query(words):
        sql += " AND id IN (SELECT rowid FROM search WHERE search MATCH ?)"
        values.append(query)
    direction = " DESC" if descending else ""
    sql += f" ORDER BY {_ORDERS[key]}{direction}, id{direction} LIMIT ?"
    return array("q", (row[0] for row in connection.execute(sql, (*values, limit))))
