"""Set-up and migration of the journal table: ordered functions, each in its transaction."""

import sqlite3
from contextlib import closing
from pathlib import Path

import sqlite_utils
from sqlite_utils.db import Database

from provenance.records.connection import GENERATION, generation
from provenance.records.files import flush_folder, unfinished
from provenance.records.schema import APPLICATION_ID, JOURNAL, statements

journal = sqlite_utils.Migrations("journal")


@journal()
def first_form(db: Database) -> None:
    """The journal of release 0.1."""
    # executescript would commit the migration's own transaction
    for statement in statements(JOURNAL):
        db.execute(statement)
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    db.execute("PRAGMA user_version = 1")


def migrate(connection: sqlite3.Connection) -> None:
    """Give an empty database the journal table of this release."""
    journal.apply(Database(connection))


def bring_up(
    connection: sqlite3.Connection,
    path: Path,
    *,
    newest: int = GENERATION,
    migrations: sqlite_utils.Migrations = journal,
) -> Path | None:
    """Raise the register at `path` to form `newest`, after a backup beside it.

    Returns the backup, or None when nothing had to be done.  When a step fails
    the register is as it was.
    """
    if generation(connection) >= newest:
        return None
    backup = _back_up(connection, path.with_name(f"{path.stem}.before-{newest}{path.suffix}"))
    # one lock around all of it: of two programs that open at once, one migrates
    connection.execute("BEGIN IMMEDIATE")
    try:
        if generation(connection) < newest:
            migrations.apply(Database(connection))
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
    return backup


def _back_up(connection: sqlite3.Connection, target: Path) -> Path:
    part = unfinished(target)
    try:
        with closing(sqlite3.connect(part)) as copy:
            connection.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE").fetchall()
        part.replace(target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    flush_folder(target.parent)
    return target
