"""The steps of a print gathered into what a sentence can say: fixed, washed, toned."""

from dataclasses import dataclass

from provenance.craft.history import Fact
from provenance.model.chemistry import TONING, Role
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
    """Steps that follow each other and say one thing."""

    name: str
    steps: tuple[Fact[Step], ...]


def stages(steps: tuple[Fact[Step], ...]) -> tuple[Stage, ...]:
    """`steps`, in order of work, gathered into stages; rinses and presoaks left out."""
    gathered: list[tuple[str, list[Fact[Step]]]] = []
    for step in steps:
        if step.body.role in _BETWEEN:
            continue
        name = _STAGE[step.body.role]
        if not gathered or gathered[-1][0] != name:
            gathered.append((name, []))
        gathered[-1][1].append(step)
    return tuple(Stage(name, tuple(held)) for name, held in gathered)
