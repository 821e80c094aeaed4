"""The release after this one, as far as raising a register to its form is concerned."""

import sqlite3

import sqlite_utils
from sqlite_utils.db import Database

from provenance.records.connection import GENERATION
from provenance.records.migrations import first_form

NEWER = GENERATION + 1


def release_to_come(*, fails: bool = False) -> sqlite_utils.Migrations:
    """The migrations of a release that gives the journal one column more."""
    journal = sqlite_utils.Migrations("journal")
    journal(name=first_form.__name__)(first_form)

    @journal()
    def second_form(db: Database) -> None:
        db.execute("ALTER TABLE journal ADD COLUMN seal TEXT")
        db.execute(f"PRAGMA user_version = {NEWER}")
        if fails:
            raise sqlite3.OperationalError("the disk is full")

    return journal
