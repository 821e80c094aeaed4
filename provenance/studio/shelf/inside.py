"""What is in a bottle or tray on record, and what to heed with it, each thing once."""

from dataclasses import dataclass

from provenance.craft.hazards.label import label_of_mix
from provenance.craft.hazards.meetings import (
    BY_ROLE,
    cautions_for,
    families_in,
    keep_from,
    wastes_for,
)
from provenance.model.chemistry import Bath, Stock
from provenance.records.reader import Reader
from provenance.studio.bottle_contents import contents_text, held_by_bath, held_by_stock
from provenance.studio.chemicals import Chemicals
from provenance.studio.shelf.heeding import label_text, precautions_text


@dataclass(frozen=True)
class Inside:
    """The contents in a line (empty where none is on record), and what to heed."""

    contents: str
    heed: tuple[str, ...]
    """A line each, the gravest first; last whose word is above this one's."""


def inside_of(reader: Reader, chemicals: Chemicals, body: Bath | Stock) -> Inside:
    """What a tray or bottle holds.

    A tray of which no formula is on record is judged by what such a bath usually
    holds, and that is said.
    """
    substances, hazards = chemicals.substances, chemicals.hazards
    held = held_by_bath(reader, body) if isinstance(body, Bath) else held_by_stock(reader, body)
    label = label_of_mix(held.contents, substances, hazards)
    families = set(families_in([one.substance for one in held.contents], hazards))
    guessed: frozenset[str] = frozenset()
    if held.unknown and isinstance(body, Bath):
        guessed = frozenset(hazards.role.get(body.role, ()))
    families |= guessed
    apart = keep_from(families, hazards)
    unknown = ", ".join(held.unknown)
    lines = (
        label_text(label, hazards),
        precautions_text(label, hazards),
        f"Keep it from {', '.join(apart)}." if apart else "",
        *(one.say for one in cautions_for(families, hazards) if not one.mixing),
        *dict.fromkeys(one.say for one in wastes_for(families, hazards)),
        f"In it, but below the limit of a label: {', '.join(label.beneath)}."
        if label.beneath
        else "",
        f"No formula of {unknown} is on record, so no codes are told." if unknown else "",
        f"{BY_ROLE[0].upper()}{BY_ROLE[1:]}." if guessed else "",
        hazards.decides,
    )
    return Inside(contents_text(held, substances), tuple(line for line in lines if line))
