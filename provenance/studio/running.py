"""A run at the trays, as it is carried out: every press is on disk before the clock shows it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from dataclasses import replace as replaced
from datetime import timedelta

from msgspec.structs import replace

from provenance.craft.running import Begun, SheetState, baths_of, state_of, unclocked
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.edition import Edition
from provenance.model.printing import OwnTime, Step
from provenance.model.prints import Print
from provenance.model.process import PlannedStep, ProcessSheet, Question
from provenance.model.proof import Test
from provenance.model.run import Override, OwnAim, Run, Tray
from provenance.records.act import Act
from provenance.records.clock import Moment, elapsed_ms
from provenance.records.reader import Reader, Stored
from provenance.studio.printing import placed

LOST_AFTER_MS = 30 * 60_000
"""A step this far past its aim was most likely ended without a key: its end is asked for."""


@dataclass(frozen=True)
class RunSheet:
    """One sheet of a run, with where it is."""

    print: Stored[Print]
    name: str
    state: SheetState

    @property
    def mark(self) -> str:
        """The pencil mark on its back."""
        return self.print.body.mark


@dataclass(frozen=True)
class RunView:
    """A run as it stands at one moment."""

    run: Stored[Run]
    plan: ProcessSheet
    sheets: tuple[RunSheet, ...]
    baths: dict[int, Bath]
    begun: tuple[Begun, ...]
    """What was begun, on a clock that is 0 at the moment `read_at`."""
    read_at: Moment
    tested: frozenset[tuple[int, Question]] = frozenset()
    """Which sheets were asked which question since the run began."""

    def owed_test(self, sheet: RunSheet) -> PlannedStep | None:
        """The test that the plan wants before the step that `sheet` goes into next, if it owes it.

        A sheet that has not begun owes none: plans begin with a bath.
        """
        state, steps = sheet.state, self.plan.steps
        if state.doing is None and state.last is None:
            return None
        ahead = state.next if state.doing is not None else state.planned
        at = steps.index(ahead) if ahead in steps else len(steps)
        before = steps[at - 1] if at else None
        if before is None or before.test is None:
            return None
        return None if (sheet.print.id, before.test) in self.tested else before

    @property
    def unseen(self) -> tuple[RunSheet, ...]:
        """Sheets whose step most likely ended while nobody was looking."""
        return tuple(one for one in self.sheets if _unseen(one.state))

    @property
    def exact(self) -> bool:
        """Whether every clock shown is exact; False after a restart of the machine."""
        return all(one.exact for one in self.begun if one.duration_ms is None)

    @property
    def in_hand(self) -> tuple[RunSheet, ...]:
        """The sheets that were not spoiled."""
        return tuple(one for one in self.sheets if one.print.body.existence == "exists")

    def at(self, now: Moment) -> "RunView":
        """The same run a little later, without reading it anew."""
        gone_ms, _exact = elapsed_ms(self.read_at, now)
        sheets = tuple(
            replaced(one, state=state_of(self.plan, one.print.id, self.begun, gone_ms))
            for one in self.sheets
        )
        return replaced(self, sheets=sheets)

    def aim_for(self, step: PlannedStep, sheet: int) -> int | None:
        """What `sheet` aims at in a step, in ms: its own aim, else the plan's."""
        own = self.run.body.aim_for(step.name, sheet)
        return own if own is not None else step.aim.time_ms if step.aim else None


def begin_run(
    act: Act,
    process: Stored[ProcessSheet],
    sheets: Sequence[int],
    trays: Sequence[Tray],
    *,
    temperature_tenth_c: int | None = None,
) -> int:
    """Take sheets in hand; returns the id of the run."""
    return act.enter(
        Run(
            process=process.id,
            sheets=tuple(sheets),
            trays=tuple(trays),
            began_on=str(act.moment.local_date()),
            temperature_tenth_c=temperature_tenth_c,
        )
    )


def view_run(reader: Reader, run: Stored[Run], now: Moment) -> RunView:
    """Where every sheet of a run is at the moment `now`."""
    plan = reader.get(ProcessSheet, run.body.process).body
    begun = tuple(_begun(reader, run, now))
    sheets = tuple(
        _sheet(reader, sheet, state_of(plan, sheet, begun, 0)) for sheet in run.body.sheets
    )
    return RunView(
        run=run,
        plan=plan,
        sheets=sheets,
        baths={bath: reader.get(Bath, bath).body for bath in run.body.baths},
        begun=begun,
        read_at=now,
        tested=frozenset(
            (sheet, test.body.question)
            for sheet in run.body.sheets
            for test in reader.linked(sheet, Test, "covers")
            if test.id > run.id
        ),
    )


def _begun(reader: Reader, run: Stored[Run], now: Moment) -> list[Begun]:
    """The steps of a run, sheet by sheet; they begin so many ms before 0, which is now."""
    found: list[Begun] = []
    for step in reader.linked(run.id, Step, "run"):
        elapsed, exact = elapsed_ms(step.entered, now)
        found += [
            Begun(
                record=step.id,
                name=step.body.name,
                sheets=frozenset({sheet}),
                started_ms=-elapsed,
                exact=exact,
                duration_ms=step.body.duration_for(sheet),
                aim_ms=run.body.aim_for(step.body.name, sheet),
            )
            for sheet in step.body.sheets
        ]
    return found


def _sheet(reader: Reader, sheet: int, state: SheetState) -> RunSheet:
    held = reader.get(Print, sheet)
    edition = reader.get(Edition, held.body.edition).body.code
    return RunSheet(held, f"{edition} {held.body.mark}", state)


def _unseen(state: SheetState) -> bool:
    left = state.left_ms
    return left is not None and left < -LOST_AFTER_MS


def begin_step(act: Act, run: Stored[Run], sheets: Sequence[int], planned: PlannedStep) -> int:
    """`sheets` go into the bath of a planned step now; returns the step's id."""
    if planned.role is None:
        raise Refused(
            Problem(
                f"{planned.name} is a test, not a bath", field="step", mend="record it as a test"
            )
        )
    local = act.moment.utc() + timedelta(minutes=act.moment.offset_min)
    plan = act.get(ProcessSheet, run.body.process).body
    done_on = str(act.moment.local_date())
    (after,) = (one.place for one in placed(act, [_blank(sheets, planned.role, done_on)]))
    step = Step(
        role=planned.role,
        name=planned.name,
        sheets=tuple(sheets),
        bath=run.body.bath_for(planned.name),
        agent=planned.agent,
        done_on=done_on,
        place=max(after, _planned_place(act, run, plan, planned, done_on)),
        started=local.strftime("%H:%M:%S"),
        temperature_tenth_c=run.body.temperature_tenth_c,
        source="run",
        run=run.id,
    )
    return act.enter(step)


def _blank(sheets: Sequence[int], role: Role, done_on: str) -> Step:
    return Step(role=role, sheets=tuple(sheets), done_on=done_on, place=0)


def _planned_place(
    reader: Reader, run: Stored[Run], plan: ProcessSheet, planned: PlannedStep, done_on: str
) -> int:
    """Where a planned step stands within its day: ten apart, after the work before the run.

    The gaps leave room for tests, and for baths that are only entered at the end.
    """
    before = 0
    names = [step.name for step in plan.steps]
    if planned.name not in names:
        return before
    for sheet in run.body.sheets:
        steps, tests = reader.linked(sheet, Step, "sheets"), reader.linked(sheet, Test, "covers")
        earlier = [(one.id, one.body.place, one.body.done_on) for one in steps]
        earlier += [(one.id, one.body.place, one.body.done_on) for one in tests]
        places = [place for record, place, day in earlier if record < run.id and day == done_on]
        before = max([before, *places])
    return before + 10 * (1 + names.index(planned.name))


def end_step(
    act: Act, step: int, *, sheets: Sequence[int] = (), stated_ms: int | None = None
) -> int:
    """The sheets of a step, or only `sheets`, are lifted out now; returns how long it was, in ms.

    A sheet that leaves before the others gets a time of its own.  `stated_ms` is
    what a person says of an end that nobody clocked: the step is then known from
    notes, no longer from the clock.  After a restart of the machine the wall
    clock is all there is, and the step says so.
    """
    stored = act.get(Step, step)
    inside = [sheet for sheet in stored.body.sheets if stored.body.duration_for(sheet) is None]
    leaving = [sheet for sheet in inside if not sheets or sheet in sheets]
    if not leaving:
        raise Refused(Problem("it has ended already", f"step #{step}", mend="begin the next one"))
    elapsed, exact = elapsed_ms(stored.entered, act.moment)
    duration = max(1, elapsed) if stated_ms is None else stated_ms
    body = stored.body
    if stated_ms is not None:
        body = _noted(replace(body, source="notes"), "its end was not clocked")
    elif not exact:
        body = _noted(body, "timed by the wall clock, over a restart of the machine")
    if len(leaving) == len(inside):
        body = replace(body, duration_ms=duration)
    else:
        own = (OwnTime(sheet=sheet, duration_ms=duration) for sheet in leaving)
        body = replace(body, own=(*body.own, *own))
    act.change(step, stored.version, body)
    return duration


def _noted(step: Step, note: str) -> Step:
    notes = [one for one in (step.note, note) if one]
    return step if note in step.note else replace(step, note="; ".join(notes))


def aim_at(act: Act, run: int, step: str, aims_ms: Mapping[int, int]) -> None:
    """Change what sheets aim at in a step: by the id of the sheet, in ms."""
    stored = act.get(Run, run)
    others = (one for one in stored.body.aims if one.step != step or one.sheet not in aims_ms)
    own = (OwnAim(step=step, sheet=sheet, aim_ms=aim) for sheet, aim in aims_ms.items())
    act.change(run, stored.version, replace(stored.body, aims=(*others, *own)))


def spoil(act: Act, sheet: int, why: str) -> None:
    """A sheet is lost in the trays: its step ends, and it is out of the run's way."""
    for step in act.linked(sheet, Step, "sheets"):
        if step.body.run is not None and step.body.duration_for(sheet) is None:
            end_step(act, step.id, sheets=(sheet,))
    held = act.get(Print, sheet)
    act.change(
        sheet,
        held.version,
        replace(held.body, existence="spoiled", gone_on=str(act.moment.local_date()), gone_why=why),
    )


def override(
    act: Act, run: int, finding: str, step: str, sheets: Sequence[int], why: str, what: str = ""
) -> None:
    """Go on in spite of a finding, which told `what` was found, and say why."""
    stored = act.get(Run, run)
    added = Override(finding=finding, step=step, sheets=tuple(sheets), why=why, what=what)
    act.change(run, stored.version, replace(stored.body, overrides=(*stored.body.overrides, added)))


def explain(
    act: Act, run: int, explained: Mapping[int, str], done: Mapping[int, bool] | None = None
) -> None:
    """Say more of what was overridden: by its place in the run's list; the reason chosen stays.

    `done` says of which the missing step had been done after all.
    """
    stored = act.get(Run, run)
    overrides = tuple(
        replace(
            one,
            explained=explained.get(place, one.explained).strip(),
            done=(done or {}).get(place, one.done),
        )
        for place, one in enumerate(stored.body.overrides)
    )
    act.change(run, stored.version, replace(stored.body, overrides=overrides))


def give_up(act: Act, run: int) -> int:
    """Break a run off; returns how many sheets were left in a tray.

    What was clocked stays on record.  A step that nobody ended keeps no time,
    and says why; its sheets are free for another run.
    """
    left = 0
    for step in act.linked(run, Step, "run"):
        inside = [one for one in step.body.sheets if step.body.duration_for(one) is None]
        if inside:
            left += len(inside)
            noted = _noted(step.body, "the run was given up before it ended")
            act.change(step.id, step.version, noted)
    stored = act.get(Run, run)
    act.change(run, stored.version, replace(stored.body, state="given up"))
    return left


def finish_run(act: Act, run: int, *, as_planned: bool) -> int:
    """End a run; returns how many steps were added.

    With `as_planned` the baths that nobody clocked are entered with their aims,
    from the same day's notes: the printer has just said that they went so.
    Raises Refused while a sheet is still in a tray.
    """
    stored = act.get(Run, run)
    plan = act.get(ProcessSheet, stored.body.process).body
    begun = _begun(act, stored, act.moment)
    still = [one for one in begun if one.duration_ms is None]
    if still:
        raise Refused(
            Problem(
                f"a sheet is still in {still[0].name}",
                f"run #{run}",
                mend="end that step first, or say how long it was",
            )
        )
    added = _as_planned(act, stored, plan, begun) if as_planned else []
    for step in added:
        act.enter(step)
    present = act.get(Run, run)
    act.change(run, present.version, replace(present.body, state="finished"))
    return len(added)


def _as_planned(
    act: Act, run: Stored[Run], plan: ProcessSheet, begun: Sequence[Begun]
) -> list[Step]:
    """The baths that nobody clocked, gathered for the sheets that lack the same ones."""
    lacking: dict[str, list[int]] = {}
    for sheet in run.body.sheets:
        if act.get(Print, sheet).body.existence == "exists":
            for step in unclocked(plan, sheet, begun):
                lacking.setdefault(step.name, []).append(sheet)
    return [
        Step(
            role=planned.role,
            name=planned.name,
            sheets=tuple(lacking[planned.name]),
            bath=run.body.bath_for(planned.name),
            agent=planned.agent,
            done_on=run.body.began_on,
            place=_planned_place(act, run, plan, planned, run.body.began_on),
            duration_ms=planned.aim.time_ms if planned.aim else None,
            temperature_tenth_c=run.body.temperature_tenth_c,
            source="notes",
            run=run.id,
        )
        for planned in baths_of(plan)
        if planned.name in lacking and planned.role is not None
    ]
