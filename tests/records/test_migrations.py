"""A register is copied before its journal table is raised, and stays as it was when that fails."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from provenance.errors import Damaged, NewerRegister
from provenance.records.connection import GENERATION, connect, generation
from provenance.records.migrations import bring_up
from provenance.records.register import Register
from tests.records.to_come import NEWER, release_to_come
from tests.studios import enter, negative, new_register


@pytest.fixture
def older(folder: Path) -> Iterator[sqlite3.Connection]:
    """A register of the present form, which the release in these tests has left behind."""
    with new_register(folder) as register:
        enter(register, negative())
    with closing(connect(folder / "register.db")) as connection:
        yield connection


def entries(connection: sqlite3.Connection) -> list[tuple[object, ...]]:
    return connection.execute("SELECT seq, entry, digest FROM journal ORDER BY seq").fetchall()


def test_a_copy_is_kept_and_the_journal_raised(older: sqlite3.Connection, folder: Path) -> None:
    before = entries(older)
    copy = bring_up(older, folder / "register.db", newest=NEWER, migrations=release_to_come())
    assert copy == folder / f"register.before-{NEWER}.db"
    assert generation(older) == NEWER
    assert entries(older) == before
    with closing(sqlite3.connect(copy)) as kept:
        assert generation(kept) == GENERATION
        assert entries(kept) == before
    assert sorted(path.name for path in folder.glob("*.part*")) == []
    again = bring_up(older, folder / "register.db", newest=NEWER, migrations=release_to_come())
    assert again is None


def test_a_step_that_fails_leaves_the_register_as_it_was(
    older: sqlite3.Connection, folder: Path
) -> None:
    before = entries(older)
    with pytest.raises(sqlite3.OperationalError):
        bring_up(
            older, folder / "register.db", newest=NEWER, migrations=release_to_come(fails=True)
        )
    assert generation(older) == GENERATION
    assert entries(older) == before
    with Register.open(folder) as register:
        enter(register, negative(code="N-2"))


def test_nothing_is_raised_when_no_copy_can_be_made(
    older: sqlite3.Connection, folder: Path
) -> None:
    (folder / f"register.before-{NEWER}.db").mkdir()
    with pytest.raises(OSError, match="before"):
        bring_up(older, folder / "register.db", newest=NEWER, migrations=release_to_come())
    assert generation(older) == GENERATION


def test_a_register_from_a_newer_release_is_refused(folder: Path) -> None:
    new_register(folder).close()
    with closing(sqlite3.connect(folder / "register.db")) as other:
        other.execute(f"PRAGMA user_version = {NEWER}")
    with pytest.raises(NewerRegister, match=f"form {NEWER}"):
        Register.open(folder)


def test_another_programs_database_is_left_as_it_is(folder: Path) -> None:
    folder.mkdir()
    with closing(sqlite3.connect(folder / "register.db")) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    before = (folder / "register.db").read_bytes()
    with pytest.raises(Damaged, match="not a register of this program"):
        Register.open(folder)
    assert (folder / "register.db").read_bytes() == before
    assert [path.name for path in folder.iterdir()] == ["register.db"]
