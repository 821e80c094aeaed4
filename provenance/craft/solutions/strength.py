"""How strong a solution is, and how strong it is after a dilution."""

from fractions import Fraction

from provenance.craft.dilution import Strength
from provenance.errors import Problem, Refused
from provenance.model.quantities import Dilution

HUNDREDTH_ML_PER_L = 100_000
MG_PER_L_IN_A_PERCENT = 10_000
"""One percent weight in volume is ten grams in a litre of finished solution."""


def strength_mg_per_l(mass_mg: Strength, finished_volume_hundredth_ml: Strength) -> Fraction:
    """Milligrams in a litre of finished solution.  Raises Refused for no volume."""
    if not finished_volume_hundredth_ml > 0:
        raise Refused(Problem(what="a solution without volume has no strength", field="volume"))
    return Fraction(mass_mg) * HUNDREDTH_ML_PER_L / Fraction(finished_volume_hundredth_ml)


def percent_as_mg_per_l(percent: Strength) -> Fraction:
    """Percent weight in volume as milligrams in a litre."""
    return Fraction(percent) * MG_PER_L_IN_A_PERCENT


def diluted_mg_per_l(stock_mg_per_l: Strength, dilution: Dilution, *, part: int = 0) -> Fraction:
    """The strength of what came with stock number `part`, after `dilution`."""
    return Fraction(stock_mg_per_l) * dilution.parts_hundredths[part] / dilution.total_hundredths


def at_percent_of_stock(percent: Strength) -> Dilution:
    """“At 10 % of the stock” as parts: ten of stock in a hundred in all, 10+90.

    Raises Refused outside 0 to 100 %, and for a percentage finer than a hundredth.
    """
    share = Fraction(percent) * 100
    if share.denominator != 1 or not 0 < share < 10_000:
        raise Refused(
            Problem(
                what=f"{percent} % of a stock cannot be measured out as parts",
                field="dilution",
                mend="give a percentage above 0 and below 100, to the hundredth at most",
            )
        )
    return Dilution(parts_hundredths=(int(share), 10_000 - int(share)), typed=f"{percent} %")


def percent_by_weight(
    dilution: Dilution, *, stock_kg_per_l: float, diluent_kg_per_l: float
) -> float:
    """What a dilution by volume is in percent by weight, for a pure liquid stock."""
    stock, diluent = dilution.parts_hundredths[0], sum(dilution.parts_hundredths[1:])
    mass = stock * stock_kg_per_l
    return 100 * mass / (mass + diluent * diluent_kg_per_l)
