"""Process sheets: what is planned for a sheet, in order."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Whole
from provenance.model.chemistry import Role
from provenance.model.paper import Base

Question = Literal["silver", "thiosulfate"]
"""What a residual test asks: was fixing complete, or was washing."""


class Aim(Part, frozen=True, kw_only=True):
    """What a step aims at: a time, and the least and the longest that will do."""

    time_ms: Count
    least_ms: Count | None = None
    longest_ms: Count | None = None


class PlannedStep(Part, frozen=True, kw_only=True):
    """One step of a plan: a bath by its role, or a test (then `test` is set)."""

    name: str
    role: Role | None = None
    test: Question | None = None
    agent: str = ""
    aim: Aim | None = None
    temperature_tenth_c: Whole | None = None
    note: str = ""


class ProcessSheet(Body, frozen=True, kw_only=True):
    """A plan that a printing follows; names of steps are unique within it."""

    KIND: ClassVar[str] = "process"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "name")

    code: str
    name: str
    base: Base
    steps: tuple[PlannedStep, ...]
