"""The chemicals of the shelf: what each is, how it is sold and what its label says.

A hydrate is a substance of its own, and the assay (how much of what is weighed
is the substance) belongs to it.  A molar mass never identifies one: thiourea
and ammonium thiocyanate have the same.
"""

import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.atomic import molar_mass, waters
from provenance.errors import NotFound, Problem, Refused
from provenance.model.sources import Grade


@dataclass(frozen=True)
class Hazard:
    """What the label of a substance says; its safety data sheet decides."""

    h_codes: tuple[str, ...]
    euh_codes: tuple[str, ...]
    signal_word: str
    pictograms: tuple[str, ...]
    some_suppliers: tuple[str, ...]
    """Codes that are found on some suppliers' labels only."""
    grade: Grade | None
    """None when no source was consulted, which is not the same as no hazard."""


@dataclass(frozen=True)
class Solubility:
    """What dissolves in a litre of water at 20 °C."""

    g_per_l: int
    grade: Grade


@dataclass(frozen=True)
class Assay:
    """How much of what is weighed is the substance, in percent by weight."""

    percent: Fraction
    grade: Grade


@dataclass(frozen=True)
class Substance:
    """One chemical, hydrate and all."""

    id: str
    name: str
    formula: str
    """Empty for a mixture."""
    cas: str
    usual_assay: Assay | None
    """How it is usually sold, where that is far from pure."""
    hazard: Hazard
    solubility: Solubility | None
    note: str = ""

    @property
    def molar_mass_g_per_mol(self) -> float:
        """Computed from the formula.  Raises Refused for a mixture, which has none."""
        if not self.formula:
            raise Refused(
                Problem(
                    what=f"{self.name} is a mixture and has no molar mass",
                    mend="take the figures from its safety data sheet",
                )
            )
        return molar_mass(self.formula)

    @property
    def water_moles(self) -> int:
        """Water of crystallisation, in moles for a mole of the substance."""
        return waters(self.formula)


class Substances:
    """A table of substances, looked up by id, CAS number or name."""

    def __init__(self, substances: tuple[Substance, ...]) -> None:
        self._by_id = {one.id: one for one in substances}

    def __iter__(self) -> Iterator[Substance]:
        return iter(self._by_id.values())

    def __len__(self) -> int:
        return len(self._by_id)

    def __contains__(self, substance_id: str) -> bool:
        return substance_id in self._by_id

    def by_id(self, substance_id: str, *, field: str = "") -> Substance:
        """The substance with that id.  Raises NotFound."""
        if substance_id not in self._by_id:
            raise _unknown(substance_id, tuple(self._by_id), field)
        return self._by_id[substance_id]

    def by_cas(self, cas: str) -> Substance:
        """The substance with that registry number.  Raises NotFound."""
        for one in self:
            if cas and one.cas == cas:
                return one
        raise NotFound(
            Problem(what=f"no substance here has the CAS number {cas}", mend="look it up by name")
        )

    def find(self, text: str, *, field: str = "") -> Substance:
        """The one substance that `text` means: its id, CAS number, formula or name.

        Part of a name will do when only one substance has it.  Raises NotFound,
        or Refused with every substance that could be meant.
        """
        wanted = " ".join(text.casefold().split())
        named = wanted.replace(" ", "_").replace("-", "_")
        if named in self._by_id:
            return self._by_id[named]
        exact = [
            one
            for one in self
            if text.strip()
            and (text.strip() in (one.cas, one.formula) or wanted == one.name.casefold())
        ]
        near = exact or [one for one in self if wanted and wanted in one.name.casefold()]
        if not near:
            raise _unknown(text, tuple(self._by_id), field)
        if len(near) > 1:
            raise Refused(
                Problem(
                    what=f"“{text}” can mean {' or '.join(one.name for one in near)}",
                    field=field,
                    mend=f"write one of: {', '.join(one.id for one in near)}",
                )
            )
        return near[0]


def _unknown(text: str, known: tuple[str, ...], field: str) -> NotFound:
    words = text.casefold().replace("_", " ").split()
    near = [one for one in known if any(word in one for word in words)]
    near = near or difflib.get_close_matches("_".join(words), known)
    return NotFound(
        Problem(
            what=f"there is no substance “{text}”",
            field=field,
            mend=f"perhaps {', '.join(near)}"
            if near
            else "write its name or CAS number, or add it to data/substances.csv",
        )
    )
