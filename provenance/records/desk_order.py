"""What lies on the desk, for tables that show a window of it: prints, certificates."""

import sqlite3
from array import array

from provenance.records.listing import match_query

_IN_THE_DRAWER = ("edition_code", "position", "id")
_PRINTS = {"": _IN_THE_DRAWER, "print": _IN_THE_DRAWER, "date": ("printed_on", *_IN_THE_DRAWER)}
_CERTIFICATES = {
    ("date", False): "id DESC",
    ("date", True): "id",
    ("number", False): "code, id",
    ("number", True): "code DESC, id DESC",
}
"""By the key, and whether it is turned round: by date the latest comes first."""


def whereabouts_order(
    connection: sqlite3.Connection,
    states: str,
    key: str = "",
    *,
    descending: bool = False,
    words: str = "",
    limit: int = -1,
) -> "array[int]":
    """Ids of the prints whose state is one of the letters `states`, by ``print`` or ``date``."""
    sql = "SELECT id FROM impression WHERE instr(?, state)"
    values: list[str | int] = [states]
    if query := match_query(words):
        sql += " AND id IN (SELECT rowid FROM search WHERE search MATCH ?)"
        values.append(query)
    direction = " DESC" if descending else ""
    sql += " ORDER BY " + ", ".join(one + direction for one in _PRINTS[key]) + " LIMIT ?"
    return array("q", (row[0] for row in connection.execute(sql, (*values, limit))))


def certificate_order(
    connection: sqlite3.Connection,
    key: str = "",
    *,
    descending: bool = False,
    words: str = "",
    limit: int = -1,
) -> "array[int]":
    """Ids of the certificates, the latest first, or by ``number``."""
    sql = "SELECT id FROM record WHERE kind = 'certificate' AND live = 1"
    values: list[str | int] = []
    if query := match_query(words):
        sql += " AND id IN (SELECT rowid FROM search WHERE search MATCH ?)"
        values.append(query)
    sql += f" ORDER BY {_CERTIFICATES[key or 'date', descending]} LIMIT ?"
    return array("q", (row[0] for row in connection.execute(sql, (*values, limit))))
