"""Rules of the residual tests: the later cases of Q7, and Q17."""

from collections.abc import Iterator

from provenance.craft.history import PrintHistory
from provenance.craft.proof import Discounted, Why, judge
from provenance.craft.sequence.deeds import Asked, Sequence
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.toning import purpose
from provenance.model.chemistry import TONERS, Role
from provenance.model.process import Question

QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")

_HOLDS_THIOSULFATE: frozenset[Role] = frozenset({"fix", "selenium"})

_CASE: dict[Why, str] = {
    "after toning": "Q7.silver",
    "read early": "Q17.time",
    "read late": "Q17.time",
    "too long after": "Q17.late",
}
_TOLD: dict[Why, str] = {
    "after toning": "it was made after bleach or toner",
    "read early": "the drop was left for less than two minutes",
    "read late": "it was left or read for more than five minutes",
    "too long after": "it came more than 14 days after the last bath",
}


def planned_test_faults(sequence: Sequence) -> Iterator[Fault]:
    """Tests of a plan that would not count, where no other asks the same in its place."""
    for question in QUESTIONS:
        asked = [one for one in sequence.asked if one.question == question]
        if asked and all(_misplaced(sequence, one) for one in asked):
            wrong = "after toning" if question == "silver" else "before a bath that brings it in"
            for one in asked:
                yield Fault(f"Q7.{question}", f"{one.name} comes {wrong}", asked=(one,))


def _misplaced(sequence: Sequence, test: Asked) -> bool:
    if test.question == "silver":
        return any(
            deed.role in TONERS or (deed.role == "bleach" and purpose(sequence, deed) == "toning")
            for deed in sequence.deeds
            if deed.when.before(test.when)
        )
    return _before_thiosulfate(sequence, test)


def _before_thiosulfate(sequence: Sequence, test: Asked) -> bool:
    return any(
        deed.role in _HOLDS_THIOSULFATE and test.when.before(deed.when) for deed in sequence.deeds
    )


def made_test_faults(sequence: Sequence, history: PrintHistory) -> Iterator[Fault]:
    """Tests that were made and do not count, where no other answers the same question."""
    for question in QUESTIONS:
        judged = judge(history, question)
        if judged.passed is not None:
            continue
        for one in judged.discounted:
            yield from _discounted(sequence, question, one)


def _discounted(sequence: Sequence, question: Question, one: Discounted) -> Iterator[Fault]:
    asked = next(asked for asked in sequence.asked if asked.record == one.test.id)
    told = f"the {question} test of {one.test.body.done_on} does not count"
    if one.why in _CASE:
        yield Fault(_CASE[one.why], f"{told}: {_TOLD[one.why]}", asked=(asked,))
    elif (
        one.why == "before the last wash"
        and sequence.finished
        and _before_thiosulfate(sequence, asked)
    ):
        yield Fault("Q7.thiosulfate", f"{told}: fixer was brought in later", asked=(asked,))
