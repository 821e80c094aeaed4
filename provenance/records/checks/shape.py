"""The shape of the register: are its tables, indexes and guards those that it was made with?"""

import re
import sqlite3
from collections.abc import Iterator

from provenance.records.checks.finding import AGAIN, Finding, damage
from provenance.records.connection import GENERATION, generation
from provenance.records.schema import JOURNAL, META, VIEW, statements

_NAME = re.compile(r"CREATE (?:UNIQUE |VIRTUAL )?(?:TABLE|INDEX|TRIGGER) (?:IF NOT EXISTS )?(\w+)")


def guards() -> dict[str, str]:
    """What keeps the journal from being changed, by name, as statements."""
    made = _named(JOURNAL)
    return {name: made[name] for name in made if made[name].startswith("CREATE TRIGGER")}


def misshapen(connection: sqlite3.Connection, schema: str = "main") -> tuple[list[str], list[str]]:
    """The names of what is missing or changed: of the journal and its guards, and of the view."""
    found = {
        _plain(row[0])
        for row in connection.execute(f"SELECT sql FROM {schema}.sqlite_schema WHERE sql NOT NULL")  # noqa: S608
    }
    journal, view = (
        [name for name, made in _named(script).items() if made not in found]
        for script in (JOURNAL, META + VIEW)
    )
    return journal, view


def check_journal_shape(connection: sqlite3.Connection) -> Iterator[Finding]:
    """Whether the journal and its guards in the schema `register` are as they were made."""
    if generation(connection, "register") < GENERATION:
        return  # it is brought up when the register is next opened
    for name in misshapen(connection, "register")[0]:
        if name in guards():
            yield damage("this guard of the journal is missing or was changed", name, AGAIN)
        else:
            yield damage("this table is not the one that was made", name)


def check_view_shape(connection: sqlite3.Connection) -> Iterator[Finding]:
    """Whether the tables and indexes of the view in the schema `register` are."""
    for name in misshapen(connection, "register")[1]:
        yield damage("it is missing or was changed", f"view {name}", AGAIN)


def mend(connection: sqlite3.Connection) -> None:
    """Put the guards back, and let the view count as stale."""
    for name, made in guards().items():
        connection.execute(f"DROP TRIGGER IF EXISTS {name}")
        connection.execute(made)
    connection.execute("DROP TABLE IF EXISTS view_made_by")


def _named(script: str) -> dict[str, str]:
    named = {}
    for statement in statements(script):
        match = _NAME.search(statement)
        assert match is not None  # noqa: S101 - the scripts make nothing else
        named[match[1]] = _plain(statement[match.start() :])
    return named


def _plain(statement: str) -> str:
    return statement.strip().removesuffix(";").replace("IF NOT EXISTS ", "")
