"""What can be chosen at the trays by a digit: reasons, other steps, what a step was."""

from collections.abc import Sequence
from dataclasses import dataclass

from provenance.craft.overriding import MISSED
from provenance.craft.running import baths_of, unclocked
from provenance.craft.sequence.finding import Finding
from provenance.model.process import PlannedStep
from provenance.model.run import DONE_UNCLOCKED
from provenance.studio.running import RunSheet, RunView

WATER = PlannedStep(name="water", role="rinse", note="held between two steps")
"""A tray of water that no plan needs to name: sheets wait in it for the others."""

OVERRIDES = (
    "this paper and these baths were tested so",
    "meant so: it is part of how the print shall look",
    "a trial sheet that will not be kept",
    DONE_UNCLOCKED,
    "accepted for today; it is explained after drying",
)
"""Why a printer goes on in spite of a finding."""

SPOILED = (
    "creased or torn",
    "marks of tongs or fingers",
    "stained",
    "fogged",
    "exposed or developed wrongly",
    "dust, a hair or a scratch in the picture",
    "lost",
)
"""Why a sheet is given up at the trays."""


@dataclass(frozen=True)
class Way:
    """Where sheets can go instead of into the next step of the plan."""

    said: str
    step: PlannedStep | None
    """None where the run ends."""
    gives_up: bool = False
    """Whether it ends unfinished."""


def ways(view: RunView, sheets: Sequence[RunSheet]) -> list[Way]:
    """The next step first, then water, the rest of the plan, what was before; then the ends."""
    steps = list(view.plan.steps)
    at = _place(view, sheets)
    ordered = [*steps[at : at + 1], WATER, *steps[at + 1 :], *steps[:at]]
    found = [Way(_said(view, step, sheets), step) for step in ordered]
    if all(one.state.doing is None for one in view.in_hand):
        found.append(Way("end the run", None))
    found.append(Way("give the run up", None, gives_up=True))
    return found


def _place(view: RunView, sheets: Sequence[RunSheet]) -> int:
    """Where the plan goes on for the first of the sheets; a test before it comes first."""
    steps = view.plan.steps
    state = sheets[0].state if sheets else None
    ahead = (state.next if state.doing else state.planned) if state else None
    at = steps.index(ahead) if ahead in steps else len(steps)
    while at > 0 and steps[at - 1].test is not None:
        at -= 1
    return at


def _said(view: RunView, step: PlannedStep, sheets: Sequence[RunSheet]) -> str:
    if step.test is not None:
        return f"{step.name}: what it showed"
    own = {one.print.id for one in sheets}
    inside = [
        one.mark
        for one in view.in_hand
        if one.state.doing is not None
        and one.state.doing.name == step.name
        and one.print.id not in own
    ]
    if inside:
        return f"{step.name}, beside {', '.join(inside)}"
    done = {one.name for one in view.begun if one.sheets & own}
    return f"{step.name}, once more" if step.name in done else step.name


def nobody_clocked(view: RunView) -> list[str]:
    """The names of the planned baths that some sheet in hand was not clocked in."""
    lacking = {
        step.name for one in view.in_hand for step in unclocked(view.plan, one.print.id, view.begun)
    }
    return [step.name for step in baths_of(view.plan) if step.name in lacking]


def missed_all_the_same(view: RunView) -> str:
    """What *all as planned* cannot make good; empty where nothing was missed at the trays."""
    overrides = view.run.body.overrides
    missed = [one.step for one in overrides if one.finding in MISSED and not one.says_done]
    if not missed:
        return ""
    return (
        f"Before {', '.join(dict.fromkeys(missed))} the work went on without a wash: one that is"
        " entered now counts there only when it is explained, after drying, that it was done."
    )


def errors_in(findings: Sequence[Finding]) -> list[Finding]:
    """The findings that a reason is asked for."""
    return [one for one in findings if one.level == "E"]
