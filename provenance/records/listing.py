"""Rows for lists and searches, straight from the view: fast at any size."""

import sqlite3
from collections.abc import Iterator

PRINT_COLUMNS = ("id", "edition", "designation", "mark", "state", "printed", "certificate")

_PRINTS = (
    "SELECT id, edition_code, coalesce(designation, ''), mark, state, printed_on,"
    " coalesce(certificate, '') FROM impression"
)


def print_rows(
    connection: sqlite3.Connection,
    *,
    edition: str | None = None,
    states: str = "",
    limit: int | None = None,
) -> Iterator[tuple[int, str, str, str, str, str, str]]:
    """Prints in the order of their editions and numbers, as `PRINT_COLUMNS`.

    `edition` is a code; `states` holds the letters that are wanted.
    """
    where: list[str] = []
    values: list[str | int] = []
    if edition is not None:
        where.append(
            "edition = (SELECT id FROM record WHERE kind = 'edition' AND code = ? AND live)"
        )
        values.append(edition)
    if states:
        where.append(f"state IN ({', '.join('?' * len(states))})")
        values += list(states)
    query = _PRINTS + (" WHERE " + " AND ".join(where) if where else "")
    query += " ORDER BY edition_code, position, id"
    if limit is not None:
        query += " LIMIT ?"
        values.append(limit)
    return iter(connection.execute(query, values))


def found_ids(connection: sqlite3.Connection, words: str, *, limit: int) -> list[tuple[int, str]]:
    """(id, kind) of the records whose texts hold every word of `words`, or its beginning.

    The best match comes first once a word has three letters; shorter beginnings
    match too much to be worth ranking.
    """
    query = match_query(words)
    if not query:
        return []
    order = "rank" if max(map(len, _terms(words))) >= 3 else "rowid"
    return connection.execute(
        f"SELECT rowid, kind FROM search WHERE search MATCH ? ORDER BY {order} LIMIT ?",  # noqa: S608
        (query, limit),
    ).fetchall()


def match_query(words: str) -> str:
    """`words` as a query for the search table: every one of them, or its beginning."""
    # quoted, so that nothing a person types is taken for the query language
    return " ".join('"' + term.replace('"', '""') + '"*' for term in _terms(words))


def _terms(words: str) -> list[str]:
    # half a character, as a terminal may hand on, is nothing that a text could hold
    return words.replace("\0", " ").encode("utf-8", "ignore").decode("utf-8").split()
