"""The steps of a print gathered into what a sentence can say: fixed, washed, toned."""

from dataclasses import dataclass
from itertools import groupby

from provenance.craft.history import Fact
from provenance.model.chemistry import TONERS, TONING, Role
from provenance.model.printing import Step

_STAGE: dict[Role, str] = {
    "develop": "developed",
    "stop": "developed",
    "fix": "fixed",
    "washing aid": "washed",
    "wash": "washed",
    "stabilise": "stabilised",
    **dict.fromkeys(TONING, "toned"),
}
_BETWEEN: frozenset[Role] = frozenset({"presoak", "rinse"})
"""Steps that belong to whatever they stand beside, and are not worth a sentence."""


@dataclass(frozen=True)
class Stage:
    """Steps of one day that follow each other and say one thing."""

    name: str
    steps: tuple[Fact[Step], ...]


def stages(steps: tuple[Fact[Step], ...]) -> tuple[Stage, ...]:
    """`steps`, in order of work, gathered into stages; rinses and presoaks left out."""
    worth = (step for step in steps if step.body.role not in _BETWEEN)
    return tuple(
        _stage(name, tuple(held))
        for (name, _day), held in groupby(
            worth, lambda step: (_STAGE[step.body.role], step.body.done_on)
        )
    )


def _stage(name: str, steps: tuple[Fact[Step], ...]) -> Stage:
    """A bleach without a toner beside it reduced the print, or was washed out before toning."""
    if name == "toned" and not any(step.body.role in TONERS for step in steps):
        name = "bleached"
    return Stage(name, steps)
