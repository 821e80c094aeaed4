"""What the rules of the trade find in the work that a day sheet enters, as warnings."""

from collections.abc import Iterator
from dataclasses import replace

from provenance.craft.history import PrintHistory
from provenance.craft.sequence.finding import LEVELS, Finding
from provenance.craft.sequence.review import Ground, review
from provenance.errors import Problem
from provenance.model.printing import Step
from provenance.model.process import ProcessSheet
from provenance.model.proof import Test
from provenance.records.dossier import print_history
from provenance.studio.calling import names_of
from provenance.studio.daysheet.context import Context, Item
from provenance.studio.sequences import bath_contents, bath_loads, load_ground, plan_findings

_SAID_OF_THE_BATH = frozenset({"Q10.silver", "Q10.sheets"})
"""Cases that the sheet warns of once for the bath, not for each print."""


def warn_of_plan(item: Item, process: ProcessSheet) -> None:
    """Warn of what the rules find in the process sheet that an item follows."""
    for finding in plan_findings(item.context.folder, process):
        item.context.warnings.append(item.placed(told(finding, process.code, "process")))


def warn_of_findings(context: Context) -> None:
    """Warn of what the work of the sheet brought about, once for all the prints alike."""
    alike: dict[tuple[str, str], tuple[Finding, list[int]]] = {}
    ground: Ground | None = None
    for sheet in dict.fromkeys(_sheets(context)):
        ground = ground or load_ground(context.folder)
        for finding in _brought_about(context, ground, sheet):
            key = finding.case, finding.what
            alike.setdefault(key, (finding, []))[1].append(sheet)
    for finding, sheets in alike.values():
        problem = told(finding, ", ".join(names_of(context.act, sheets)))
        places = [context.written[one] for one in finding.evidence if one in context.written]
        if places:
            with context.item(*places[-1]) as item:
                problem = item.placed(problem)
        context.warnings.append(problem)


def told(finding: Finding, record: str, field: str = "") -> Problem:
    """A finding as a warning of `record`."""
    why = finding.why[:1].lower() + finding.why[1:].rstrip(".")
    return Problem(
        what=f"{finding.rule}, {LEVELS[finding.level]}: {finding.what}; {why}",
        record=record,
        field=field,
        mend=finding.do.rstrip("."),
    )


def _sheets(context: Context) -> Iterator[int]:
    for record in context.written:
        stored = context.act.find(record)
        if stored is not None and isinstance(stored.body, Step):
            yield from stored.body.sheets
        elif stored is not None and isinstance(stored.body, Test):
            yield from stored.body.covers


def _brought_about(context: Context, ground: Ground, sheet: int) -> Iterator[Finding]:
    """What is found with the work of this sheet and was not found without it."""
    history = print_history(context.act, sheet)
    before = _found(context, ground, _without(history, context))
    known = {(one.case, one.what) for one in before}
    for finding in _found(context, ground, history):
        if (finding.case, finding.what) not in known and finding.case not in _SAID_OF_THE_BATH:
            yield finding


def _found(context: Context, ground: Ground, history: PrintHistory) -> tuple[Finding, ...]:
    # that a bath for one use was used before, the register said when the step was entered
    loads = {
        bath: replace(load, earlier_uses=None)
        for bath, load in bath_loads(context.act, history, context.settings).items()
    }
    holds = bath_contents(context.act, history)
    return review(history, ground, loads=loads, holds=holds)


def _without(history: PrintHistory, context: Context) -> PrintHistory:
    return replace(
        history,
        steps=tuple(step for step in history.steps if step.id not in context.written),
        tests=tuple(test for test in history.tests if test.id not in context.written),
    )
