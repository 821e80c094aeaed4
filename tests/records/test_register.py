"""Making and opening a register, and what is said when that cannot be."""

import errno
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from provenance.errors import Damaged, NotFound, Refused
from provenance.model.negative import Negative
from provenance.records import register as register_module
from provenance.records.register import Register
from tests.studios import WHO, Shelf, enter, negative, new_register, sheet, studio


def test_a_new_register_holds_its_studio(register: Register) -> None:
    stored = register.read.find(1)
    assert stored is not None
    assert stored.body == studio()
    assert register.read.head()[0] == 1
    left = {path.name for path in register.folder.iterdir()}
    assert left <= {"head", "register.db", "register.db-wal", "register.db-shm"}


def test_closing_folds_the_log_in(folder: Path) -> None:
    with new_register(folder) as register:
        enter(register, negative())
    assert {path.name for path in folder.iterdir()} == {"head", "register.db"}


def test_a_register_is_never_made_over_another(folder: Path) -> None:
    with new_register(folder) as register:
        enter(register, negative())
    with pytest.raises(Refused, match="a register here already"):
        new_register(folder)
    with Register.open(folder) as register:
        assert register.read.head()[0] == 2


def test_a_register_is_not_made_where_one_was_lost(folder: Path) -> None:
    new_register(folder).close()
    (folder / "register.db").unlink()
    with pytest.raises(Refused, match=r"there was a register here.*restore a backup"):
        new_register(folder)


def test_one_made_meanwhile_is_not_replaced(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program is a moment faster; its register and its witness stay."""
    build = register_module._build

    def slow(path: Path, *rest: object) -> None:
        build(path, *rest)  # type: ignore[arg-type]
        monkeypatch.undo()
        new_register(folder, studio_id="f" * 32).close()

    monkeypatch.setattr(register_module, "_build", slow)
    with pytest.raises(Refused, match=r"no register can be made here.*open it"):
        new_register(folder)
    with Register.open(folder) as register:
        found = register.read.find(1)
        assert found is not None
        assert found.body == studio(studio_id="f" * 32)
    assert {path.name for path in folder.iterdir()} == {"head", "register.db"}


def test_nor_is_it_where_there_are_no_hard_links(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on the sticks that registers are carried on."""
    build = register_module._build

    def no_link(_old: Path, _new: Path) -> None:
        raise PermissionError(errno.EPERM, "not here")

    monkeypatch.setattr(register_module.os, "link", no_link)
    new_register(folder).close()
    shutil.rmtree(folder)

    def slow(path: Path, *rest: object) -> None:
        build(path, *rest)  # type: ignore[arg-type]
        monkeypatch.setattr(register_module, "_build", build)
        new_register(folder, studio_id="f" * 32).close()

    monkeypatch.setattr(register_module, "_build", slow)
    with pytest.raises(Refused, match="no register can be made here"):
        new_register(folder)
    with Register.open(folder) as register:
        assert register.read.find(1).body == studio(studio_id="f" * 32)  # type: ignore[union-attr]


@pytest.mark.parametrize("wrong", [{"mark": "lower"}, {"name": " "}, {"artist": ""}])
def test_a_studio_that_is_refused_leaves_nothing(folder: Path, wrong: dict[str, str]) -> None:
    with pytest.raises(Refused):
        new_register(folder, **wrong)
    assert list(folder.iterdir()) == []
    new_register(folder).close()


def test_a_file_in_the_way(folder: Path) -> None:
    folder.write_text("not a folder")
    with pytest.raises(Refused, match="no register can be made here"):
        new_register(folder)
    with pytest.raises(Refused, match="no register can be made here"):
        new_register(folder / "below")


def test_there_is_nothing_to_open(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match="--studio"):
        Register.open(tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "damage", ["DROP TABLE record", "DELETE FROM view_made_by", "DROP TABLE view_made_by"]
)
def test_a_view_that_is_not_ours_is_made_again(
    register: Register, shelf: Shelf, damage: str
) -> None:
    one = enter(register, sheet(shelf, "1"))
    register.close()
    with closing(sqlite3.connect(register.folder / "register.db")) as other:
        other.execute(damage)
        other.execute("DROP TABLE IF EXISTS view_made_by")
        other.commit()
    with Register.open(register.folder) as again:
        assert again.read.kind_of(one) == "print"
        rows = again.read.connection.execute("SELECT id, mark FROM impression").fetchall()
        assert rows == [(one, "1")]


def test_two_releases_do_not_write_into_one_view(register: Register) -> None:
    with closing(sqlite3.connect(register.folder / "register.db")) as other:
        other.execute("UPDATE view_made_by SET fingerprint = 'another'")
        other.commit()
    with pytest.raises(Refused, match="another release"):
        enter(register, negative())
    register.close()
    with Register.open(register.folder) as again:
        enter(again, negative())


def test_the_id_of_a_record_is_the_number_of_its_first_entry(register: Register) -> None:
    record = enter(register, negative())
    assert record == register.read.head()[0]
    stored = register.read.get(Negative, record)
    assert (stored.id, stored.version, stored.who) == (record, record, WHO)


def test_a_journal_without_its_studio_does_not_open(folder: Path) -> None:
    new_register(folder).close()
    with closing(sqlite3.connect(folder / "register.db")) as other:
        other.execute("DROP TRIGGER journal_is_never_cut")
        other.execute("DELETE FROM journal")
        other.commit()
    with pytest.raises(Damaged):
        Register.open(folder)
