"""How the program ends: left, killed or by a fault of its own; nothing that was saved is lost."""

import threading
from pathlib import Path

import pytest

from provenance.model.paper import Paper
from provenance.records.private import Drafts
from provenance.records.register import Register
from provenance.screens.safelight import RESTORE_TERMINAL
from tests import studios
from tests.screens.house import at_work
from tests.screens.terminal import in_a_terminal

FAULTY = """
from provenance.screens.places.editions import Editions
def fault(_self):
    secret = "what nobody else should read"
    raise RuntimeError("the drawer is stuck")
Editions.action_new_edition = fault
"""


NEVER_LAID_OUT = """
from provenance.screens.places.edition_page import EditionPage
def compose(self):
    if LEAVING:
        self.app.exit()
    return iter(())
EditionPage.compose = compose
"""


@pytest.mark.parametrize(("leaving", "status"), [(True, 0), (False, 70)])
def test_a_page_that_opens_while_the_program_is_left_is_no_fault(
    studio: Path, leaving: bool, status: int
) -> None:
    """The library lays out no page any more then, and the page finds nothing on itself."""
    with in_a_terminal(studio, code=NEVER_LAID_OUT.replace("LEAVING", str(leaving))) as terminal:
        terminal.until("QUAY")
        terminal.send("\r")
        assert terminal.status(may_fault=True) == status


def test_a_fault_ends_with_70_and_gives_the_terminal_back(studio: Path) -> None:
    with in_a_terminal(studio, "--light", "safelight", code=FAULTY) as terminal:
        terminal.until("QUAY")
        terminal.send("n")
        assert terminal.status(may_fault=True) == 70
    end = terminal.stream[terminal.stream.rindex(b"\x1b[?1049l") :]
    assert RESTORE_TERMINAL.encode() in end
    assert b"a fault of the program (RuntimeError: the drawer is stuck)" in end
    assert b"what nobody else" not in terminal.stream
    assert b"Traceback" not in terminal.stream


def test_a_register_that_cannot_be_opened_is_said_in_the_shell(studio: Path) -> None:
    (studio / "register.db").write_bytes(b"not a register at all" * 100)
    with in_a_terminal(studio) as terminal:
        assert terminal.status() == 3
    assert b"the register is damaged" in terminal.stream
    assert b"\x1b[?1049h" not in terminal.stream


def test_a_half_filled_form_is_offered_after_a_kill(studio: Path) -> None:
    with in_a_terminal(studio) as terminal:
        terminal.until("QUAY")
        terminal.send("2")
        terminal.until("NEGATIVES")
        terminal.send("n")
        terminal.until("New paper")
        terminal.send("FB-77")
        while not Drafts(studio).names():
            terminal._read()
        terminal.kill()
        assert terminal.status() == -9
    with in_a_terminal(studio) as terminal:
        terminal.until("QUAY")
        terminal.send("2")
        terminal.until("NEGATIVES")
        terminal.send("n")
        terminal.until("half-filled on")
        terminal.send("y")
        terminal.until("FB-77")
        terminal.send("\x11")
        assert terminal.status() == 0
    # left by ctrl+q, it is kept still
    assert Drafts(studio).names()


async def test_what_is_being_written_when_the_program_is_left_is_written(studio: Path) -> None:
    gate = threading.Event()
    async with at_work(studio) as printer:

        async def slowly() -> None:
            def work(act: object) -> int:
                gate.wait(10)
                return act.enter(Paper(code="LATE", base="fibre"))  # type: ignore[attr-defined, no-any-return]

            await printer.studio.act(work)

        printer.app.run_worker(slowly())
        await printer.pilot.pause()
        await printer.press("q")
        threading.Timer(0.2, gate.set).start()
    with Register.open(studio, clock=studios.clock()) as register:
        assert register.read.by_code(Paper, "LATE") is not None


async def test_q_waits_for_a_form_that_is_being_saved(studio: Path) -> None:
    gate = threading.Event()
    async with at_work(studio) as printer:
        await printer.press("2", "n")
        await printer.put(code="FB-9")
        await printer.pause()
        assert Drafts(studio).names()
        printer.app.run_worker(printer.studio.writer.do(lambda _register: gate.wait(10)))
        await printer.pilot.press("ctrl+s")
        await printer.pilot.press("ctrl+q")
        threading.Timer(0.2, gate.set).start()
        for _ in range(500):
            if printer.app.return_code is not None:
                break
            await printer.pilot.pause(0.02)
    with Register.open(studio, clock=studios.clock()) as register:
        assert register.read.by_code(Paper, "FB-9") is not None
    # and the form knows that it was saved
    assert Drafts(studio).names() == []


def test_the_mouse_is_left_to_the_terminal_when_asked(studio: Path) -> None:
    streams = []
    for options in ((), ("--no-mouse",)):
        with in_a_terminal(studio, *options) as terminal:
            terminal.until("QUAY")
            terminal.send("q")
            assert terminal.status() == 0
        streams.append(terminal.stream)
    assert [b"\x1b[?1000h" in stream for stream in streams] == [True, False]


def test_the_path_of_a_certificate_goes_through_the_terminal(studio: Path) -> None:
    with in_a_terminal(studio) as terminal:
        terminal.until("QUAY")
        # typed ahead of the page that it is for
        terminal.send("/Q11\r")
        terminal.until("back: Q11")
        terminal.send("y")
        terminal.until("\x1b]52;c;")
        terminal.send("q")
        assert terminal.status() == 0
