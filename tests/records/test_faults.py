"""Every failure of the database is said in words, and none is a traceback."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from provenance.errors import Damaged, ProvenanceError, Refused
from provenance.model.negative import Negative
from provenance.records import connection as connection_module
from provenance.records.audit import audit
from provenance.records.faults import database_faults
from provenance.records.register import Register
from tests.studios import WHO, enter, negative, new_register

PAGE = 4096


@pytest.mark.parametrize(
    ("code", "error", "words"),
    [
        (sqlite3.SQLITE_FULL, Refused, "the disk is full; nothing was written; make room"),
        (sqlite3.SQLITE_READONLY, Refused, "cannot be written to"),
        (sqlite3.SQLITE_READONLY_DIRECTORY, Refused, "check its permissions"),
        (sqlite3.SQLITE_PERM, Refused, "cannot be written to"),
        (sqlite3.SQLITE_CANTOPEN, Refused, "cannot be opened"),
        (sqlite3.SQLITE_BUSY, Refused, "another program is writing"),
        (sqlite3.SQLITE_BUSY_SNAPSHOT, Refused, "another program is writing"),
        (sqlite3.SQLITE_LOCKED, Refused, "another program is writing"),
        (sqlite3.SQLITE_IOERR_FSYNC, Refused, "is not certain; check the disk"),
        (sqlite3.SQLITE_CORRUPT, Damaged, "the register is damaged"),
        (sqlite3.SQLITE_CORRUPT_VTAB, Damaged, "restore a backup"),
        (sqlite3.SQLITE_NOTADB, Damaged, "the register is damaged"),
    ],
)
def test_each_failure_has_its_words(code: int, error: type[ProvenanceError], words: str) -> None:
    failure = sqlite3.OperationalError("as the library says it")
    failure.sqlite_errorcode = code
    with pytest.raises(error, match=words) as caught, database_faults(Path("register.db")):
        raise failure
    assert caught.value.problems[0].record == "register.db"
    assert caught.value.problems[0].mend


def test_a_fault_of_the_program_is_not_dressed_up() -> None:
    with pytest.raises(sqlite3.OperationalError), database_faults(Path("register.db")):
        raise sqlite3.OperationalError("no such column: mark")


def test_a_general_failure_is_damage_where_the_tables_are_not_as_they_were_made(
    register: Register,
) -> None:
    path = register.folder / "register.db"
    with pytest.raises(sqlite3.OperationalError), database_faults(path):
        raise failed("no such column: x")
    register.read.connection.execute("DROP INDEX record_by_kind")
    with pytest.raises(Damaged, match="no such column: x"), database_faults(path):
        raise failed("no such column: x")


def failed(words: str) -> sqlite3.OperationalError:
    """A failure to which SQLite gives no more than its most general code."""
    failure = sqlite3.OperationalError(words)
    failure.sqlite_errorcode = sqlite3.SQLITE_ERROR
    return failure


def test_text_that_cannot_be_read_and_sizes_that_cannot_be_are_damage(register: Register) -> None:
    path = register.folder / "register.db"
    with pytest.raises(Damaged, match="UTF-8"), database_faults(path):
        register.read.connection.execute("SELECT CAST(x'ff41' AS TEXT)").fetchone()
    with pytest.raises(Damaged, match="more memory than there is"), database_faults(path):
        raise MemoryError


@pytest.mark.parametrize("content", [b"", b"not a database", b"x" * 3 * PAGE])
def test_a_file_that_is_no_register(folder: Path, content: bytes) -> None:
    folder.mkdir()
    (folder / "register.db").write_bytes(content)
    with pytest.raises(Damaged):
        Register.open(folder)
    assert audit(folder).damaged
    assert (folder / "register.db").read_bytes() == content


@pytest.fixture
def filled(folder: Path) -> Path:
    """A studio whose journal goes over many pages, closed."""
    with new_register(folder) as register:
        enter(register, *(negative(code=f"N-{n}", title="x" * 900) for n in range(60)))
    with closing(sqlite3.connect(folder / "register.db")) as other:
        # leaves no free page, of which nobody would miss the content
        other.execute("VACUUM")
    return folder


def root_of(folder: Path, table: str) -> int:
    with closing(sqlite3.connect(folder / "register.db")) as other:
        (page,) = other.execute(
            "SELECT rootpage FROM sqlite_schema WHERE name = ?", (table,)
        ).fetchone()
    return int(page)


def spoil(folder: Path, page: int) -> None:
    """Overwrite one page of the register, as a failing disk might."""
    with (folder / "register.db").open("r+b") as file:
        file.seek((page - 1) * PAGE)
        file.write(b"\xa5" * PAGE)


def use(folder: Path) -> None:
    """Open, read everything, write, close."""
    with Register.open(folder) as register:
        for stored in register.read.all(Negative):
            register.read.versions(stored.id)
        with register.act(WHO) as act:
            act.enter(negative(code="N-last"))


@pytest.mark.parametrize("table", ["journal", "record", "version", "search_data"])
def test_a_spoiled_page_is_damage_whoever_meets_it(filled: Path, table: str) -> None:
    spoil(filled, root_of(filled, table))
    report = audit(filled)
    assert report.damaged
    with pytest.raises(Damaged):
        use(filled)


def test_every_single_page_may_spoil(filled: Path) -> None:
    """Whichever page it is, the answer is words; and what opens after all is sound to read."""
    whole = (filled / "register.db").read_bytes()
    for page in range(1, len(whole) // PAGE + 1):
        (filled / "register.db").write_bytes(whole)
        spoil(filled, page)
        assert audit(filled).damaged, page
        try:
            use(filled)
        except Damaged:
            continue
        finally:
            (filled / "register.db-wal").unlink(missing_ok=True)
            (filled / "register.db-shm").unlink(missing_ok=True)
            (filled / "head").unlink(missing_ok=True)


def test_another_writer_is_waited_for_and_then_named(
    register: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    register.read.connection.execute("PRAGMA busy_timeout = 1")
    with closing(sqlite3.connect(register.folder / "register.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Refused, match="another program is writing"):
            enter(register, negative())
        # reads go on waiting as long as before
        assert register.read.connection.execute("PRAGMA busy_timeout").fetchone() == (1,)
        other.execute("ROLLBACK")
    enter(register, negative())
    assert connection_module.WAIT_MS > 1_000


@pytest.mark.parametrize("byte", [0x80, 0xFF])
def test_a_table_whose_making_is_no_longer_text_is_told(register: Register, byte: int) -> None:
    path, folder = register.folder / "register.db", register.folder
    register.close()
    data = bytearray(path.read_bytes())
    data[data.index(b"CREATE TABLE journal") + 9] = byte
    path.write_bytes(data)
    with pytest.raises(Damaged, match="the register is damaged"):
        Register.open(folder)
    assert audit(folder).damaged


def test_what_is_no_text_elsewhere_is_no_damage(register: Register) -> None:
    with pytest.raises(UnicodeDecodeError), database_faults(register.folder / "register.db"):
        b"\xff".decode()
