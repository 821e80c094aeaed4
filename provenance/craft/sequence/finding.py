"""What a rule finds: which case of which rule, how grave, and on what it rests."""

from dataclasses import dataclass
from typing import Literal

from provenance.craft.sequence.deeds import Asked, Deed
from provenance.model.sources import Sourced

Level = Literal["E", "W", "N"]

LEVELS: dict[Level, str] = {"E": "error", "W": "warning", "N": "note"}
"""Each level in words, the gravest first."""

Basis = Literal["shown", "missing"]
"""Whether the record shows it, or only lacks what would show the opposite."""

CASES: dict[str, Level] = {
    "Q1": "E",
    "Q2": "E",
    "Q3.selenium": "W",
    "Q3.sulfide": "W",
    "Q4": "W",
    "Q5": "E",
    "Q6": "N",
    "Q7.wash": "E",
    "Q7.thiosulfate": "E",
    "Q7.silver": "E",
    "Q8": "W",
    "Q9.fix": "W",
    "Q9.wash": "W",
    "Q9.toning": "W",
    "Q10.silver": "W",
    "Q10.sheets": "W",
    "Q11": "W",
    "Q12": "W",
    "Q13": "W",
    "Q14": "E",
    "Q15": "W",
    "Q16.strong": "E",
    "Q16.weak": "W",
    "Q17.time": "E",
    "Q17.late": "E",
    "Q18": "N",
    "Q19.warm": "N",
    "Q19.long": "N",
    "Q20.once": "W",
    "Q20.age": "W",
}
"""Every case of every rule, and its level; the texts are data."""

BLOCKING = frozenset({"Q2", "Q5", "Q7.wash"})
"""Cases that contradict what a certificate would say of the finished print.

The others do not: a gap (Q1) is said as a gap, a test that does not count (Q7,
Q17) is said not to, and what two baths did to the air (Q14, Q16) is over.
"""


@dataclass(frozen=True)
class Fault:
    """One case that a sequence shows, before it is put into words."""

    case: str
    what: str
    deeds: tuple[Deed, ...] = ()
    asked: tuple[Asked, ...] = ()
    basis: Basis = "shown"
    answered_by: int | None = None
    """The id of a test that passed since, and so outranks it."""

    @property
    def level(self) -> Level:
        """How grave it is."""
        return CASES[self.case]

    @property
    def blocks(self) -> bool:
        """Whether it stands against certifying the print."""
        return self.case in BLOCKING and self.basis == "shown" and self.answered_by is None


@dataclass(frozen=True)
class Finding:
    """What a rule finds, as a person is told it."""

    rule: str
    case: str
    level: Level
    what: str
    why: str
    do: str
    source: Sourced
    steps: tuple[str, ...]
    """The names of the steps and tests that it is about."""
    evidence: tuple[int, ...]
    """The ids of the steps, tests and baths that it rests on; none for a plan."""
    basis: Basis = "shown"
    answered_by: int | None = None
    blocks: bool = False
