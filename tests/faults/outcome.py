"""What came of a fault: is everything there, or is it said what is not?"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from provenance.errors import Problem, ProvenanceError
from provenance.model.negative import Negative
from provenance.records.audit import audit, rebuild_view
from provenance.records.register import Register
from tests.studios import clock

Said = Mapping[int, str]
"""The entries that the program called saved, each with its digest."""


class Came(Enum):
    """What came of a fault; the last two must never come."""

    WHOLE = "whole"
    REFUSED = "refused"
    TOLD_IN_USE = "told in use"
    TOLD_BY_AUDIT = "by audit"
    SILENT = "SILENT"
    FAULT = "FAULT"


@dataclass(frozen=True)
class Outcome:
    """What came of one fault, with what is worth reading when it is a bad one."""

    came: Came
    about: str = ""

    @property
    def bad(self) -> bool:
        """Whether something was lost in silence, or the program failed."""
        return self.came in (Came.SILENT, Came.FAULT)


def judged(folder: Path, said: Said, about: str = "") -> Outcome:
    """Look at the studio as its owner would: audit it, open it, read all of it, write to it."""
    try:
        report = audit(folder)
        heard = [finding.problem for finding in report.findings if finding.level == "damage"]
        told = _used(folder, said, "AFTER")
    except Exception as error:
        return Outcome(Came.FAULT, f"{about}: {type(error).__name__}: {error}")
    if isinstance(told, int):
        # what is lost must have been told by the audit
        lost = bool(told)
        if lost and not heard:
            return Outcome(Came.SILENT, f"{about}: {told} entries of {len(said)} are not there")
        came = Came.TOLD_BY_AUDIT if heard else Came.WHOLE
    else:
        heard, came = [*heard, *told], Came.TOLD_IN_USE
    mute = [problem for problem in heard if not problem.mend]
    if mute:
        return Outcome(Came.SILENT, f"{about}: not said what to do: {mute[0]}")
    if heard and all("--rebuild" in problem.mend for problem in heard):
        return _made_again(folder, said, about, came)
    return Outcome(came, about)


def _used(folder: Path, said: Said, code: str) -> int | list[Problem]:
    """How many of the entries called saved are not there; or what was told in place of that."""
    try:
        with Register.open(folder, clock=clock()) as register:
            held = {seq: digest for seq, _entry, digest in register.read.entries()}
            for stored in register.read.all(Negative):
                register.read.versions(stored.id)
            with register.act("printer") as act:
                act.enter(Negative(code=code, title="After it all"))
    except ProvenanceError as error:
        return list(error.problems)
    return sum(held.get(seq) != digest for seq, digest in said.items())


def _made_again(folder: Path, said: Said, about: str, came: Came) -> Outcome:
    """Whether the audit's advice to make the view again is good advice."""
    try:
        rebuild_view(folder)
        still = [one for one in audit(folder).findings if one.level == "damage"]
        lost = _used(folder, said, "AGAIN")
    except Exception as error:
        return Outcome(Came.FAULT, f"{about}: --rebuild: {type(error).__name__}: {error}")
    if still or lost:
        return Outcome(Came.SILENT, f"{about}: --rebuild does not mend it: {still or lost}")
    return Outcome(came, about)
