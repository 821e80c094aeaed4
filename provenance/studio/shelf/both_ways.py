"""Stocks that are poured together, read both ways: made up to a volume, and added to it."""

from fractions import Fraction

from provenance.craft.solutions.purity import Ware
from provenance.craft.solutions.scaling import litres_from_a_litre
from provenance.craft.solutions.two_stocks import Blend, Pour, blend
from provenance.craft.solutions.volumes import FINISHES
from provenance.errors import Refused
from provenance.model.formula import Ingredient
from provenance.studio.shelf.mixing import MixPlan, Poured


def both_ways(plan: MixPlan) -> tuple[Blend, ...]:
    """The bottles of `plan`, as much of each, made up to its volume and added to it.

    Empty unless there are several bottles and each holds one weighed substance
    of which the formula is known; a reading that is impossible is left out.
    """
    weighed = [(one, _only_weighed(one)) for one in plan.poured]
    pours = tuple(_pour(one, part) for one, part in weighed if part is not None)
    if len(pours) < 2 or len(pours) < len(weighed):
        return ()
    found: list[Blend] = []
    for finish in FINISHES:
        try:
            found.append(blend(pours, finish, plan.wish.volume_hundredth_ml))
        except Refused:
            continue  # more is poured in than the volume it would be made up to
    return tuple(found)


def _only_weighed(one: Poured) -> Ingredient | None:
    parts = one.formula.ingredients if one.formula is not None else ()
    if len(parts) != 1 or parts[0].mg_per_l is None or not parts[0].formula:
        return None
    return parts[0]


def _pour(one: Poured, part: Ingredient) -> Pour:
    litres = litres_from_a_litre(one.formula) if one.formula is not None else Fraction(1)
    return Pour(
        substance=part.substance,
        ware=Ware(part.formula, Fraction(part.assay_hundredth_percent, 100)),
        stock_mg_per_l=Fraction(part.mg_per_l or 0) / litres,
        volume_hundredth_ml=one.volume_hundredth_ml,
    )
