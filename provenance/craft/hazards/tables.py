"""The tables of hazards, read from TOML text and checked against each other."""

import tomllib
import unicodedata
from typing import Literal

import msgspec

from provenance.craft.substances import Hazard, Substances
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Role
from provenance.model.sources import Grade
from provenance.toml import read_toml

Severity = Literal["danger", "caution"]
ANYTHING = "*"
"""The other side of a meeting that any substance can have."""


class Table(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of all tables."""


class Rung(Table, frozen=True, kw_only=True):
    """From so many percent in a mix on, these codes hold."""

    percent: float
    gives: tuple[str, ...]


class Statement(Table, frozen=True, kw_only=True):
    """What a hazard code says, and the precautions it calls for."""

    say: str
    signal: Literal["", "Warning", "Danger"] = ""
    pictogram: str = ""
    precautions: tuple[str, ...] = ()
    ladder: tuple[Rung, ...] | None = None
    """Strongest first; None where no limit is known, so that it holds at any strength."""


class Specific(Table, frozen=True, kw_only=True):
    """A ladder of one substance's own."""

    substance: str
    code: str
    ladder: tuple[Rung, ...]


class Family(Table, frozen=True, kw_only=True):
    """Substances that behave alike."""

    name: str
    members: tuple[str, ...]


class Meeting(Table, frozen=True, kw_only=True):
    """Two families that should not meet, what comes of it and what to do.

    `mixed` is for what is poured together, `neighbours` for trays in a row.
    """

    id: str
    one: tuple[str, ...]
    other: tuple[str, ...]
    mixed: Severity | None = None
    neighbours: Severity | None = None
    condition: str = ""
    gas: str = ""
    """The id of the substance that comes off, where it is one of the table's."""
    effect: str
    do: str
    grade: Grade
    source: str = ""


class Caution(Table, frozen=True, kw_only=True):
    """What a family calls for by itself; `mixing` is for what only the mixing asks for."""

    id: str
    families: tuple[str, ...]
    say: str
    mixing: bool = False
    grade: Grade


class Waste(Table, frozen=True, kw_only=True):
    """What is collected by itself."""

    families: tuple[str, ...]
    say: str


class Hazards(Table, frozen=True, kw_only=True):
    """All tables."""

    decides: str
    """Whose word is above this program's."""
    usual: tuple[str, ...]
    burns_above_ph: float
    burns_source: str
    burns_grade: Grade
    hydroxide: dict[str, float]
    statement: dict[str, Statement]
    specific: tuple[Specific, ...]
    precaution: dict[str, str]
    family: dict[str, Family]
    role: dict[Role, tuple[str, ...]]
    meeting: tuple[Meeting, ...]
    caution: tuple[Caution, ...]
    waste: tuple[Waste, ...]

    def families_of(self, substance_id: str) -> frozenset[str]:
        """The families that a substance belongs to."""
        return frozenset(
            name for name, family in self.family.items() if substance_id in family.members
        )


def read_hazards(text: str, substances: Substances, *, name: str = "hazards.toml") -> Hazards:
    """The tables in the TOML `text` of the file `name`.

    Raises Refused for text that does not fit, and for every substance, family,
    code or precaution that is named but not there.
    """
    try:
        data = read_toml(unicodedata.normalize("NFC", text))
        hazards = msgspec.convert(data, Hazards)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise Refused(
            Problem(what=f"cannot be read: {error}", record=name, mend="mend it there")
        ) from error
    missing = sorted({*_missing(hazards, substances)})
    if missing:
        raise Refused(
            *(
                Problem(what=f"{kind} “{key}” is named but not there", record=name, mend="add it")
                for kind, key in missing
            )
        )
    return hazards


def _codes(hazard: Hazard) -> tuple[str, ...]:
    """Every hazard code of a label, pictograms left out."""
    named = hazard.h_codes + hazard.euh_codes + hazard.some_suppliers
    return tuple(code for code in named if not code.startswith("GHS"))


def _missing(hazards: Hazards, substances: Substances) -> list[tuple[str, str]]:
    ids = [
        *hazards.hydroxide,
        *(one.substance for one in hazards.specific),
        *(member for family in hazards.family.values() for member in family.members),
        *(meeting.gas for meeting in hazards.meeting if meeting.gas),
    ]
    families = [
        *(name for meeting in hazards.meeting for name in meeting.one + meeting.other),
        *(name for names in hazards.role.values() for name in names),
        *(name for caution in hazards.caution for name in caution.families),
        *(name for waste in hazards.waste for name in waste.families),
    ]
    ladders = [statement.ladder or () for statement in hazards.statement.values()]
    ladders += [one.ladder for one in hazards.specific]
    codes = [
        *(code for ladder in ladders for rung in ladder for code in rung.gives),
        *(code for one in substances for code in _codes(one.hazard)),
        *(one.code for one in hazards.specific),
    ]
    precautions = [code for one in hazards.statement.values() for code in one.precautions]
    return [
        *(("substance", key) for key in ids if key not in substances),
        *(("family", key) for key in families if key not in {*hazards.family, ANYTHING}),
        *(("statement", key) for key in codes if key not in hazards.statement),
        *(("precaution", key) for key in precautions if key not in hazards.precaution),
    ]
