"""What was said at the trays against a step that was entered afterwards.

A rule that misses a wash or a rinse asks for a reason before the next bath is
begun.  Whoever goes on without saying that it was done has said that it was
not; a wash that is entered later for that place, as planned or from memory,
then contradicts the printer's own press, and no sentence may rest on it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from provenance.craft.history import Fact, Overridden, comes_before, work_order
from provenance.model.chemistry import Role
from provenance.model.printing import Step

_WASHING: frozenset[Role] = frozenset({"rinse", "wash", "washing aid"})

MISSED: Mapping[str, frozenset[Role]] = {
    "Q2": _WASHING,
    "Q14": _WASHING,
    "Q16.strong": _WASHING,
}
"""What each case misses between two baths, by its name: any one of these."""


@dataclass(frozen=True)
class Sifted:
    """Steps that stand, and those that an override speaks against."""

    steps: tuple[Fact[Step], ...]
    contradicted: tuple[Fact[Step], ...]


def sift(steps: Sequence[Fact[Step]], overrides: Iterable[Overridden]) -> Sifted:
    """Tell the `steps` of a print that stand from those that its `overrides` contradict.

    Where it was said after drying that the step was done after all, it stands,
    known from that day on.
    """
    against: set[int] = set()
    known = {step.id: step.entered_on for step in steps}
    for over in overrides:
        for step in _entered_for(steps, over):
            if not over.body.says_done:
                against.add(step.id)
            elif over.body.done and over.explained_on is not None:
                known[step.id] = max(known[step.id], over.explained_on)
    standing = (step for step in steps if step.id not in against)
    return Sifted(
        tuple(replace(step, entered_on=known[step.id]) for step in standing),
        tuple(step for step in steps if step.id in against),
    )


def begun_by(steps: Iterable[Fact[Step]], over: Overridden) -> Fact[Step] | None:
    """The step that was begun in spite of the finding, where it is still on record."""
    begun = [
        step
        for step in steps
        if step.id > over.entry and (step.body.run, step.body.name) == (over.run, over.body.step)
    ]
    return min(begun, key=lambda step: step.id, default=None)


def _entered_for(steps: Sequence[Fact[Step]], over: Overridden) -> Iterator[Fact[Step]]:
    """Steps that were entered afterwards for the place where the rule missed them."""
    missed, begun = MISSED.get(over.body.finding, frozenset()), begun_by(steps, over)
    if begun is None:
        return
    on_record = [
        step
        for step in steps
        if step.id < over.entry and step.body.role not in missed and comes_before(step, begun)
    ]
    last = max(on_record, key=work_order, default=None)
    for step in steps:
        late = step.id > over.entry and step.body.source != "run" and step.body.role in missed
        elsewhere = comes_before(begun, step) or (last is not None and comes_before(step, last))
        if late and not elsewhere:
            yield step
