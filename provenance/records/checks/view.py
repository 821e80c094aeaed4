"""The view: is it what the journal makes it?

The view is made again in a database that is thrown away, and compared with the
one in the register, row by row and both ways.
"""

import sqlite3
from collections.abc import Iterator

from provenance.errors import NewerRegister, ProvenanceError
from provenance.records.checks.finding import AGAIN, Finding, damage, note
from provenance.records.checks.shape import check_view_shape
from provenance.records.progress import Progress
from provenance.records.projection import make_view
from provenance.records.schema import VIEW, VIEW_TABLES, fingerprint, statements


def check_view(
    connection: sqlite3.Connection, progress: Progress | None = None
) -> Iterator[Finding]:
    """Findings of the view in the schema `register`, against one made in `main`."""
    try:
        made_by = connection.execute("SELECT fingerprint FROM register.view_made_by").fetchone()
    except sqlite3.Error as error:
        yield damage(f"it is missing or cannot be read ({error})", "view", AGAIN)
        return
    if made_by is None or made_by[0] != fingerprint():
        yield note(
            "the view was made by another release, and was not compared",
            mend="it is made again when the register is next opened",
        )
        return
    yield from check_view_shape(connection)
    for statement in statements(VIEW):
        connection.execute(statement)
    try:
        make_view(connection, progress)
    except NewerRegister as error:
        yield note(error.problems[0].what, "view", error.problems[0].mend)
        return
    except (ProvenanceError, sqlite3.Error) as error:
        yield damage(f"no view can be made from the journal: {error}", "view")
        return
    for done, table in enumerate(VIEW_TABLES, start=1):
        yield from _compared(connection, table)
        if progress:
            progress("view, compared", done, len(VIEW_TABLES))
    yield from _search_index(connection)


def _compared(connection: sqlite3.Connection, table: str) -> Iterator[Finding]:
    try:
        # a column may ignore letter case; a comparison must not
        columns = connection.execute(f"SELECT * FROM main.{table}").description  # noqa: S608
        listed = ", ".join(f'"{column[0]}" COLLATE BINARY' for column in columns)
        if table == "search":
            listed += ", rowid"
        missing, extra = (
            connection.execute(
                f"SELECT count(*) FROM (SELECT {listed} FROM {one}.{table}"  # noqa: S608
                f" EXCEPT SELECT {listed} FROM {other}.{table})"
            ).fetchone()[0]
            for one, other in (("main", "register"), ("register", "main"))
        )
    except sqlite3.Error as error:
        yield damage(f"the table cannot be read ({error})", f"view {table}", AGAIN)
        return
    if missing or extra:
        yield damage(
            f"{missing} rows that the journal calls for are not there,"
            f" {extra} are there that it does not call for",
            f"view {table}",
            AGAIN,
        )


def _search_index(connection: sqlite3.Connection) -> Iterator[Finding]:
    """Whether the words can be found by their index."""
    # the check wants to write, so it is done on a copy of the index's own tables
    run = connection.execute
    run(VIEW_TABLES["search"].replace("TABLE search", "TABLE main.found"))
    try:
        for part in ("data", "idx", "content", "docsize", "config"):
            run(f"DELETE FROM main.found_{part}")  # noqa: S608
            run(f"INSERT INTO main.found_{part} SELECT * FROM register.search_{part}")  # noqa: S608
        run("INSERT INTO main.found (found) VALUES ('integrity-check')")
    except sqlite3.Error as error:
        yield damage(f"the index of words is not sound ({error})", "view search", AGAIN)
