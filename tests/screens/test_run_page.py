"""A run at the trays, driven by the numeric keypad alone."""

import asyncio
from pathlib import Path

import pytest

from provenance.model.chemistry import Bath
from provenance.model.prints import Print
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.screens.actions import ACTIONS
from provenance.screens.bindings import shown_key
from provenance.screens.places.run_page import RunPage
from tests import studios
from tests.screens.at_the_trays import (
    Keypad,
    Watch,
    at_the_trays,
    darkroom,
    entries,
    runs,
    steps_of,
    times_of,
)
from tests.screens.goldens import agreed
from tests.screens.reading import screen_colours, screen_text

SIZES = ((80, 24), (120, 40))
both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """The folder of a studio."""
    return tmp_path / "studio"


async def three_sheets_overlap(pad: Keypad) -> None:
    """One in the first fix, one in the stop, one in the developer."""
    await pad.into("1")
    await pad.wait(48)
    await pad.into("2")
    await pad.wait(69)
    await pad.into("1")
    await pad.press("enter")
    await pad.wait(28)
    await pad.into("1")
    await pad.into("1")
    await pad.into("3")
    await pad.wait(10)
    await pad.into("2")
    await pad.into("2")
    await pad.wait(8)


async def test_three_sheets_in_different_steps_have_their_own_clocks(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await three_sheets_overlap(pad)
        assert "fix one" in pad.row("Q8")
        assert "stop" in pad.row("Q9")
        assert "developer" in pad.row("Q10")
        lefts = [pad.row(mark).split("AIM")[0] for mark in ("Q8", "Q9", "Q10")]
        assert "0:36" in lefts[0]
        assert "0:22" in lefts[1]
        assert "1:38" in lefts[2]
        # the clock belongs to the one that needs a hand next
        assert "sheet 2   back: Q9" in pad.text()
    with_times = dict(pad_times(studio, "Q8"))
    assert with_times["developer"] == 121_000


def pad_times(folder: Path, mark: str) -> list[tuple[str, int | None]]:
    """What was recorded of a sheet."""
    with Register.open(folder) as register:
        return times_of(register.read, mark)


async def test_sheets_pressed_together_share_a_step_and_leave_it_each_in_its_time(
    studio: Path,
) -> None:
    run = darkroom(studio, ["Q1", "Q2", "Q3", "Q4", "Q5", "Q6", "Q7"])
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("1", "2", "3", "4", "5", "6", "7")
        await pad.press("enter")
        assert len(pad.steps("Q1")[0].sheets) == 7
        # 75 s for three of them, 90 s for the other four
        await pad.wait(71)
        await pad.press("1", "2", "3", "enter")
        await pad.wait(10)
        await pad.press("4", "5", "6", "7", "enter")
        reader = pad.app.register.read
        assert {times_of(reader, f"Q{n}")[0][1] for n in (1, 2, 3)} == {75_000}
        assert {times_of(reader, f"Q{n}")[0][1] for n in (4, 5, 6, 7)} == {90_000}
        # a sheet that was left out joins the others in their tray
        await pad.press("1", "2", "enter")
        await pad.press("3", "slash")
        assert "1  stop, beside Q1, Q2" in pad.text()
        await pad.press("1")
        assert "stop" in pad.row("Q3")
        assert "→" not in pad.row("Q3")


async def test_a_press_without_a_digit_is_for_the_sheets_that_moved_together(
    studio: Path,
) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("1", "2", "enter")
        await pad.wait(118)
        await pad.press("enter")
        await pad.press("enter")
        assert [name for name, _time in times_of(pad.app.register.read, "Q9")] == [
            "developer",
            "stop",
        ]
        assert times_of(pad.app.register.read, "Q10") == []


async def test_sheets_in_different_places_are_not_moved_by_one_press(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        before = pad.app.register.read.head()
        await pad.press("1", "2", "enter")
        assert "not in the same place" in pad.text()
        assert pad.app.register.read.head() == before


async def test_a_press_is_taken_back_by_a_correcting_entry(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.wait(30)
        await pad.into("1")
        assert "last key  Q8: developer ended, 0:32" in pad.text()
        await pad.press("0")
        # the clock goes on as if the key had not been pressed
        assert "1:27" in pad.row("Q8")
        assert "Taken back: Q8: developer ended" in pad.text()
        await pad.press("0")
        assert "→ developer" in pad.row("Q8")
        assert "no key pressed yet" in pad.text()
        await pad.press("0")
        assert "nothing to take back" in pad.text()
    verbs = [entry.verb for entry in entries(studio)[-4:]]
    assert verbs == ["enter", "change", "undo", "undo"]


async def test_a_bounced_key_is_one_press(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.press("enter", every_s=0.1)
        await pad.press("enter", every_s=0.1)
        assert times_of(pad.app.register.read, "Q8") == [("developer", None)]
        await pad.press("1", "1", every_s=0.1)
        assert pad.page.picked == ("1",)
        # another key between them, and it is meant
        await pad.press("2", "1", every_s=0.1)
        assert pad.page.picked == ("2",)


async def test_the_aim_is_changed_in_steps_and_kept(studio: Path) -> None:
    run = darkroom(studio)
    watch = Watch()
    async with at_the_trays(studio, watch, run=run) as pad:
        await pad.press("1", "2", "enter")
        await pad.press("2", "plus", "plus", "plus")
        assert "2:15" in pad.row("Q9")
        assert "2:00" in pad.row("Q8")
        await pad.press("minus", "0")
        assert "2:15" in pad.row("Q9")
        # before it goes in, the next step's
        await pad.press("3", "minus")
        assert "1:55" in pad.row("Q10")
    async with at_the_trays(studio, watch, run=run) as pad:
        assert "2:15" in pad.row("Q9")


async def test_a_spoiled_sheet_is_a_key_and_a_reason(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("1", "2", "enter")
        await pad.press("full_stop")
        assert "Pick the spoiled sheet first" in pad.text()
        await pad.press("1", "full_stop")
        assert "Q8 spoiled: how?" in pad.text()
        await pad.press("1")
        assert "spoiled" in pad.row("Q8")
        assert "creased or torn" in pad.row("Q8")
        # the other stays in the tray, and the spoiled one is picked no more
        assert "developer" in pad.row("Q9")
        await pad.press("1")
        assert pad.page.picked == ()
        reader = pad.app.register.read
        held = next(one.body for one in reader.all(Print) if one.body.mark == "Q8")
        assert (held.existence, held.gone_why) == ("spoiled", "creased or torn")


async def test_it_is_time_to_drain_rings_once_and_is_said(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.into("1")
        await pad.wait(109)
        assert pad.bells == []
        for _ in range(4):
            await pad.wait(1)
        assert len(pad.bells) == 1
        assert "LIFT AND DRAIN" in pad.text()
        assert "drain 0:07" in pad.row("Q8")
        await pad.wait(20)
        assert "PAST ITS AIM" in pad.text()
        assert "past 0:13" in pad.row("Q8")
        assert len(pad.bells) == 1


async def test_what_would_go_wrong_is_said_before_and_needs_a_reason(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    async with at_the_trays(studio, run=run) as pad:
        for seconds in (117, 27, 57):
            await pad.press("enter")
            await pad.wait(seconds)
            await pad.press("enter")
        # straight from the fix into the bleach, without any wash
        await pad.press("slash")
        await pad.choose("bleach")
        said = pad.text()
        assert "Q2" in said
        assert "highlights" in said
        assert "0  do not begin" in said
        await pad.press("0")
        assert "was not begun" in pad.text()
        assert times_of(pad.app.register.read, "Q8")[-1][0] == "fix one"
        await pad.press("slash")
        await pad.choose("bleach")
        while pad.page.asking:
            await pad.choose("a trial sheet")
        assert "bleach" in pad.row("Q8")
        assert "Q2 overridden" in pad.text()
        # what is entered afterwards cannot make good what was missed
        await pad.press("enter")
        await pad.press("slash")
        await pad.choose("end the run")
        assert "Before bleach the work went on without a wash" in " ".join(pad.text().split())
        await pad.press("0")
    overrides = runs(studio)[0].overrides
    assert overrides[0].finding == "Q2"
    assert overrides[0].why == "a trial sheet that will not be kept"


async def test_a_bath_past_its_limit_is_said_before_and_does_not_stop_anybody(
    studio: Path,
) -> None:
    run = darkroom(studio)
    with Register.open(studio, clock=Watch()) as register:
        bath = register.read.by_code(Bath, "fixA")
        assert bath is not None
        studios.revise(register, bath.id, volume_hundredth_ml=10_000)
    async with at_the_trays(studio, run=run) as pad:
        for seconds in (117, 1):
            await pad.into("1")
            await pad.wait(seconds)
            await pad.into("1")
        assert "fixA is estimated to hold" in pad.text()
        await pad.press("1", "enter")
        assert "fix one" in pad.row("Q8")
        assert not pad.page.asking
        assert runs(studio)[0].overrides == ()


async def test_every_sheet_keeps_its_row_whatever_is_said_of_its_tray(studio: Path) -> None:
    run = darkroom(studio)
    with Register.open(studio, clock=Watch()) as register:
        bath = register.read.by_code(Bath, "dev-1")
        assert bath is not None
        studios.revise(register, bath.id, code="developer-2031-06-01-A", one_shot=True)
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("1", "2", "3", "enter")
        for mark in ("Q8", "Q9", "Q10"):
            assert "developer-2031-06-01" in pad.row(mark)


async def test_a_key_before_the_board_is_read_waits_for_it(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    async with at_the_trays(studio) as pad:
        page = RunPage(run)
        pad.app.push_screen(page)
        while not page.is_mounted:
            await asyncio.sleep(0)
        assert page.board is None
        page.action_press()
        await pad.settle()
        assert times_of(pad.app.register.read, "Q8") == [("developer", None)]


async def test_the_test_that_the_plan_wants_is_told_until_it_is_answered(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("slash")
        await pad.choose("wash")
        assert "silver test, by /" in pad.text()
        await pad.press("enter")
        assert "first silver test, by /" in pad.text()
        await pad.press("slash", "1")
        await pad.pilot.pause()
        await pad.press("1")
        await pad.settle()
        assert "silver test" not in pad.text()


async def test_a_sheet_that_is_through_is_asked_for_nothing(studio: Path) -> None:
    run = darkroom(studio, ["Q8", "Q9"])
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("8", "slash")
        await pad.choose("wash after toning")
        await pad.press("8", "enter", "8")
        assert "through: / gives another step" in pad.text()
        assert "enter begins" not in pad.text()


async def test_the_run_ends_as_planned_or_as_clocked(studio: Path) -> None:
    run = darkroom(studio, ["Q8", "Q9"])
    async with at_the_trays(studio, run=run) as pad:
        # their pencil marks are their digits
        await pad.press("8", "9", "enter")
        await pad.wait(118)
        await pad.press("slash")
        with pytest.raises(AssertionError, match="no answer"):
            await pad.choose("end the run")
        await pad.press("0", "enter")
        await pad.press("slash")
        await pad.choose("end the run")
        assert "Nobody clocked stop, fix one" in pad.text()
        await pad.press("1")
        assert "the run is ended, 14 steps entered as planned" in pad.text()
    assert runs(studio)[0].state == "finished"
    assert len(pad_times(studio, "Q8")) == 15


async def test_a_test_is_answered_at_the_trays_by_a_digit(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("slash")
        await pad.choose("silver test")
        await pad.pilot.pause()
        assert "What did it show?" in pad.text()
        await pad.press("1")
        await pad.settle()
        assert "sheet 8" in pad.text()
        (entry,) = [one for one in entries(studio) if one.kind == "test"]
        assert b'"passed"' in bytes(entry.body)


# the light


async def test_red_until_a_person_says_that_the_paper_is_shut_away(studio: Path) -> None:
    run = darkroom(studio, ["Q8"])
    watch = Watch()
    async with at_the_trays(studio, watch, run=run) as pad:
        assert pad.app.in_safelight
        for seconds in (117, 27, 57, 57):
            await pad.press("enter")
            await pad.wait(seconds)
            await pad.press("enter")
        assert "Every sheet is fixed. Is all paper shut away?" in pad.text()
        assert pad.app.in_safelight
        await pad.press("1")
        assert pad.app.in_safelight
        await pad.press("asterisk", "1")
        assert pad.app.in_safelight
        await pad.press("asterisk", "2")
        assert not pad.app.in_safelight
    # after a restart of the program nobody knows
    async with at_the_trays(studio, watch, run=run) as pad:
        assert pad.app.in_safelight


async def test_white_light_is_warned_of_while_a_sheet_is_not_fixed(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await pad.press("asterisk")
        assert "Q8, Q9, Q10 not fixed yet: white light spoils them" in pad.text()
        await pad.press("0")
        assert pad.app.in_safelight


@both_sizes
async def test_every_colour_is_pure_red(studio: Path, size: tuple[int, int]) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run, size=size) as pad:
        await three_sheets_overlap(pad)
        colours = screen_colours(pad.app)
        await pad.press("1", "full_stop")
        colours |= screen_colours(pad.app)
        await pad.press("0", "asterisk")
        colours |= screen_colours(pad.app)
    assert len(colours) > 2
    assert {colour[3:] for colour in colours} == {"0000"}


# killed, and taken up again


@pytest.mark.parametrize("wall_s", [0, 7200, -86_400])
async def test_a_run_is_taken_up_with_the_exact_time(studio: Path, wall_s: float) -> None:
    run = darkroom(studio)
    watch = Watch()
    async with at_the_trays(studio, watch, run=run) as pad:
        await pad.into("1")
    watch.go(60)
    watch.set_wall(wall_s)
    async with at_the_trays(studio, watch, run=run) as pad:
        assert "1:00" in pad.row("Q8")
        assert "last key  Q8: developer began" in pad.text()
        await pad.press("0")
        assert "→ developer" in pad.row("Q8")


async def test_after_a_restart_of_the_machine_the_clock_says_so(studio: Path) -> None:
    run = darkroom(studio)
    watch = Watch()
    async with at_the_trays(studio, watch, run=run) as pad:
        await pad.into("1")
    watch.restart(30)
    async with at_the_trays(studio, watch, run=run) as pad:
        assert "1:30" in pad.row("Q8")
        assert "by the wall clock" in pad.text()


@pytest.mark.parametrize(
    ("keys", "time_ms"),
    [
        (("1",), None),
        (("0",), None),
        (("2",), 120_000),
        (("3", "2", "1", "0", "enter"), 130_000),
        (("3", "enter"), None),
    ],
    ids=["still in", "later", "at its aim", "typed", "not known"],
)
async def test_the_end_that_nobody_saw_is_asked_for(
    studio: Path, keys: tuple[str, ...], time_ms: int | None
) -> None:
    run = darkroom(studio)
    watch = Watch()
    async with at_the_trays(studio, watch, run=run) as pad:
        await pad.into("1")
    watch.go(3 * 3600)
    async with at_the_trays(studio, watch, run=run) as pad:
        assert "Q8 went into developer 3 h ago, and nobody ended it." in pad.text()
        await pad.press(*keys)
        assert times_of(pad.app.register.read, "Q8") == [("developer", time_ms)]
        if time_ms is not None:
            (step,) = steps_of(pad.app.register.read, "Q8")
            assert step.source == "notes"
            assert "not clocked" in step.note


# what it looks like


def test_the_page_for_the_darkroom_names_every_key() -> None:
    page = (Path(__file__).parents[2] / "docs" / "darkroom.md").read_text(encoding="utf-8")
    keys = {shown_key(one.key) for one in ACTIONS if "run" in one.where.split()}
    assert {key for key in keys if f"| `{key}` |" not in page} == set()


@both_sizes
@pytest.mark.parametrize("light", ["day", "safelight"])
async def test_the_screen_is_as_it_was_agreed(
    studio: Path, size: tuple[int, int], light: str
) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run, size=size) as pad:
        await three_sheets_overlap(pad)
        if light == "day":
            await pad.press("asterisk", "2", every_s=0)
        pad.page.tick()
        await pad.pilot.pause()
        assert agreed(f"run-{light}-{size[0]}x{size[1]}", screen_text(pad.app))


async def test_the_journal_audits_after_all_of_it(studio: Path) -> None:
    run = darkroom(studio)
    async with at_the_trays(studio, run=run) as pad:
        await three_sheets_overlap(pad)
        await pad.press("1", "plus", "3", "full_stop", "2", "0")
    assert not audit(studio).damaged
