"""How a fact came to be known, and what may be said on the strength of it."""

from enum import StrEnum
from typing import Literal

from provenance.model.body import Part, Ref

Source = Literal["run", "notes", "memory"]
"""Where an entry was taken from: the clock of a run, written notes, or memory."""

Section = Literal["made", "tested", "unknown", "care"]
"""The parts of a statement, in the order in which they are read."""

SECTIONS: tuple[Section, ...] = ("made", "tested", "unknown", "care")


class Standing(StrEnum):
    """How a fact came to be known, strongest first, in the words that are shown."""

    MEASURED = "measured"
    BY_EYE = "tested by eye"
    LOGGED = "logged"
    SAME_DAY = "same-day notes"
    CALCULATED = "calculated"
    FROM_NOTES = "entered later, from notes"
    FROM_MEMORY = "entered later, from memory"
    NOT_ON_RECORD = "not on record"


_RANK = {standing: rank for rank, standing in enumerate(Standing)}


def weakest(standings: tuple[Standing, ...]) -> Standing:
    """The standing of a sentence that rests on all of `standings`: its weakest."""
    return max(standings, key=_RANK.__getitem__, default=Standing.NOT_ON_RECORD)


class Claim(Part, frozen=True, kw_only=True):
    """One sentence that the record supports, before it is put into words.

    `words` are the values that the sentence needs, already formatted; the
    wording itself is data, chosen by `id` and language.
    """

    id: str
    section: Section
    standing: Standing
    evidence: tuple[Ref, ...] = ()
    words: dict[str, str] = {}
