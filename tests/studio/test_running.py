"""A run at the trays: what is clocked, what is said later, and what a restart leaves."""

from collections.abc import Iterator
from dataclasses import replace as replaced
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from provenance.craft.history import Fact
from provenance.craft.standing import step_standing
from provenance.errors import Conflict, Refused
from provenance.model.evidence import Standing
from provenance.model.printing import Step
from provenance.model.prints import Print
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.run import Run, Tray
from provenance.records.at_hand import runs_in_hand
from provenance.records.clock import SetClock
from provenance.records.register import Register
from provenance.studio.running import (
    aim_at,
    begin_run,
    begin_step,
    end_step,
    explain,
    finish_run,
    give_up,
    override,
    spoil,
    view_run,
)
from provenance.studio.unfixed import unfixed
from tests.studios import WHO, Shelf, clock, furnish, new_register, sheet

PLAN = ProcessSheet(
    code="short",
    name="Short",
    base="fibre",
    steps=(
        PlannedStep(name="developer", role="develop", aim=Aim(time_ms=120_000)),
        PlannedStep(name="fix", role="fix", aim=Aim(time_ms=60_000)),
        PlannedStep(name="wash", role="wash", aim=Aim(time_ms=2_400_000)),
        PlannedStep(name="silver test", test="silver"),
    ),
)


class Darkroom:
    """A register with a clock that is moved by hand, three sheets and a plan."""

    def __init__(self, folder: Path) -> None:
        self.register: Register = new_register(folder)
        self.time = replaced(clock(), boot="one", boot_ms=5_000)
        self.register.clock = self.time
        with self.register.act(WHO) as act:
            self.shelf: Shelf = furnish(act)
            self.sheets = [act.enter(sheet(self.shelf, f"Q{n}")) for n in (1, 2, 3)]
            act.enter(PLAN)

    def pass_ms(self, boot_ms: int, *, wall_ms: int | None = None, boot: str | None = None) -> None:
        """Time goes by; the wall clock may be set otherwise, the machine may restart."""
        wall = boot_ms if wall_ms is None else wall_ms
        self.time = SetClock(
            self.time.instant + timedelta(milliseconds=wall),
            boot or self.time.boot,
            boot_ms if boot else self.time.boot_ms + boot_ms,
        )
        self.register.clock = self.time

    def begin(self, *sheets: int) -> int:
        plan = self.register.read.by_code(ProcessSheet, "short")
        assert plan is not None
        with self.register.act(WHO) as act:
            trays = (Tray(step="fix", bath=self.shelf.fix),)
            return begin_run(act, plan, sheets or self.sheets, trays, temperature_tenth_c=205)

    def run(self) -> Run:
        return runs_in_hand(self.register.read)[0].body

    def into(self, step: str, *sheets: int) -> int:
        (run,) = runs_in_hand(self.register.read)
        planned = next(one for one in PLAN.steps if one.name == step)
        with self.register.act(WHO) as act:
            return begin_step(act, run, sheets, planned)

    def out(self, step: int, **said: Any) -> int:
        with self.register.act(WHO) as act:
            return end_step(act, step, **said)

    def step(self, record: int) -> Step:
        return self.register.read.get(Step, record).body

    def standing(self, record: int) -> Standing:
        stored = self.register.read.get(Step, record)
        changed = stored.changed.local_date()
        return step_standing(Fact(stored.id, stored.version, stored.body, changed))


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Darkroom]:
    made = Darkroom(tmp_path / "studio")
    yield made
    made.register.close()


def test_overlapping_sheets_have_clocks_of_their_own(room: Darkroom) -> None:
    one, two, _three = room.sheets
    room.begin()
    first = room.into("developer", one)
    room.pass_ms(30_000)
    room.into("developer", two)
    room.pass_ms(90_000)
    assert room.out(first) == 120_000
    room.into("fix", one)
    room.pass_ms(10_000)
    (run,) = runs_in_hand(room.register.read)
    states = [one.state for one in view_run(room.register.read, run, room.time()).sheets]
    assert [state.doing and state.doing.name for state in states] == ["fix", "developer", None]
    assert [state.elapsed_ms for state in states] == [10_000, 100_000, None]
    assert [state.left_ms for state in states] == [50_000, 20_000, None]
    assert [state.next and state.next.name for state in states] == ["wash", "fix", "fix"]
    assert room.step(first).bath is None
    assert room.standing(first) == Standing.LOGGED


def test_the_boot_clock_decides_whatever_the_wall_clock_does(room: Darkroom) -> None:
    room.begin()
    step = room.into("developer", *room.sheets)
    room.pass_ms(125_000, wall_ms=-3_600_000)
    assert room.out(step) == 125_000
    assert room.step(step).note == ""


def test_after_a_restart_the_wall_clock_is_used_and_said(room: Darkroom) -> None:
    room.begin()
    step = room.into("wash", *room.sheets)
    room.pass_ms(2_000, wall_ms=300_000, boot="two")
    (run,) = runs_in_hand(room.register.read)
    view = view_run(room.register.read, run, room.time())
    assert not view.exact
    assert view.sheets[0].state.elapsed_ms == 300_000
    assert room.out(step) == 300_000
    assert "wall clock" in room.step(step).note


def test_an_end_that_nobody_saw_is_asked_for_and_not_clocked(room: Darkroom) -> None:
    room.begin()
    step = room.into("fix", *room.sheets)
    room.pass_ms(3 * 3_600_000)
    (run,) = runs_in_hand(room.register.read)
    assert len(view_run(room.register.read, run, room.time()).unseen) == 3
    assert room.out(step, stated_ms=65_000) == 65_000
    assert room.step(step).source == "notes"
    assert room.standing(step) == Standing.SAME_DAY


def test_all_as_planned_enters_what_nobody_clocked(room: Darkroom) -> None:
    one, two, three = room.sheets
    room.begin()
    step = room.into("fix", one, two)
    room.pass_ms(61_000)
    room.out(step)
    (run,) = runs_in_hand(room.register.read)
    with room.register.act(WHO) as act:
        assert finish_run(act, run.id, as_planned=True) == 3
    assert runs_in_hand(room.register.read) == []
    for held in room.sheets:
        work = sorted(room.register.read.linked(held, Step, "sheets"), key=lambda s: s.body.place)
        assert [one.body.name for one in work] == ["developer", "fix", "wash"]
    late = room.register.read.linked(three, Step, "sheets")
    assert {room.standing(one.id) for one in late} == {Standing.SAME_DAY}
    assert room.standing(step) == Standing.LOGGED


def test_a_run_is_not_finished_over_a_sheet_in_a_tray(room: Darkroom) -> None:
    run = room.begin()
    room.into("fix", room.sheets[0])
    head = room.register.read.head()
    with pytest.raises(Refused, match="still in fix"), room.register.act(WHO) as act:
        finish_run(act, run, as_planned=True)
    assert room.register.read.head() == head


def test_a_spoiled_sheet_is_out_of_the_way(room: Darkroom) -> None:
    run = room.begin()
    room.into("developer", room.sheets[0])
    room.pass_ms(5_000)
    with room.register.act(WHO) as act:
        spoil(act, room.sheets[0], "tongs went through it")
    assert room.register.read.get(Print, room.sheets[0]).body.existence == "spoiled"
    with room.register.act(WHO) as act:
        finish_run(act, run, as_planned=True)
    assert len(room.register.read.linked(room.sheets[0], Step, "sheets")) == 1


def test_taking_a_press_back_is_a_correcting_entry(room: Darkroom) -> None:
    room.begin()
    step = room.into("developer", room.sheets[0])
    with room.register.act(WHO) as act:
        act.undo(step, "the wrong key")
    (run,) = runs_in_hand(room.register.read)
    view = view_run(room.register.read, run, room.time())
    assert view.sheets[0].state.doing is None
    assert room.register.read.entry(step).verb == "enter"


def test_an_override_is_kept_with_its_reason(room: Darkroom) -> None:
    run = room.begin()
    with room.register.act(WHO) as act:
        override(act, run, "Q10", "fix", room.sheets[:1], "the last sheet of the day")
    assert room.run().overrides[0].why == "the last sheet of the day"


@pytest.mark.parametrize("twice", ["in two runs", "in one run"])
def test_a_sheet_is_in_one_run_once(room: Darkroom, twice: str) -> None:
    if twice == "in two runs":
        room.begin()
        with pytest.raises(Refused, match="still in hand"):
            room.begin(room.sheets[0])
    else:
        with pytest.raises(Refused, match="twice"):
            room.begin(room.sheets[0], room.sheets[0])


def test_a_tray_of_the_wrong_kind_is_refused_and_a_shared_one_warned_of(room: Darkroom) -> None:
    plan = room.register.read.by_code(ProcessSheet, "short")
    assert plan is not None
    wrong = (Tray(step="wash", bath=room.shelf.fix),)
    with pytest.raises(Refused, match="is for fix"), room.register.act(WHO) as act:
        begin_run(act, plan, room.sheets[:1], wrong)
    room.begin(room.sheets[0])
    right = (Tray(step="fix", bath=room.shelf.fix),)
    with room.register.act(WHO) as act:
        begin_run(act, plan, room.sheets[1:], right)
        assert any("in use by the run" in warning.what for warning in act.warnings)


def test_a_step_that_ended_does_not_end_again(room: Darkroom) -> None:
    room.begin()
    step = room.into("fix", room.sheets[0])
    room.pass_ms(1_000)
    room.out(step)
    with pytest.raises(Refused, match="ended already"):
        room.out(step)


def test_a_sheet_leaves_before_the_others_with_a_time_of_its_own(room: Darkroom) -> None:
    one, two, three = room.sheets
    room.begin()
    step = room.into("developer", one, two, three)
    room.pass_ms(75_000)
    assert room.out(step, sheets=[one]) == 75_000
    (run,) = runs_in_hand(room.register.read)
    states = [one.state for one in view_run(room.register.read, run, room.time()).sheets]
    assert [state.doing and state.doing.name for state in states] == [
        None,
        "developer",
        "developer",
    ]
    with pytest.raises(Refused, match="ended already"):
        room.out(step, sheets=[one])
    room.pass_ms(15_000)
    room.out(step)
    held = room.step(step)
    assert [held.duration_for(sheet) for sheet in room.sheets] == [75_000, 90_000, 90_000]
    assert room.standing(step) == Standing.LOGGED


def test_a_spoiled_sheet_leaves_the_others_in_the_tray(room: Darkroom) -> None:
    one, two, _three = room.sheets
    room.begin()
    room.into("developer", one, two)
    room.pass_ms(40_000)
    with room.register.act(WHO) as act:
        spoil(act, one, "torn")
    (run,) = runs_in_hand(room.register.read)
    view = view_run(room.register.read, run, room.time())
    assert [sheet.mark for sheet in view.in_hand] == ["Q2", "Q3"]
    assert view.in_hand[0].state.doing is not None


def test_a_view_goes_on_without_being_read_anew(room: Darkroom) -> None:
    room.begin()
    room.into("developer", *room.sheets)
    (run,) = runs_in_hand(room.register.read)
    view = view_run(room.register.read, run, room.time())
    room.pass_ms(31_000, wall_ms=-900_000)
    assert [sheet.state.elapsed_ms for sheet in view.at(room.time()).sheets] == [31_000] * 3


def test_a_sheet_has_an_aim_of_its_own(room: Darkroom) -> None:
    one, two, _three = room.sheets
    run = room.begin()
    room.into("developer", one, two)
    for aim in (125_000, 130_000):
        with room.register.act(WHO) as act:
            aim_at(act, run, "developer", {one: aim})
    (stored,) = runs_in_hand(room.register.read)
    view = view_run(room.register.read, stored, room.time())
    assert [sheet.state.aim_ms for sheet in view.sheets[:2]] == [130_000, 120_000]
    assert view.aim_for(PLAN.steps[1], two) == 60_000
    with pytest.raises(Refused, match="not in this run"), room.register.act(WHO) as act:
        aim_at(act, run, "developer", {room.shelf.fix: 1_000})


def test_presses_are_taken_back_one_after_another(room: Darkroom) -> None:
    one = room.sheets[0]
    run = room.begin()
    acts = []
    for aim in (125_000, 130_000, 135_000):
        with room.register.act(WHO) as act:
            aim_at(act, run, "developer", {one: aim})
            acts.append(act.number)
    for aim, number in zip((130_000, 125_000, None), reversed(acts), strict=True):
        with room.register.act(WHO) as act:
            act.undo(number, "the wrong key")
        assert room.run().aim_for("developer", one) == aim
    with pytest.raises(Conflict, match="was taken back already"), room.register.act(WHO) as act:
        act.undo(acts[0], "again")


def test_water_between_the_steps_leaves_the_sheet_where_it_was_in_the_plan(room: Darkroom) -> None:
    room.begin()
    room.out(room.into("developer", *room.sheets))
    (run,) = runs_in_hand(room.register.read)
    with room.register.act(WHO) as act:
        begin_step(act, run, room.sheets, PlannedStep(name="water", role="rinse"))
    view = view_run(room.register.read, run, room.time())
    state = view.sheets[0].state
    assert state.doing is not None
    assert state.doing.name == "water"
    assert state.next is not None
    assert state.next.name == "fix"


def test_a_run_that_is_given_up_keeps_what_was_clocked_and_frees_its_sheets(
    room: Darkroom,
) -> None:
    run, (first, second, third) = room.begin(), room.sheets
    done = room.into("developer", first)
    room.pass_ms(120_000)
    room.out(done)
    open_step = room.into("developer", second, third)
    with room.register.act(WHO) as act:
        assert give_up(act, run) == 2
    assert room.step(done).duration_ms == 120_000
    left = room.step(open_step)
    assert left.duration_ms is None
    assert "given up" in left.note
    assert runs_in_hand(room.register.read) == []
    room.begin(second)


def test_an_explanation_stands_beside_the_reason_that_was_chosen(room: Darkroom) -> None:
    run, sheets = room.begin(), room.sheets
    for finding in ("Q2", "Q14"):
        with room.register.act(WHO) as act:
            override(act, run, finding, "fix", sheets[:1], "a trial sheet")
    with room.register.act(WHO) as act:
        explain(act, run, {1: "  the stop was plain water "})
    said = [(one.why, one.explained) for one in room.run().overrides]
    assert said == [("a trial sheet", ""), ("a trial sheet", "the stop was plain water")]


def test_a_fix_that_nobody_ended_before_a_run_was_given_up_fixed_nothing(room: Darkroom) -> None:
    run, (first, second, _third) = room.begin(), room.sheets
    ended, left = room.into("fix", first), room.into("fix", second)
    room.pass_ms(60_000)
    room.out(ended)
    with room.register.act(WHO) as act:
        give_up(act, run)
    room.begin()
    (anew,) = runs_in_hand(room.register.read)
    assert left
    assert unfixed(room.register.read, anew) == set(room.sheets) - {first}


@pytest.mark.parametrize(("exact_ms", "told_ms"), [(74_499, 74_000), (89_410, 89_000), (300, 1000)])
def test_what_keys_timed_is_told_to_the_second(room: Darkroom, exact_ms: int, told_ms: int) -> None:
    (first, *_) = room.sheets
    room.begin()
    step = room.into("developer", first)
    room.pass_ms(exact_ms)
    room.out(step)
    assert (room.step(step).duration_for(first), room.step(step).told_ms(first)) == (
        exact_ms,
        told_ms,
    )


def test_what_was_written_down_is_told_as_it_was_written(room: Darkroom) -> None:
    step = Step(role="fix", sheets=(1,), done_on="2031-03-14", place=1, duration_ms=62_500)
    assert step.told_ms(1) == 62_500
