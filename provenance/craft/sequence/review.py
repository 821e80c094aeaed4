"""Judges a plan, a history, and the step that is about to be done."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

import msgspec

from provenance.craft.hazards.tables import Hazards
from provenance.craft.history import Fact, PrintHistory, work_order
from provenance.craft.sequence.deeds import Load, Sequence
from provenance.craft.sequence.finding import LEVELS, Fault, Finding
from provenance.craft.sequence.fixing import fixing_faults
from provenance.craft.sequence.meeting import meeting_faults, water_faults
from provenance.craft.sequence.reading import of_history, of_plan
from provenance.craft.sequence.testing import made_test_faults, planned_test_faults
from provenance.craft.sequence.texts import Rules
from provenance.craft.sequence.toning import toning_faults
from provenance.model.chemistry import Bath, Role
from provenance.model.dates import earliest
from provenance.model.printing import Step
from provenance.model.process import ProcessSheet
from provenance.model.proof import Test

_ORDER = list(LEVELS)


@dataclass(frozen=True)
class Ground:
    """What sequences are judged by: the texts of the rules, and the tables of hazards."""

    rules: Rules
    hazards: Hazards


def review_plan(
    process: ProcessSheet, ground: Ground, *, holds: Mapping[str, Collection[str]] | None = None
) -> tuple[Finding, ...]:
    """What the rules find in a process sheet, the gravest first."""
    sequence = of_plan(process, holds)
    return _told([*_faults(sequence, ground), *planned_test_faults(sequence)], ground)


def review(
    history: PrintHistory,
    ground: Ground,
    *,
    loads: Mapping[int, Load] | None = None,
    holds: Mapping[int, Collection[str]] | None = None,
) -> tuple[Finding, ...]:
    """What the rules find in what a print went through, the gravest first."""
    return _told(_in_history(history, ground, loads, holds), ground)


def about_to(
    history: PrintHistory,
    work: Step | Test,
    ground: Ground,
    *,
    bath: Bath | None = None,
    coming: tuple[Role, ...] = (),
    loads: Mapping[int, Load] | None = None,
    holds: Mapping[int, Collection[str]] | None = None,
) -> tuple[Finding, ...]:
    """What the rules would find when `work` were done next, and do not find already.

    `bath` is the one that a step names, `coming` the baths planned to follow,
    so that a bleach that reduces is told from one that tones.
    """
    # a bleach that was told of when it came next is known for what it is by now
    follows = (work.role,) if isinstance(work, Step) else ()
    before = _in_history(
        history, ground, loads, holds, going_on=True, coming=follows, is_next=bool(history.steps)
    )
    after = _in_history(
        _done_next(history, work, bath),
        ground,
        loads,
        holds,
        going_on=True,
        coming=coming,
        is_next=isinstance(work, Step),
    )
    known = {_mark(fault) for fault in before}
    return _told([fault for fault in after if _mark(fault) not in known], ground)


def _in_history(
    history: PrintHistory,
    ground: Ground,
    loads: Mapping[int, Load] | None,
    holds: Mapping[int, Collection[str]] | None,
    *,
    going_on: bool = False,
    coming: tuple[Role, ...] = (),
    is_next: bool = False,
) -> list[Fault]:
    sequence = of_history(history, loads=loads, holds=holds)
    if going_on:
        last = sequence.deeds[-1] if is_next else None
        sequence = replace(sequence, finished=False, coming=coming, next=last)
    return [*_faults(sequence, ground), *made_test_faults(sequence, history)]


def _faults(sequence: Sequence, ground: Ground) -> Iterator[Fault]:
    yield from fixing_faults(sequence, ground.rules)
    yield from toning_faults(sequence)
    yield from meeting_faults(sequence, ground.rules, ground.hazards)
    yield from water_faults(sequence, ground.rules)


def _mark(fault: Fault) -> tuple[object, ...]:
    """What makes two faults the same, whatever the words of a time that has grown."""
    ends = fault.deeds[:1] + fault.deeds[-1:]
    return fault.case, ends, fault.asked


def _told(faults: list[Fault], ground: Ground) -> tuple[Finding, ...]:
    findings = dict.fromkeys(ground.rules.tell(fault) for fault in faults)
    return tuple(sorted(findings, key=lambda one: _ORDER.index(one.level)))


def _done_next(history: PrintHistory, work: Step | Test, bath: Bath | None) -> PrintHistory:
    """`history` with `work` at its end."""
    known = [step.body.place for step in history.steps] + [
        test.body.place for test in history.tests
    ]
    placed = msgspec.structs.replace(work, place=max(known, default=0) + 1)
    entered_on = earliest(placed.done_on)
    if isinstance(placed, Test):
        tests = [*history.tests, Fact(0, 0, placed, entered_on)]
        return replace(history, tests=tuple(sorted(tests, key=work_order)))
    baths = history.baths
    if bath is not None and placed.bath is not None and history.bath(placed.bath) is None:
        baths = (*baths, Fact(placed.bath, 0, bath, entered_on))
    steps = (*history.steps, Fact(0, 0, placed, entered_on))
    return replace(history, steps=steps, baths=baths)
