"""What a killed import left is cleared by a command, and never what another program is at."""

import io
import sys
from pathlib import Path

import pytest

from provenance.records import connection
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.records.terms import Terms, TermsBook
from tests.cli.conftest import Desk
from tests.studios import WHO, clock, release

MOVES = """\
print,event,on,to,from,price
QUAY 7/25,lent,2031-05-05,Ottoline Farrowby,,5 EUR
QUAY 7/25,returned,2031-05-07,,Ottoline Farrowby,
QUAY 7/25,sold,2031-05-09,Ida Strand,,900 EUR
"""
_KILLED = """
import os, signal, sys
from provenance.cli.main import run
from provenance.records import register
from provenance.records.act import Act
from tests.studios import clock

register.SystemClock = clock
Act.finish = lambda _act: os.kill(os.getpid(), signal.SIGKILL)
sys.argv[0] = "provenance"
run()
"""


def terms(studio: Desk) -> set[str]:
    """The names of the files in the folder of terms."""
    return {path.name for path in (studio.path / "private" / "terms").glob("*")}


@pytest.fixture
def killed(studio: Desk, tmp_path: Path) -> Desk:
    """A studio in which an import was killed when its pages were on disk, and its entries not."""
    table = tmp_path / "moves.csv"
    table.write_text(MOVES)
    ran = studio.start("import", str(table), "--kind", "custody", code=_KILLED)
    assert ran.returncode == -9, ran.stderr
    part = f".{'ab' * 32}.json.{'0c' * 8}.part"
    (studio.path / "private" / "terms" / part).write_bytes(b'{"terms":{"price":"6 E')
    assert len(terms(studio)) == 3
    return studio


def test_what_a_killed_import_left_is_cleared(killed: Desk, tmp_path: Path) -> None:
    audited = killed.run("audit", "--json").data
    hint = "`provenance erase --unnamed`"
    told = [one for one in audited if "private/terms" in one.get("what", "")]
    assert len([one for one in told if hint in one["mend"]]) == 2
    cleared = killed.run("erase", "--unnamed", "--yes", "--json")
    assert cleared.status == 0
    assert (cleared.data[0]["terms"], cleared.data[0]["contacts"]) == (3, 0)
    assert terms(killed) == set()
    assert len(list(Contacts(killed.path).filed())) == 2
    persons = killed.run("erase", "--unnamed", "--contacts", "--yes")
    assert persons.lines[1:3] == ["  terms     0", "  contacts  2"]
    assert list(Contacts(killed.path).filed()) == []
    after = killed.run("audit", "--json").data
    assert [one for one in after if "level" in one] == []
    assert after[-1] == audited[-1]
    again = killed.run("erase", "--unnamed", "--yes")
    assert (again.status, again.lines) == (0, ["there is no page to erase", "  terms     0"])


def test_what_a_record_names_stays(killed: Desk, tmp_path: Path) -> None:
    """The same moves, entered after all, have pages of their own."""
    left = terms(killed)
    assert killed.run("import", str(tmp_path / "moves.csv"), "--kind", "custody").status == 0
    named = terms(killed) - left
    assert len(named) == 2
    assert killed.run("erase", "--unnamed", "--contacts", "--yes").status == 0
    assert terms(killed) == named
    assert sorted(page.name for _key, page in Contacts(killed.path).list()) == [
        "Ida Strand",
        "Ottoline Farrowby",
    ]
    assert killed.run("audit").lines[-1].startswith("whole")


def test_erasing_a_person_says_how_the_rest_is_cleared(killed: Desk) -> None:
    erased = killed.run("erase", "Ida Strand", "--yes")
    assert "no record names 2 of the pages of terms" in erased.err
    assert "`provenance erase --unnamed` clears them" in erased.err


def test_the_pages_of_an_act_under_way_are_safe(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page is on disk before its entry: whoever clears waits, and then gives up."""
    monkeypatch.setattr(connection, "WAIT_MS", 50)
    key, keep = TermsBook(studio.path).prepare(Terms(price="900 EUR"))
    with Register.open(studio.path, clock=clock()) as register:
        with register.act(WHO) as act:
            act.keep([keep])
            refused = studio.run("erase", "--unnamed", "--yes", "--json")
            assert (refused.status, terms(studio)) == (1, {f"{key}.json"})
            assert refused.problem["what"].startswith("another program is writing")
            act.enter(release(studio.print, terms=key))
        assert studio.run("erase", "--unnamed", "--yes", "--json").data[0]["terms"] == 0
    assert terms(studio) == {f"{key}.json"}


def test_a_page_that_is_named_while_the_question_stands_is_safe(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was counted for the question is not what is erased: that is decided behind the door."""
    key, keep = TermsBook(studio.path).prepare(Terms(price="900 EUR"))
    keep()

    class Answer(io.StringIO):
        def isatty(self) -> bool:
            return True

        def readline(self, *_size: int) -> str:  # type: ignore[override]
            with Register.open(studio.path, clock=clock()) as register, register.act(WHO) as act:
                act.enter(release(studio.print, terms=key))
            return "y\n"

    monkeypatch.setattr(sys, "stdin", Answer())
    asked = studio.run("erase", "--unnamed")
    assert "Erase 1 page that no record names for good?" in asked.err
    assert (asked.status, asked.lines[0]) == (0, "there is no page to erase")
    assert terms(studio) == {f"{key}.json"}


def test_nothing_is_erased_while_anything_is_lost(killed: Desk) -> None:
    before = terms(killed)
    head = killed.path / "head"
    held = head.read_bytes()
    head.unlink()
    refused = killed.run("erase", "--unnamed", "--yes", "--json")
    assert (refused.status, terms(killed)) == (1, before)
    assert "`head` is gone" in refused.problem["what"]
    head.write_bytes(held)
    (page, *_) = Contacts(killed.path).filed()
    (killed.path / "contacts" / f"{page}.json").write_bytes(b"{}")
    refused = killed.run("erase", "--unnamed", "--contacts", "--yes", "--json")
    assert (refused.status, terms(killed)) == (3, before)
    assert "there is damage" in refused.problem["what"]


@pytest.mark.parametrize(
    "words", [(), ("--contacts", "--yes"), ("Ida", "--unnamed", "--yes"), ("--unnamed",)]
)
def test_wrong_use(killed: Desk, words: tuple[str, ...]) -> None:
    before = terms(killed)
    assert killed.run("erase", *words).status == 2
    assert terms(killed) == before
