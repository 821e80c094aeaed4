"""How a fact came to be known, and what may be said on the strength of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from provenance.model.quantities import Dilution

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


@dataclass(frozen=True)
class When:
    """A date (EDTF) that stands in a sentence with its preposition: on, in, about."""

    edtf: str


@dataclass(frozen=True)
class Lasting:
    """A length of time, in ms."""

    duration_ms: int


@dataclass(frozen=True)
class Term:
    """A word of the trade, by its name in the wording: `kind` and `name`."""

    kind: str
    name: str


@dataclass(frozen=True)
class Amount:
    """Residual matter per area, in ng/cm²."""

    ng_per_cm2: int


@dataclass(frozen=True)
class Portion:
    """A part of a density, in thousandths of it, and the density itself in thousandths."""

    permille: int
    density_md: int


@dataclass(frozen=True)
class Treatment:
    """One bath in a sentence: its role, what was in it, and how long."""

    role: str
    agent: str
    dilution: Dilution | None
    duration_ms: int | None


Word = (
    str
    | int
    | When
    | Lasting
    | Term
    | Amount
    | tuple[Treatment, ...]
    | tuple[Portion, ...]
    | tuple[Term, ...]
    | tuple[str, ...]
)
"""What a sentence may be given; the wording of each language puts it into words."""


@dataclass(frozen=True)
class Claim:
    """One sentence that the record supports, before it is put into words.

    The wording is data, chosen by `id` and language; it can say the sentence in
    its own way, but `standing` and `evidence` are decided here.
    """

    id: str
    section: Section
    standing: Standing
    evidence: tuple[int, ...]
    words: Mapping[str, Word] = field(default_factory=dict)
