"""Moles: of a weighed substance, in a litre, and in a solution sold by weight."""

from provenance.craft.solutions.purity import Ware
from provenance.errors import Problem, Refused


def moles(mass_mg: float, ware: Ware) -> float:
    """Moles of the formula in a mass of the ware."""
    return mass_mg / 1000 / ware.g_per_mol


def mol_per_l(strength_mg_per_l: float, ware: Ware) -> float:
    """Moles in a litre, from milligrams of the ware in a litre."""
    return moles(strength_mg_per_l, ware)


def mass_for_mol_per_l_mg(mol_per_l: float, finished_volume_hundredth_ml: int, ware: Ware) -> int:
    """What to weigh for a molarity in a finished volume, to the milligram.

    Raises Refused unless both are above zero.
    """
    if mol_per_l <= 0 or finished_volume_hundredth_ml <= 0:
        raise Refused(
            Problem(
                what="a molarity or a volume is not above zero",
                field="molarity",
                mend="give moles per litre and a volume above zero",
            )
        )
    return round(mol_per_l * finished_volume_hundredth_ml / 100 * ware.g_per_mol)


def mol_per_l_by_weight(percent_by_weight: float, kg_per_l: float, formula: str) -> float:
    """Moles in a litre of a solution sold by weight: percent and density."""
    return percent_by_weight * 10 * kg_per_l / Ware(formula).g_per_mol
