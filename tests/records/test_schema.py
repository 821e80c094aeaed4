"""The journal guards itself against whoever opens the file with another program."""

import sqlite3

import pytest

from provenance.records.register import Register
from tests.studios import Shelf

STATEMENTS = """
UPDATE journal SET entry = x'00' WHERE seq = 1
UPDATE OR REPLACE journal SET seq = 2 WHERE seq = 1
DELETE FROM journal WHERE seq = 3
DELETE FROM journal
INSERT OR REPLACE INTO journal VALUES (2, x'00', hex(zeroblob(32)))
REPLACE INTO journal VALUES (1, x'00', hex(zeroblob(32)))
INSERT INTO journal VALUES (100, x'00', hex(zeroblob(32)))
INSERT INTO journal VALUES (-1, x'00', hex(zeroblob(32)))
INSERT INTO journal VALUES (NULL, x'00', 'short')
"""


@pytest.mark.parametrize("statement", STATEMENTS.strip().splitlines())
def test_the_journal_only_grows(register: Register, shelf: Shelf, statement: str) -> None:
    before = list(register.read.entries())
    with (
        sqlite3.connect(register.folder / "register.db") as other,
        pytest.raises(sqlite3.IntegrityError),
    ):
        other.execute(statement)
    other.close()
    assert list(register.read.entries()) == before
    assert shelf.negative in {seq for seq, _, _ in before}
