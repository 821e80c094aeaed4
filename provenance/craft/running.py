"""A run at the trays: where each sheet is, what it goes into next, who needs a hand first.

Pure: the plan, what was begun and ended so far, and the time now are given as
values; the clock belongs to whoever calls.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from provenance.model.process import PlannedStep, ProcessSheet

BOUNCE_MS = 300
"""Two presses on one sheet closer than this are one press of a bouncing key."""
JUST_LIFTED_MS = 60_000
"""A sheet that left a tray so lately hangs from the tongs, and goes into the next one first."""
DRAIN_MS = 10_000
"""How long before its aim a sheet is lifted to drain: common practice."""


@dataclass(frozen=True)
class Begun:
    """A step that was begun for some sheets, and ended where `duration_ms` is set."""

    record: int
    name: str
    sheets: frozenset[int]
    started_ms: int
    """When it began, on the clock that `now_ms` is read from."""
    exact: bool = True
    """Whether that clock ran on since; False after a restart of the machine."""
    duration_ms: int | None = None
    aim_ms: int | None = None
    """The aim, where it was changed for this step."""


@dataclass(frozen=True)
class SheetState:
    """Where one sheet is."""

    sheet: int
    doing: Begun | None
    planned: PlannedStep | None
    """What the plan says of the step it is in, or goes into next."""
    next: PlannedStep | None
    """The planned step after that."""
    elapsed_ms: int | None
    aim_ms: int | None
    last: Begun | None = None
    """The step that it left last, when it is in none."""
    out_ms: int | None = None
    """How long ago it left that step."""

    @property
    def left_ms(self) -> int | None:
        """How long until the aim; negative when it is past; None without an aim or a step."""
        if self.elapsed_ms is None or self.aim_ms is None:
            return None
        return self.aim_ms - self.elapsed_ms

    @property
    def drain(self) -> bool:
        """Whether it is time to lift the sheet and let it drain."""
        left = self.left_ms
        return left is not None and 0 < left <= DRAIN_MS


def baths_of(plan: ProcessSheet) -> tuple[PlannedStep, ...]:
    """The steps of a plan that a sheet goes into; tests are made apart."""
    return tuple(step for step in plan.steps if step.role is not None)


def state_of(plan: ProcessSheet, sheet: int, begun: Sequence[Begun], now_ms: int) -> SheetState:
    """Where `sheet` is, by what was begun so far in order; `now_ms` is the time on its clock."""
    own = [one for one in begun if sheet in one.sheets]
    doing = next((one for one in reversed(own) if one.duration_ms is None), None)
    steps = baths_of(plan)
    names = [step.name for step in steps]
    # a step outside the plan leaves the sheet where it was
    at = max((names.index(one.name) for one in own if one.name in names), default=-1)
    here = _nth(steps, names.index(doing.name)) if doing and doing.name in names else None
    if doing is None:
        last = own[-1] if own else None
        out_ms = now_ms - last.started_ms - (last.duration_ms or 0) if last else None
        ahead = _nth(steps, at + 1), _nth(steps, at + 2)
        return SheetState(sheet, None, *ahead, None, None, last, out_ms)
    planned_aim = here.aim.time_ms if here and here.aim else None
    return SheetState(
        sheet,
        doing,
        here,
        _nth(steps, at + 1),
        max(0, now_ms - doing.started_ms),
        doing.aim_ms if doing.aim_ms is not None else planned_aim,
    )


def _nth(steps: tuple[PlannedStep, ...], place: int) -> PlannedStep | None:
    return steps[place] if 0 <= place < len(steps) else None


def most_urgent(states: Sequence[SheetState]) -> SheetState | None:
    """The sheet that needs a hand next: one just lifted, else the nearest to its aim or past it."""
    lifted = [
        (state.out_ms, -state.sheet, state)
        for state in states
        if state.out_ms is not None and just_lifted(state)
    ]
    if lifted:
        return max(lifted)[2]
    timed = [state for state in states if state.left_ms is not None]
    if timed:
        return min(timed, key=lambda state: (state.left_ms or 0, state.sheet))
    return next((state for state in states if state.doing is not None), None)


def just_lifted(state: SheetState) -> bool:
    """Whether the sheet hangs between two trays."""
    waits = state.doing is None and state.planned is not None
    return waits and state.out_ms is not None and state.out_ms <= JUST_LIFTED_MS


def together(states: Sequence[SheetState], one: SheetState) -> tuple[SheetState, ...]:
    """The sheets that go with `one`: in the same step until the same aim, or last lifted with it.

    A sheet that has not begun goes alone.
    """
    if one.doing is None and one.last is None:
        return (one,)
    return tuple(
        state
        for state in states
        if (state.doing is None) == (one.doing is None)
        and (state.doing or state.last) is not None
        and _moved(state) == _moved(one)
        and state.planned == one.planned
        and state.aim_ms == one.aim_ms
    )


def _moved(state: SheetState) -> int:
    step = state.doing or state.last
    return step.record if step else 0


def unclocked(plan: ProcessSheet, sheet: int, begun: Sequence[Begun]) -> tuple[PlannedStep, ...]:
    """The planned baths that nobody clocked for `sheet`."""
    clocked = {one.name for one in begun if sheet in one.sheets}
    return tuple(step for step in baths_of(plan) if step.name not in clocked)


def bounced(last_press_ms: int | None, now_ms: int) -> bool:
    """Whether a press is only the key bouncing."""
    return last_press_ms is not None and 0 <= now_ms - last_press_ms < BOUNCE_MS
