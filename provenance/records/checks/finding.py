"""What an audit finds."""

from dataclasses import dataclass
from typing import Literal

from provenance.errors import Problem

Level = Literal["damage", "note"]
"""damage: what is on disk is not what was written.  note: worth knowing, nothing is broken."""

AGAIN = "run `provenance audit --rebuild` to make it again; nothing is lost by that"
RESTORE = "keep the folder as it is and restore the latest backup into a new one"


@dataclass(frozen=True)
class Finding:
    """One thing found, with what to do about it."""

    level: Level
    what: str
    record: str = ""
    mend: str = ""

    @property
    def problem(self) -> Problem:
        """The finding as other errors are shown."""
        return Problem(what=self.what, record=self.record, mend=self.mend)


def damage(what: str, record: str = "", mend: str = RESTORE) -> Finding:
    """Something that is not as it was written."""
    return Finding("damage", what, record, mend)


def note(what: str, record: str = "", mend: str = "") -> Finding:
    """Something to know of."""
    return Finding("note", what, record, mend)
