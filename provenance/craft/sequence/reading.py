"""Reads a plan or a print's history as a sequence."""

from collections.abc import Collection, Mapping
from datetime import date

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.proof import judge
from provenance.craft.sequence.deeds import Asked, Deed, Load, Sequence, When
from provenance.craft.sequence.testing import QUESTIONS
from provenance.craft.standing import step_standing
from provenance.model.chemistry import Role
from provenance.model.dates import earliest, latest
from provenance.model.evidence import Standing
from provenance.model.printing import Step
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.proof import Test

_KEPT = frozenset({Standing.LOGGED, Standing.SAME_DAY})


def of_plan(process: ProcessSheet, holds: Mapping[str, Collection[str]] | None = None) -> Sequence:
    """A process sheet as a sequence; a step lasts from its least to its longest.

    `holds` gives the substances of the baths of steps, by name, where known.
    """
    known = holds or {}
    placed = [(step, When(date.min, date.min, place)) for place, step in enumerate(process.steps)]
    return Sequence(
        deeds=tuple(
            _planned(step, step.role, when, known) for step, when in placed if step.role is not None
        ),
        asked=tuple(
            Asked(step.test, when, step.name) for step, when in placed if step.test is not None
        ),
        base=process.base,
        planned=True,
        finished=True,
    )


def _planned(
    step: PlannedStep, role: Role, when: When, holds: Mapping[str, Collection[str]]
) -> Deed:
    aim = step.aim
    return Deed(
        name=step.name,
        role=role,
        when=when,
        least_ms=None if aim is None else aim.least_ms if aim.least_ms is not None else aim.time_ms,
        most_ms=None
        if aim is None
        else aim.longest_ms
        if aim.longest_ms is not None
        else aim.time_ms,
        temperature_tenth_c=step.temperature_tenth_c,
        words=step.agent.casefold(),
        holds=frozenset(holds[step.name]) if step.name in holds else None,
    )


def of_history(
    history: PrintHistory,
    *,
    loads: Mapping[int, Load] | None = None,
    holds: Mapping[int, Collection[str]] | None = None,
) -> Sequence:
    """What a print went through; `loads` and `holds` are by the ids of the baths.

    The work is over when the print has a number or a signature, or when its
    thiosulfate, which is tested last of all, was tested after the last bath.
    """
    known = holds or {}
    deeds = tuple(_done(history, fact, known) for fact in history.steps)
    asked = tuple(
        Asked(fact.body.question, _when(fact), f"{fact.body.question} test", fact.id)
        for fact in history.tests
    )
    body = history.print.body
    judged = {question: judge(history, question).passed for question in QUESTIONS}
    paper = history.paper.body if history.paper is not None else None
    return Sequence(
        deeds=deeds,
        asked=asked,
        base=paper.base if paper is not None else None,
        thin=paper is not None and "single" in paper.weight.casefold(),
        finished=body.designation is not None
        or body.signature is not None
        or any(
            one.question == "thiosulfate" and all(deed.when.before(one.when) for deed in deeds)
            for one in asked
        ),
        passed={question: test.id for question, test in judged.items() if test is not None},
        loads=loads or {},
    )


def _done(history: PrintHistory, fact: Fact[Step], holds: Mapping[int, Collection[str]]) -> Deed:
    body, bath = fact.body, history.bath(fact.body.bath)
    duration = body.duration_for(history.print.id)
    inside = holds.get(body.bath) if body.bath is not None else None
    return Deed(
        name=body.name or body.role,
        role=body.role,
        when=_when(fact),
        least_ms=duration,
        most_ms=duration,
        temperature_tenth_c=body.temperature_tenth_c,
        words=f"{body.agent} {bath.made_from if bath is not None else ''}".strip().casefold(),
        record=fact.id,
        bath_id=body.bath,
        bath=bath,
        holds=frozenset(inside) if inside is not None else None,
        kept=step_standing(fact) in _KEPT,
    )


def _when(fact: Fact[Step] | Fact[Test]) -> When:
    done_on = fact.body.done_on
    return When(earliest(done_on), latest(done_on), fact.body.place)
