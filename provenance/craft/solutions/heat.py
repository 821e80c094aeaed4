"""The heat that solid hydroxide gives off as it dissolves."""

from provenance.craft.atomic import molar_mass
from provenance.errors import Problem, Refused
from provenance.model.sources import Sourced

HEATS_KJ_PER_MOL = {"KOH": 57.61, "NaOH": 44.51}
"""Heat given off by one mole dissolving in much water, at 25 °C."""

SOURCE = Sourced("S", "CRC Handbook of Chemistry and Physics, enthalpies of solution")

WATER_KJ_PER_KG_K = 4.18


def heat_of_dissolving_kj(mass_mg: int, formula: str) -> float:
    """Kilojoules given off by a hydroxide.  Raises Refused for another substance."""
    if formula not in HEATS_KJ_PER_MOL:
        raise Refused(
            Problem(
                what=f"the heat that {formula} gives off in water is not on hand",
                field="formula",
                mend=f"it is known for {' and '.join(HEATS_KJ_PER_MOL)}",
            )
        )
    return mass_mg / 1000 / molar_mass(formula) * HEATS_KJ_PER_MOL[formula]


def temperature_rise_k(
    heat_kj: float, mass_mg: int, water_hundredth_ml: int
) -> tuple[float, float]:
    """The least and the most that water warms by, when no heat is lost.

    The least counts the solid as though it were water, the most leaves it out.
    Raises Refused without water.
    """
    if water_hundredth_ml <= 0:
        raise Refused(
            Problem(
                what="there is no water to take the heat", field="volume", mend="give the volume"
            )
        )
    water_kg = water_hundredth_ml / 100_000
    return (
        heat_kj / WATER_KJ_PER_KG_K / (water_kg + mass_mg / 1e6),
        heat_kj / WATER_KJ_PER_KG_K / water_kg,
    )
