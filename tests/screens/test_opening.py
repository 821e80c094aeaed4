"""A register that takes long to open says how far it has come, before the first page."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from provenance.records.progress import AT_THE_DOOR
from provenance.studio.folder import StudioFolder
from tests.screens.terminal import in_a_terminal


@pytest.fixture
def from_another_release(studio: Path) -> Path:
    with closing(sqlite3.connect(studio / "register.db")) as register:
        register.execute("UPDATE view_made_by SET fingerprint = 'another'")
        register.commit()
    return studio


def test_the_terminal_is_told_while_the_view_is_made_again(from_another_release: Path) -> None:
    for lines in (1, 0):
        with in_a_terminal(from_another_release) as terminal:
            terminal.until("QUAY")
            assert terminal.stream.count(b"view, made again") == lines
            terminal.send("q")
            assert terminal.status() == 0


def test_whoever_listens_is_told_once_it_is_through(from_another_release: Path) -> None:
    told: list[tuple[str, int, int]] = []
    before = AT_THE_DOOR.set(lambda *now: told.append(now))
    try:
        for _ in range(2):
            StudioFolder(from_another_release).open().close()
    finally:
        AT_THE_DOOR.reset(before)
    assert [(done, whole) for _name, done, whole in told][-1:] == [(told[0][2], told[0][2])]
    assert [done for _name, done, _whole in told] == sorted({done for _name, done, _whole in told})
