"""Nothing on record reaches the terminal in a way that could steer it."""

import asyncio
import shutil
from pathlib import Path

import pytest

from provenance.cli.main import run
from provenance.errors import Refused
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.screens.places.answer_page import AnswerPage
from provenance.screens.places.desk import Desk
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.print_page import PrintPage
from tests import studios
from tests.hostile.poisoned import HOSTILE, STEERING, poisoned
from tests.screens.house import at_work
from tests.screens.reading import line_widths, screen_text
from tests.screens.terminal import in_a_terminal


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("poisoned") / "studio"
    assert poisoned(path) > 30
    return path


@pytest.fixture
def folder(built: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(built, tmp_path / "studio\x1b]0;pwned\x07"))


def commands(folder: Path) -> list[list[str]]:
    """What shows records, for all that there are."""
    with Register.open(folder, clock=studios.clock()) as register:
        rows = register.read.connection.execute("SELECT DISTINCT kind FROM record").fetchall()
        ids = [row[0] for row in register.read.connection.execute("SELECT id FROM record")]
        prints = [stored.id for stored in register.read.all(Print)]
        editions = [stored.id for stored in register.read.all(Edition)]
    said = [["list", kind] for (kind,) in rows] + [["list", "prints"], ["find", "pwned"]]
    said += [[command, f"#{one}"] for one in ids for command in ("show", "history")]
    of_prints = ("certify", "answer", "custody", "describe", "disclosure")
    said += [[command, f"#{one}"] for one in prints for command in of_prints]
    of_editions = ("edition-list", "heirs-page", "reminders")
    said += [[command, f"#{one}"] for one in editions for command in of_editions]
    said += [["find", HOSTILE], ["show", HOSTILE], ["recall", "F-1"], ["audit"], ["contacts"]]
    said += [["answer", HOSTILE], ["erase", HOSTILE, "--yes"], [HOSTILE]]
    return said


def test_no_command_lets_a_record_steer_the_terminal(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("provenance.records.register.SystemClock", studios.clock)
    seen = ""
    for words in commands(folder):
        for more in ([], ["--json"]):
            monkeypatch.setattr("sys.argv", ["provenance", "--studio", str(folder), *words, *more])
            assert run() in (0, 1, 2, 3), words
            said = capsys.readouterr()
            seen += said.out + said.err
    assert "pwned" in seen
    assert not STEERING & set(seen)


def test_no_page_lets_a_record_steer_the_terminal(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    seen = asyncio.run(walk(folder))
    # shown as it was written, never obeyed
    assert "pwned" in seen
    assert "[bold red]q[/]" in seen
    assert not STEERING & set(seen)


async def walk(folder: Path) -> str:
    """Look at every place and what opens from it; all that was on the screen."""
    seen, pages = "", set()
    async with at_work(folder, (120, 40)) as printer:
        for keys in (
            *(("enter",), ("enter",), ("h",), ("escape", "escape", "2"), ("4",), ("5",), ("6",)),
            ("slash", *"pwned"),
            # a print: what a collector is told of it, and the records behind its first sentence
            ("escape", "escape", "1", "enter"),
            ("a",),
            ("down", "enter"),
        ):
            await printer.press(*keys)
            pages.add(type(printer.app.screen))
            seen += screen_text(printer.app) + "\n"
            assert line_widths(printer.app) == {120}
            assert printer.app.is_running
    assert {PrintPage, HistoryPage, Desk, AnswerPage, EvidencePage} <= pages
    return seen


def test_the_stream_to_the_terminal_holds_no_order_of_a_record(folder: Path) -> None:
    with in_a_terminal(folder) as terminal:
        terminal.until("QUAY")
        terminal.send("\r\r")
        terminal.until("pwned")
        terminal.send("q")
        assert terminal.status() == 0
    assert b"\x1b]0;" not in terminal.stream
    assert b"\x9b31m" not in terminal.stream.replace("\u009b31m".encode(), b"\x9b31m")


COMPLAINING = """
import os
from provenance.screens.places.editions import Editions
Editions.action_new_edition = lambda _self: os.write(2, b"a library complains")
"""


def test_what_a_library_complains_of_is_not_painted_over_the_screen(folder: Path) -> None:
    with in_a_terminal(folder, code=COMPLAINING) as terminal:
        terminal.until("QUAY")
        terminal.send("nq")
        assert terminal.status() == 0
    assert b"complains" not in terminal.stream


def test_the_door_takes_no_controls(tmp_path: Path) -> None:
    with studios.new_register(tmp_path / "studio") as register:
        for bad in ("\x1b", "\x07", "\x9b", "\x00", "\x7f", "\t"):
            with pytest.raises(Refused, match="control character"), register.act("x") as act:
                act.enter(Negative(code="N-1", title=f"a{bad}b"))
            with pytest.raises(Refused, match="control character"):
                Contacts(tmp_path).add(name=f"a{bad}b")
