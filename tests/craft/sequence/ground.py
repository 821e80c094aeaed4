"""Plans and histories in a line, and the rules that they are held against."""

from functools import cache
from typing import Any

from provenance.craft.hazards.tables import read_hazards
from provenance.craft.history import Fact, PrintHistory
from provenance.craft.sequence.finding import Finding
from provenance.craft.sequence.review import Ground, review, review_plan
from provenance.craft.sequence.texts import read_rules
from provenance.craft.substance_rows import read_substances
from provenance.model.chemistry import Bath, Role
from provenance.model.paper import Base, Paper
from provenance.model.printing import Step
from provenance.model.process import Aim, PlannedStep, ProcessSheet, Question
from provenance.model.proof import Test
from provenance.resources import resource
from tests.craft.histories import MINUTE, PAPER, did, history, known

QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")


def data(name: str) -> str:
    """A table that comes with the program."""
    return resource("templates", "data", name).read_text(encoding="utf-8")


@cache
def ground() -> Ground:
    """The rules and hazards that come with the program."""
    hazards = read_hazards(data("hazards.toml"), read_substances(data("substances.csv")))
    return Ground(read_rules(data("rules.toml")), hazards)


def plan(text: str, base: Base = "fibre") -> ProcessSheet:
    """A plan such as ``develop 2, fix 1, wash, ? silver``: roles, minutes and tests in order."""
    steps = []
    for place, part in enumerate(text.split(",")):
        words = part.split()
        if words[0] == "?":
            steps.append(PlannedStep(name=f"{place} {words[1]}", test=words[1]))
            continue
        minutes = float(words.pop()) if words[-1][0].isdigit() else None
        steps.append(
            PlannedStep(
                name=f"{place} {' '.join(words)}",
                role=" ".join(words),
                aim=None if minutes is None else Aim(time_ms=int(minutes * MINUTE)),
            )
        )
    return ProcessSheet(code="own", name="own", base=base, steps=tuple(steps))


def planned(text: str, base: Base = "fibre") -> list[str]:
    """The cases that a plan trips, in order."""
    return cases(review_plan(plan(text, base), ground()))


def cases(findings: tuple[Finding, ...]) -> list[str]:
    """The cases of `findings`."""
    return [finding.case for finding in findings]


def minutes(role: Role, time: float | None, **fields: Any) -> Step:
    """A step of so many minutes; None when nobody wrote down how long."""
    return did(role, duration_ms=None if time is None else int(time * MINUTE), **fields)


def done(
    *work: Step | Test | Fact[Any], base: Base | None = "fibre", weight: str = "", **other: Any
) -> PrintHistory:
    """A numbered print on paper of `base` that went through `work`."""
    paper = None if base is None else known(PAPER, Paper(code="P", base=base, weight=weight))
    return history(*work, paper=paper, **other)


def found(*work: Step | Test | Fact[Any], loads: Any = None, **other: Any) -> list[str]:
    """The cases that such a history trips."""
    return cases(review(done(*work, **other), ground(), loads=loads))


def bath(record: int, role: Role = "fix", **fields: Any) -> Fact[Bath]:
    """A bath on record."""
    return known(record, Bath(code=f"B-{record}", role=role, **fields))


FIXED: tuple[Step, ...] = (
    minutes("develop", 2),
    minutes("stop", 0.5),
    minutes("fix", 1, bath=21),
    minutes("fix", 1, bath=22),
)
"""Developed, stopped, fixed in two baths."""
WASHED: tuple[Step, ...] = (minutes("rinse", 5), minutes("washing aid", 10), minutes("wash", 30))
"""A full wash with aid."""
TONED: tuple[Step, ...] = (
    minutes("bleach", 1),
    minutes("rinse", 3),
    minutes("sulfide", 2),
    *WASHED,
)
"""Bleached and toned in sulfide, and washed."""
