"""How many sheets a toning bath can never exceed, by its equation; never a capacity."""

from dataclasses import dataclass

from provenance.craft.atomic import molar_mass
from provenance.craft.hazards.contents import contents_of
from provenance.craft.silver import Coating, silver_in
from provenance.craft.toning import BLEACH, SULFIDE, THIOUREA, Reaction, bound
from provenance.errors import Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.quantities import Size
from provenance.model.quantity_text import Units, format_size
from provenance.records.reader import Reader
from provenance.studio.bottle_contents import held_by_bath

_REACTIONS: dict[Role, Reaction] = {"bleach": BLEACH, "thiourea": THIOUREA, "sulfide": SULFIDE}
_SAME_REAGENT = {"Na2S": "Na2S·9H2O"}
"""What a reaction counts as another hydrate, mole for mole."""
_CALLED = {
    "K3[Fe(CN)6]": "ferricyanide",
    "KBr": "bromide",
    "CS(NH2)2": "thiourea",
    "Na2S·9H2O": "sulfide",
}
"""What a printer calls a reagent."""


@dataclass(frozen=True)
class TonerBound:
    """The most sheets that one filling could ever tone through, and what runs out first."""

    sheets: int
    reagent: str
    size: Size

    def text(self, units: Units = "metric") -> str:
        """With what it is worth; a bath gives out well before it."""
        return (
            f"by its equation never more than {self.sheets} sheets of"
            f" {format_size(self.size, units)}, when the {_CALLED[self.reagent]} is used up:"
            " a bound, not a capacity"
        )


def toner_bound(reader: Reader, bath: Bath, size: Size, coating: Coating) -> TonerBound | None:
    """The bound of a bleach or toner whose formula and volume are on record; else None.

    It counts sheets whose whole image silver is converted, in a fresh filling.
    """
    reaction, volume = _REACTIONS.get(bath.role), bath.volume_hundredth_ml
    if reaction is None or not volume:
        return None
    held = held_by_bath(reader, bath)
    strengths: dict[str, float] = {}
    for portion in held.portions:
        inside = contents_of(portion.formula, portion.share)
        for ingredient, content in zip(portion.formula.ingredients, inside, strict=True):
            formula = _SAME_REAGENT.get(ingredient.formula, ingredient.formula)
            if formula in reaction.moles and content.mol_per_l is not None:
                mg_per_l = content.mol_per_l * molar_mass(formula) * 1000
                strengths[formula] = strengths.get(formula, 0.0) + mg_per_l
    try:
        most = bound(silver_in(size, coating).image_mg, reaction, strengths)
    except Refused:
        return None  # a reagent is not on record, or nothing is developed
    return TonerBound(int(most.sheets_per_l * volume / 100_000), most.reagent, size)
