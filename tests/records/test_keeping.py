"""Pages are on disk before the act that names them, and gone when it is not written after all."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.negative import Negative
from provenance.records.audit import audit
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.records.terms import Terms, TermsBook
from tests.studios import WHO, negative


class Failing:
    """The connection of a register, which does `instead` where COMMIT is said."""

    def __init__(self, real: sqlite3.Connection, instead: Callable[[], object]) -> None:
        self._real, self._instead = real, instead

    def __getattr__(self, name: str) -> object:
        return getattr(self._real, name)

    def execute(self, sql: str, *more: object) -> object:
        return self._instead() if sql == "COMMIT" else self._real.execute(sql, *more)


def failure(code: int) -> sqlite3.OperationalError:
    """What the database raises with that code."""
    error = sqlite3.OperationalError("it failed")
    error.sqlite_errorcode = code
    return error


def enter(register: Register, then: Callable[[], object] = lambda: None) -> None:
    """Enter something that has a picture, a person and terms; `then` comes before the end."""
    folder = register.folder
    _, person = Contacts(folder).prepare(name="A. Collector")
    _, terms = TermsBook(folder).prepare(Terms(price="900 guineas"))
    with register.act(WHO) as act:
        act.enter(negative(code="N-9"))
        act.keep([(folder / "picture.jpg").touch, person, terms])
        then()


def pages(folder: Path) -> int:
    """How many pages there are."""
    return len(list(folder.rglob("contacts/*.json")) + list(folder.rglob("terms/*.json")))


def test_they_are_kept_with_the_act(register: Register) -> None:
    enter(register)
    assert pages(register.folder) == 2


def test_none_is_kept_of_an_act_that_is_given_up(register: Register) -> None:
    def give_up() -> None:
        assert pages(register.folder) == 2
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        enter(register, give_up)
    assert pages(register.folder) == 0
    # a picture bears its digest for a name: another record may have the same one
    assert (register.folder / "picture.jpg").exists()


def test_none_is_kept_where_one_cannot_be(register: Register) -> None:
    (register.folder / "private").write_bytes(b"in the way")
    with pytest.raises(Refused, match="cannot be made"):
        enter(register)
    assert pages(register.folder) == 0


def commits(register: Register, instead: Callable[[], object]) -> None:
    """Enter something while COMMIT does something else."""
    real = register._connection
    register._connection = Failing(real, instead)  # type: ignore[assignment]
    try:
        enter(register)
    finally:
        register._connection = real


def test_none_is_kept_where_nothing_was_written(register: Register) -> None:
    """A full disk says so at the end of an act, too."""

    def full() -> None:
        raise failure(sqlite3.SQLITE_FULL)

    with pytest.raises(Refused, match="nothing was written"):
        commits(register, full)
    assert pages(register.folder) == 0
    assert register.read.all(Negative) == []


def test_they_stay_where_the_act_may_have_been_kept(register: Register) -> None:
    """A sync that failed: should the act turn up again, its pages are there; else it is told."""

    def unsure() -> None:
        raise failure(sqlite3.SQLITE_IOERR | 4 << 8)

    with pytest.raises(Refused, match="not certain"):
        commits(register, unsure)
    assert pages(register.folder) == 2
    told = [one.what for one in audit(register.folder).findings]
    assert [what.partition(" of ")[0] for what in told] == ["no record speaks"] * 2


def test_they_stay_where_who_interrupts_comes_too_late(register: Register) -> None:
    real = register._connection

    def late() -> None:
        real.execute("COMMIT")
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        commits(register, late)
    assert pages(register.folder) == 2
    assert [one.body.code for one in register.read.all(Negative)] == ["N-9"]
