"""The wet side: runs that begin, are left, killed, and taken up again."""

import asyncio
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.model.chemistry import Bath
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.run import Override, Run
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.screens import reads_aside
from provenance.screens.dialogs.new_run import NewRun
from provenance.screens.places.run_page import RunPage
from provenance.screens.places.wet_side import NewSheets, WetSide
from provenance.screens.widgets.form import Form
from provenance.studio import wet_side
from tests import studios
from tests.screens.at_the_trays import (
    BATHS,
    PLAN,
    Keypad,
    Watch,
    at_the_trays,
    darkroom,
    entries,
    runs,
)
from tests.screens.form_app import Hands
from tests.screens.house import at_work


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """The folder of a studio."""
    return tmp_path / "studio"


def hands(pad: Keypad) -> Hands:
    """The same person at a form."""
    return Hands(pad.app, pad.pilot)  # type: ignore[arg-type]


async def begun(pad: Keypad, **typed: str) -> None:
    """Go to the wet side, fill the form of a new run, and save it."""
    await pad.pilot.press("3")
    await pad.settle()
    await pad.pilot.press("n")
    await pad.pilot.pause()
    await pad.pilot.pause()
    person = hands(pad)
    await person.put(**typed)
    await person.press("ctrl+s")
    await pad.settle()


async def test_a_run_begins_with_the_sheets_at_work_and_the_trays_that_stand_ready(
    studio: Path,
) -> None:
    darkroom(studio, begin=False)
    async with at_the_trays(studio) as pad:
        await begun(pad, process=PLAN, temperature="20.5")
        assert isinstance(pad.app.screen, RunPage), pad.text()
        assert pad.app.in_safelight
        assert "QUAY, 3 sheets" in pad.text()
        assert "20.5 °C" in pad.text()
        assert "dev-1" in pad.row("Q8")
        reader = pad.app.register.read
        (run,) = [one.body for one in reader.all(Run)]
        assert len(run.sheets) == 3
        assert run.temperature_tenth_c == 205
        standing = {tray.step: reader.get(Bath, tray.bath).body.code for tray in run.trays}
        # the pair stands in its order, and nothing stands where no bath is ready
        assert {step: code for step, code in standing.items() if "wash" not in step} == {
            "developer": "dev-1",
            "stop": "stop-1",
            "fix one": "fixA",
            "fix two": "fixB",
            "bleach": "bleach-1",
        }


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"process": PLAN, "sheets": ""}, "names no sheets"),
        ({"process": PLAN, "sheets": "QUAY Q8, QUAY Q8"}, "twice"),
        ({"process": PLAN, "sheets": "QUAY Q99"}, "Q99"),
        ({"process": "no-such-plan"}, "no process sheet no-such-plan"),
        ({"process": PLAN, "temperature": "120"}, "temperature"),
        ({"process": PLAN, "trays": "developer fixA"}, "is for fix"),
        ({"process": PLAN, "trays": "developer nowhere"}, "no bath nowhere"),
        ({"process": PLAN, "sheets": ", ".join(f"QUAY Q{n}" for n in range(10))}, "a digit for"),
    ],
)
async def test_what_cannot_be_is_refused_with_the_reason(
    studio: Path, typed: dict[str, str], said: str
) -> None:
    darkroom(studio, begin=False)
    async with at_the_trays(studio) as pad:
        await begun(pad, **typed)
        assert isinstance(pad.app.screen, NewRun)
        assert said in " ".join(pad.text().split()), pad.text()
        assert pad.app.register.read.all(Run) == []


async def test_the_trays_are_those_of_last_time(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    with Register.open(studio, clock=Watch()) as register:
        studios.enter(register, msgspec.structs.replace(BATHS[0], code="dev-2"))
        studios.revise(register, run, state="finished")
    async with at_the_trays(studio) as pad:
        await begun(pad)
        assert "dev-1" in pad.row("Q8")


async def test_new_sheets_come_by_way_of_the_printing_form(studio: Path) -> None:
    darkroom(studio, begin=False)
    async with at_the_trays(studio) as pad:
        await pad.pilot.press("3", "p")
        await pad.pilot.pause()
        assert isinstance(pad.app.screen, NewSheets)
        person = hands(pad)
        await person.put(count="2", process=PLAN)
        assert person.value("as_planned") == "no"
        await person.press("ctrl+s")
        for _ in range(50):
            await pad.pilot.pause(0.02)
            if isinstance(pad.app.screen, NewRun):
                break
        assert isinstance(pad.app.screen, Form), pad.text()
        assert hands(pad).value("sheets") == "QUAY Q11, QUAY Q12"
        assert hands(pad).value("process") == PLAN
        await hands(pad).press("ctrl+s")
        await pad.settle()
        assert "QUAY, 2 sheets" in pad.text()
        assert "→ developer" in pad.row("Q11")


async def test_runs_in_hand_come_first_and_say_where_each_sheet_is(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.press("escape")
        assert isinstance(pad.app.screen, WetSide)
        assert "The run goes on: QUAY, 3 sheets." in pad.text()
        assert "Q8 in developer; Q9, Q10 developer next" in pad.text()
        assert pad.app.in_safelight
        await pad.pilot.press("enter")
        await pad.settle()
        assert isinstance(pad.app.screen, RunPage)
        assert "developer" in pad.row("Q8")


async def test_a_run_in_hand_is_offered_on_opening(studio: Path) -> None:
    darkroom(studio)
    async with at_the_trays(studio) as pad:
        assert "A run is in hand: QUAY, 3 sheets." in pad.text()


async def test_a_run_is_given_up_by_a_key_and_its_sheets_are_free(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.press("escape")
        await pad.pilot.press("x")
        await pad.settle()
        assert "Give this run up?" in pad.text()
        await pad.pilot.press("n", "x", "y")
        await pad.settle()
        assert "No run in hand" in pad.text()
        assert "given up" in pad.text()
        # the paper may still lie about
        assert pad.app.in_safelight
    assert [one.state for one in runs(studio)] == ["given up"]


async def test_a_run_is_given_up_from_the_keypad_too(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.press("slash")
        await pad.choose("give the run up")
        assert "how long the last step was will not be on record" in pad.text()
        await pad.press("0")
        assert runs(studio)[0].state == "in hand"
        await pad.press("slash")
        await pad.choose("give the run up")
        await pad.press("1")
        assert "the run is given up" in pad.text()
    assert runs(studio)[0].state == "given up"


async def test_what_was_overridden_is_explained_after_drying(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    why = "accepted for today; it is explained after drying"
    with Register.open(studio, clock=Watch()) as register:
        (sheet,) = register.read.get(Run, run).body.sheets
        over = Override(finding="Q2", step="bleach", sheets=(sheet,), why=why)
        studios.revise(register, run, state="finished", overrides=(over,))
    async with at_the_trays(studio) as pad:
        await pad.pilot.press("3")
        await pad.settle()
        assert "1 overridden, not explained yet" in pad.text()
        await pad.pilot.press("home", "down", "e")
        await pad.settle()
        assert "Q2  Q8 into bleach" in pad.text()
        assert why[:40] in pad.text()
        assert "Washed all the same" in pad.text()
        await hands(pad).put(explained_0="washed an hour in the other sink", done_0="yes")
        await hands(pad).press("f2")
        await pad.settle()
        assert "not explained yet" not in pad.text()
    (one,) = runs(studio)[0].overrides
    assert (one.why, one.explained) == (why, "washed an hour in the other sink")
    assert one.done


async def test_two_runs_on_one_tray_are_warned_of(studio: Path) -> None:
    darkroom(studio, ["Q8"])
    with Register.open(studio, clock=Watch()) as register:
        (printing,) = register.read.all(Printing)
        (first,) = register.read.all(Print)
        replaced = msgspec.structs.replace(first.body, mark="Q9", printing=printing.id)
        studios.enter(register, replaced)
    async with at_the_trays(studio) as pad:
        await begun(pad)
        assert "baths dev-1, " in pad.text()
        assert " ".join(pad.text().split()).count("are in use by the run") == 1


# killed

KEYS = ("1", "2", "3", "enter", "enter", "enter", "plus", "minus", "0", "full_stop", "slash")


@settings(
    max_examples=6,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    before=st.lists(st.tuples(st.sampled_from(KEYS), st.integers(1, 200)), max_size=14),
    away_s=st.integers(0, 600),
    wall_s=st.integers(-100_000, 100_000),
    after=st.lists(st.tuples(st.sampled_from(KEYS), st.integers(1, 200)), max_size=8),
)
def test_a_run_killed_anywhere_goes_on_with_durations_that_add_up(
    before: list[tuple[str, int]], away_s: int, wall_s: int, after: list[tuple[str, int]]
) -> None:
    async def live(folder: Path) -> None:
        run, watch = darkroom(folder), Watch()
        for keys in (before, after):
            async with at_the_trays(folder, watch, run=run) as pad:
                for key, seconds in keys:
                    await pad.press(key, every_s=seconds)
            watch.go(away_s)
            watch.set_wall(wall_s)

    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "studio"
        asyncio.run(live(folder))
        assert not audit(folder).damaged
        check_durations(folder)


def check_durations(folder: Path) -> None:
    """Every clocked time is the one between its two presses, and no sheet was in two trays."""
    journal = entries(folder)
    at = {entry.seq: entry.moment for entry in journal}
    with Register.open(folder) as register:
        reader = register.read
        for sheet in reader.all(Print):
            free_from = 0
            for step in reader.linked(sheet.id, Step, "sheets"):
                began, took = at[step.id].boot_ms, step.body.duration_for(sheet.id)
                assert began >= free_from
                if took is None:
                    free_from = 2**60
                    continue
                free_from = began + took
                if step.body.source == "run":
                    ends = {entry.moment.boot_ms for entry in journal if entry.record == step.id}
                    assert began + took in ends


@contextmanager
def terminal(folder: Path, name: str) -> Iterator[None]:
    """The program in a terminal of its own."""
    tmux("-f", "/dev/null", "new-session", "-d", "-s", name, "-x", "80", "-y", "24", *words(folder))
    try:
        yield
    finally:
        subprocess.run(["tmux", "-L", SOCKET, "kill-session", "-t", name], check=False)


SOCKET = "provenance-tests"


def words(folder: Path) -> list[str]:
    """The command that opens the studio."""
    return [sys.executable, "-m", "provenance", "--studio", str(folder)]


def tmux(*given: str) -> str:
    """What tmux answers."""
    done = subprocess.run(
        ["tmux", "-L", SOCKET, *given], check=True, capture_output=True, text=True
    )
    return done.stdout


def until(name: str, text: str) -> str:
    """The screen, once it holds `text`."""
    seen = ""
    for _ in range(300):
        seen = tmux("capture-pane", "-p", "-t", name)
        if text in seen:
            return seen
        time.sleep(0.05)
    raise AssertionError(f"{text!r} did not come:\n{seen}")


@pytest.mark.skipif(shutil.which("tmux") is None, reason="needs tmux")
def test_after_a_kill_nine_the_clock_goes_on_where_it_was(studio: Path) -> None:
    # the program reads the clock of this machine
    darkroom(studio, printed_on="2020-05-01")
    name = f"run{studio.stat().st_ino}"
    with terminal(studio, name):
        until(name, "places")
        tmux("send-keys", "-t", name, "3")
        until(name, "QUAY, 3 sheets")
        tmux("send-keys", "-t", name, "Enter")
        until(name, "→ developer")
        tmux("send-keys", "-t", name, "1", "Enter")
        until(name, "Q8: developer began")
        pid = tmux("display-message", "-p", "-t", name, "#{pane_pid}").strip()
        subprocess.run(["kill", "-9", pid], check=True)
    assert not audit(studio).damaged
    with terminal(studio, f"{name}b"):
        until(f"{name}b", "places")
        tmux("send-keys", "-t", f"{name}b", "3")
        until(f"{name}b", "Q8 in developer")
        tmux("send-keys", "-t", f"{name}b", "Enter")
        until(f"{name}b", "last key  Q8: developer began")
        tmux("send-keys", "-t", f"{name}b", "1", "Enter")
        until(f"{name}b", "developer ended")
        tmux("send-keys", "-t", f"{name}b", "C-c")
    assert runs(studio)[0].state == "in hand"
    check_durations(studio)
    began, ended = [entry for entry in entries(studio) if entry.kind == "step"]
    assert ended.moment.boot == began.moment.boot
    with Register.open(studio) as register:
        took = register.read.get(Step, began.record).body.duration_ms
    assert took == ended.moment.boot_ms - began.moment.boot_ms


async def test_of_many_printings_the_latest_are_listed(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    darkroom(studio)
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(wet_side, "PRINTINGS", 0)
    async with at_work(studio) as printer:
        await printer.press("3")
        await printer.until("and 1 earlier")
        assert "QUAY, 3 sheets" in printer.text()
