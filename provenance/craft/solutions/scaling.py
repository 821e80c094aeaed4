"""A formula weighed out for a volume."""

from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.solutions.strength import HUNDREDTH_ML_PER_L
from provenance.errors import Problem, Refused
from provenance.model.formula import Formula, Ingredient


@dataclass(frozen=True)
class Measure:
    """One ingredient as it is weighed or poured; one of the two is None."""

    ingredient: Ingredient
    mass_mg: int | None
    volume_hundredth_ml: int | None


@dataclass(frozen=True)
class Batch:
    """What to take for a finished volume."""

    formula: Formula
    measures: tuple[Measure, ...]
    water_hundredth_ml: int | None
    """The water to start from; None where the solution is made up to its volume."""
    finished_hundredth_ml: int


def litres_from_a_litre(formula: Formula) -> Fraction:
    """What becomes of a litre: one where it is made up to that, more where liquids are added."""
    if formula.finish == "made up to":
        return Fraction(1)
    poured = sum(one.hundredth_ml_per_l or 0 for one in formula.ingredients)
    return 1 + Fraction(poured, HUNDREDTH_ML_PER_L)


def scale(formula: Formula, finished_hundredth_ml: int) -> Batch:
    """`formula` for a finished volume, to the milligram and the hundredth of a millilitre.

    A formula that adds its amounts to a litre of water gives more than a litre,
    by the liquids among them.  Raises Refused for no volume, and for one so
    small that an ingredient would vanish.
    """
    litres = Fraction(finished_hundredth_ml, HUNDREDTH_ML_PER_L) / litres_from_a_litre(formula)
    measures = tuple(
        Measure(
            ingredient=one,
            mass_mg=None if one.mg_per_l is None else round(one.mg_per_l * litres),
            volume_hundredth_ml=None
            if one.hundredth_ml_per_l is None
            else round(one.hundredth_ml_per_l * litres),
        )
        for one in formula.ingredients
    )
    if any((one.mass_mg or one.volume_hundredth_ml or 0) <= 0 for one in measures):
        raise Refused(
            Problem(
                what=f"{formula.name}: an ingredient is less than can be weighed or measured",
                field="volume",
                mend="mix a larger volume",
            )
        )
    water = round(litres * HUNDREDTH_ML_PER_L) if formula.finish == "added to" else None
    return Batch(formula, measures, water, finished_hundredth_ml)
