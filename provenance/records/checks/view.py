"""The view: is it what the journal makes it?

The view is made again in a database that is thrown away, and compared with the
one in the register, row by row and both ways.
"""

import sqlite3
from collections.abc import Iterator

from provenance.errors import ProvenanceError
from provenance.records.checks.finding import Finding, damage, note
from provenance.records.projection import make_view
from provenance.records.schema import VIEW, VIEW_TABLES, fingerprint, statements

_AGAIN = "run `provenance audit --rebuild` to make it again; nothing is lost by that"
_WORD = "_word"


def check_view(connection: sqlite3.Connection) -> Iterator[Finding]:
    """Findings of the view in the schema `register`, against one made in `main`."""
    try:
        made_by = connection.execute("SELECT fingerprint FROM register.view_made_by").fetchone()
    except sqlite3.Error as error:
        yield damage(f"it is missing or cannot be read ({error})", "view", _AGAIN)
        return
    if made_by is None or made_by[0] != fingerprint():
        yield note(
            "the view was made by another release, and was not compared",
            mend="it is made again when the register is next opened",
        )
        return
    for statement in statements(VIEW):
        connection.execute(statement)
    try:
        make_view(connection)
    except (ProvenanceError, sqlite3.Error) as error:
        yield damage(f"no view can be made from the journal: {error}", "view")
        return
    for schema in ("main", "register"):
        connection.execute(
            f"CREATE VIRTUAL TABLE temp.{schema}{_WORD} USING fts5vocab({schema}, search, instance)"
        )
    for table in VIEW_TABLES:
        yield from _compared(connection, table, f"main.{table}", f"register.{table}")
    yield from _compared(connection, "search", f"temp.main{_WORD}", f"temp.register{_WORD}")


def _compared(
    connection: sqlite3.Connection, table: str, ours: str, theirs: str
) -> Iterator[Finding]:
    try:
        columns = [row[0] for row in connection.execute(f"SELECT * FROM {ours}").description]  # noqa: S608
        # a column may ignore letter case; a comparison must not
        listed = ", ".join(f'"{name}" COLLATE BINARY' for name in columns)
        if table == "search" and not ours.endswith(_WORD):
            listed += ", rowid"
        missing, extra = (
            connection.execute(
                f"SELECT count(*) FROM (SELECT {listed} FROM {one}"  # noqa: S608
                f" EXCEPT SELECT {listed} FROM {other})"
            ).fetchone()[0]
            for one, other in ((ours, theirs), (theirs, ours))
        )
    except sqlite3.Error as error:
        yield damage(f"the table cannot be read ({error})", f"view {table}", _AGAIN)
        return
    if missing or extra:
        yield damage(
            f"{missing} rows that the journal calls for are not there,"
            f" {extra} are there that it does not call for",
            f"view {table}",
            _AGAIN,
        )
