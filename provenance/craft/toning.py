"""What toning takes by the equations: reagents for an image, and bounds for a bath.

A bound says what a litre cannot exceed.  Baths give out well before it, from
dilution, carry-over and air, so it is never a capacity.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.atomic import molar_mass
from provenance.errors import Problem, Refused

SILVER = "Ag"


@dataclass(frozen=True)
class Reaction:
    """Moles of each reagent for one mole of image silver."""

    name: str
    equation: str
    moles: Mapping[str, Fraction]


BLEACH = Reaction(
    "ferricyanide-bromide bleach",
    "Ag + [Fe(CN)6]3− + Br− → AgBr + [Fe(CN)6]4−",
    {"K3[Fe(CN)6]": Fraction(1), "KBr": Fraction(1)},
)
SULFIDE = Reaction("sulfide", "2 AgBr + S2− → Ag2S + 2 Br−", {"Na2S·9H2O": Fraction(1, 2)})
THIOUREA = Reaction("thiourea in alkali", "2 AgBr + CS(NH2)2 → Ag2S", {"CS(NH2)2": Fraction(1, 2)})
SELENIUM = Reaction("selenium", "2 Ag + Se → Ag2Se", {"Se": Fraction(1, 2)})
SELENITE = Reaction("selenium, as selenite", "2 Ag + Se → Ag2Se", {"Na2SeO3": Fraction(1, 2)})

REACTIONS = (BLEACH, THIOUREA, SULFIDE, SELENIUM, SELENITE)


@dataclass(frozen=True)
class Bound:
    """The most sheets that a litre could serve, and the reagent that sets it.

    An upper bound from the equation, not a promise.
    """

    reagent: str
    sheets_per_l: float


def reagents_taken_mg(silver_mg: float, reaction: Reaction) -> dict[str, float]:
    """What converting all of the image silver takes of each reagent."""
    moles = silver_mg / molar_mass(SILVER)
    return {
        formula: moles * float(share) * molar_mass(formula)
        for formula, share in reaction.moles.items()
    }


def bound(silver_mg: float, reaction: Reaction, bath_mg_per_l: Mapping[str, float]) -> Bound:
    """The limiting reagent of a bath and its upper bound of sheets per litre.

    `silver_mg` is the image silver of one sheet; `bath_mg_per_l` has each
    reagent by its formula.  Raises Refused for a sheet without silver and for
    a reagent whose strength is missing.
    """
    taken = reagents_taken_mg(silver_mg, reaction)
    missing = taken.keys() - bath_mg_per_l.keys()
    if missing or silver_mg <= 0:
        raise Refused(
            Problem(
                what=f"the strength of {', '.join(sorted(missing))} is not given"
                if missing
                else "a sheet without image silver takes nothing",
                field="bath",
                mend=f"a bound for {reaction.name} needs {', '.join(taken)} per litre and an image",
            )
        )
    sheets = {formula: bath_mg_per_l[formula] / each for formula, each in taken.items()}
    reagent = min(sheets, key=sheets.__getitem__)
    return Bound(reagent, sheets[reagent])
