"""The studio's own limits for what may be left in a print, and what is held against them.

No limit comes with the program.  The standard for prints has figures that were
not at hand when this was written, and what is published for film does not hold
for paper.  A limit is therefore a setting, with whose it is and how well known.
"""

import re
from dataclasses import dataclass

from provenance.craft.residual import (
    THIOSULFATES,
    ArealMass,
    convert_areal_mass,
    read_areal_mass,
    thiosulfate_as,
)
from provenance.errors import Problem, Refused
from provenance.model.process import Question
from provenance.model.proof import ThiosulfateAs
from provenance.model.sources import Sourced

FILM_G_PER_M2 = 0.014
"""Thiosulfate in film of the longest rating (S, Nishimura 1997, quoting ANSI IT9.1-1996)."""
_FILM = re.compile(
    r"\b(?:LE[- ]?\d+|life expectancy|(?:micro)?films?|IT ?9\.1|ISO ?18901)\b", re.IGNORECASE
)
_CONFORMS = re.compile(
    r"\b(?:meets?|conforms?|complies|conformity|conforme|certified)\b", re.IGNORECASE
)


@dataclass(frozen=True)
class ResidualLimit:
    """The most that a studio lets be left in a print.

    `reckoned_as` says what thiosulfate is counted as, and is None for silver.
    Raises Refused for a limit of nothing, one without a species, one that
    belongs to film, and a name that claims conformity.
    """

    name: str
    question: Question
    amount: ArealMass
    reckoned_as: ThiosulfateAs | None
    source: Sourced

    def __post_init__(self) -> None:
        for problem in (self._malformed(), self._of_film()):
            if problem is not None:
                raise Refused(problem)

    @property
    def ng_per_cm2(self) -> float:
        """The limit in ng/cm² of what it is reckoned as."""
        return convert_areal_mass(self.amount.value, self.amount.unit, "µg/cm²") * 1000

    def __str__(self) -> str:
        species = f" as {self.reckoned_as}" if self.reckoned_as else ""
        return (
            f"{self.name}: {self.amount.value:g} {self.amount.unit} of {self.question}{species},"
            f" {self.source}"
        )

    def _malformed(self) -> Problem | None:
        if not self.amount.value > 0:
            return Problem("a limit lies above zero", self.name, "amount")
        if not self.name.strip():
            return Problem("a limit has a name", field="name", mend="say whose limit it is")
        if _CONFORMS.search(f"{self.name} {self.source.source}"):
            return Problem(
                "a limit is a figure, and says nothing of conformity",
                self.name,
                "name",
                "name the studio's limit and where its figure comes from",
            )
        if (self.question == "thiosulfate") != (self.reckoned_as is not None):
            return Problem(
                "thiosulfate is reckoned as one of its species, silver as itself",
                self.name,
                "reckoned_as",
                f"for thiosulfate give one of: {', '.join(THIOSULFATES)}",
            )
        return None

    def _of_film(self) -> Problem | None:
        words = _FILM.search(f"{self.name} {self.source.source}")
        same = False
        if self.reckoned_as is not None:
            ion = thiosulfate_as(self.ng_per_cm2, self.reckoned_as, "ion")
            same = abs(ion / 1e5 - FILM_G_PER_M2) < 1e-6
        if not (words or same):
            return None
        return Problem(
            "this is a limit for film; paper holds fixer in its fibres and has limits of its own",
            self.name,
            "name" if words else "amount",
            "choose a limit for prints, or one of your own, and say where it comes from",
        )


@dataclass(frozen=True)
class Compared:
    """A measured amount beside the limit that the studio chose, both as the limit is reckoned."""

    limit: ResidualLimit
    measured_ng_per_cm2: float

    @property
    def within(self) -> bool:
        """Whether the amount is at most the limit."""
        return self.measured_ng_per_cm2 <= self.limit.ng_per_cm2 * (1 + 1e-12)

    @property
    def share(self) -> float:
        """The amount as a share of the limit."""
        return self.measured_ng_per_cm2 / self.limit.ng_per_cm2


def compare(
    measured: ArealMass, reckoned_as: ThiosulfateAs | None, limit: ResidualLimit
) -> Compared:
    """A measured amount against a limit, whatever the units and species of either.

    Raises Refused for less than nothing, and when one is silver and the other not.
    """
    if measured.value < 0:
        raise Refused(Problem("less than nothing was measured", field="amount"))
    if (reckoned_as is None) != (limit.reckoned_as is None):
        raise Refused(
            Problem(
                f"what was measured is not {limit.question}",
                limit.name,
                "reckoned_as",
                "hold silver against a limit for silver, thiosulfate against one for thiosulfate",
            )
        )
    ng_per_cm2 = convert_areal_mass(measured.value, measured.unit, "µg/cm²") * 1000
    if reckoned_as is not None and limit.reckoned_as is not None:
        ng_per_cm2 = thiosulfate_as(ng_per_cm2, reckoned_as, limit.reckoned_as)
    return Compared(limit, ng_per_cm2)


def read_limit(
    name: str, question: Question, amount: str, reckoned_as: str | None, source: Sourced
) -> ResidualLimit:
    """A limit as it stands in the settings: ``0.9 µg/cm²`` as ``ion``.  Raises Refused."""
    read = read_areal_mass(amount, field="amount")
    if read is None:
        raise Refused(
            Problem(f"“{amount}” is no mass per area", name, "amount", "write it as 0.9 µg/cm²")
        )
    if reckoned_as is not None and reckoned_as not in THIOSULFATES:
        raise Refused(
            Problem(
                f"thiosulfate is not reckoned as “{reckoned_as}”",
                name,
                "reckoned_as",
                f"give one of: {', '.join(THIOSULFATES)}",
            )
        )
    species = None if reckoned_as is None else THIOSULFATES[reckoned_as]
    return ResidualLimit(name, question, read, species, source)
