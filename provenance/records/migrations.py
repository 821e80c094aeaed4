"""Set-up and migration of the journal table: ordered functions, each in its transaction."""

import sqlite3

import sqlite_utils
from sqlite_utils.db import Database

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
    """Bring the journal table of a register up to this release."""
    journal.apply(Database(connection))
