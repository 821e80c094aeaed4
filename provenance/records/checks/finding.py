"""What an audit finds."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from provenance.errors import Problem

Level = Literal["damage", "note"]
"""damage: what is on disk is not what was written.  note: worth knowing, nothing is broken."""

AGAIN = "run `provenance audit --rebuild` to make it again; nothing is lost by that"
KEEP = "keep it until all damage is mended: it may be all that is left of what was lost"
RESTORE = "keep the folder as it is and restore the latest backup into a new one"


@dataclass(frozen=True)
class Finding:
    """One thing found, with what to do about it."""

    level: Level
    what: str
    record: str = ""
    mend: str = ""
    spare: bool = False
    """Whether it is a file that nothing speaks of, and that may go where all else is well."""

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


def spare(what: str, mend: str) -> Finding:
    """A file that nothing speaks of; `mend` says how it may go."""
    return Finding("note", what, mend=mend, spare=True)


def kept(findings: Iterable[Finding]) -> list[Finding]:
    """The findings of a studio in which something is amiss: no file may go."""
    return [replace(one, mend=KEEP) if one.spare else one for one in findings]
