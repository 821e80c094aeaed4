"""Everything that can go wrong, as a person is told it.

    ProvenanceError
    ├── Refused          exit 1   the request cannot be carried out; nothing was written
    │   ├── NotFound              no such record
    │   ├── Conflict              somebody changed the record since it was read
    │   └── NewerRegister         written by a newer release of this program
    ├── Misuse           exit 2   the command was put wrongly
    └── Damaged          exit 3   what is on disk is not what was written

Anything else that escapes is a fault of the program (exit 70).  Each error
carries one or more `Problem`s: what happened, to which record and field, and
what to do next.
"""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong, in words for the person who can mend it."""

    what: str
    """What happened, as a sentence without a full stop."""
    record: str = ""
    """The record it concerns, as the person names it: ``QUAY 7/25``."""
    field: str = ""
    """The field of that record, as it is written in a day sheet."""
    mend: str = ""
    """What to do next."""
    line: int | None = None
    """The line of the file that was read, counted from 1."""

    def __str__(self) -> str:
        place = " ".join(
            part
            for part in (
                f"line {self.line}" if self.line is not None else "",
                self.record,
                self.field,
            )
            if part
        )
        text = f"{place}: {self.what}" if place else self.what
        return f"{text}; {self.mend}" if self.mend else text


class ProvenanceError(Exception):
    """Base of every error that is meant for a person."""

    exit_status = 70
    kind = "fault"

    def __init__(self, *problems: Problem | str) -> None:
        self.problems: tuple[Problem, ...] = tuple(
            Problem(what=problem) if isinstance(problem, str) else problem for problem in problems
        )
        super().__init__("\n".join(str(problem) for problem in self.problems))

    @classmethod
    def of(cls, problems: Iterable[Problem]) -> "ProvenanceError":
        """One error that carries all `problems`."""
        return cls(*problems)


class Refused(ProvenanceError):
    """The request cannot be carried out as it stands; nothing was written."""

    exit_status = 1
    kind = "refused"


class NotFound(Refused):
    """A reference leads to no record."""

    kind = "not found"


class Conflict(Refused):
    """The record was changed by somebody else since it was read."""

    kind = "conflict"


class NewerRegister(Refused):
    """The register was written by a newer release of this program."""

    kind = "newer register"


class Misuse(ProvenanceError):
    """The command or call was put wrongly."""

    exit_status = 2
    kind = "misuse"


class Damaged(ProvenanceError):
    """What is on disk is not what was written."""

    exit_status = 3
    kind = "damaged"
