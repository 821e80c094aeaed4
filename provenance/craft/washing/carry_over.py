"""What a sheet carries with it from one bath into the next: a named assumption."""

from dataclasses import dataclass

from provenance.craft.residual import area_m2, areal_mass_g_per_m2
from provenance.errors import Problem, Refused
from provenance.model.quantities import Size
from provenance.model.sources import Sourced

_MOST_HUNDREDTH_ML_PER_M2 = 500_000
"""Five millimetres of liquid standing on the sheet: nothing drained carries more."""


@dataclass(frozen=True)
class CarryOver:
    """How much liquid clings to a square metre of paper; a studio may measure its own.

    Weigh a sheet drained as usual, and dry: the difference is what it carries.
    Raises Refused for nothing and for what no sheet can carry.
    """

    hundredth_ml_per_m2: int
    source: Sourced

    def __post_init__(self) -> None:
        if not 0 < self.hundredth_ml_per_m2 <= _MOST_HUNDREDTH_ML_PER_M2:
            raise Refused(
                Problem(
                    f"no sheet carries {self.hundredth_ml_per_m2 / 100:g} ml on a square metre",
                    field="carried",
                    mend="weigh a sheet drained, and dry: a gram is a millilitre",
                )
            )

    def volume_hundredth_ml(self, size: Size, sheets: int = 1) -> int:
        """What so many sheets of `size` carry, at least a hundredth of a millilitre.

        Raises Refused without sheets.
        """
        if sheets < 1:
            raise Refused(
                Problem("no sheet carries anything", field="sheets", mend="give 1 or more")
            )
        return max(1, round(self.hundredth_ml_per_m2 * area_m2(size) * sheets))

    def __str__(self) -> str:
        return f"{self.hundredth_ml_per_m2 / 100:g} ml carried on a square metre: {self.source}"


USUAL = CarryOver(38_750, Sourced("P", "20 ml on a sheet of 8 × 10 in"))
"""What is assumed until the studio has weighed its own."""


def carried_mg(volume_hundredth_ml: int, strength_mg_per_l: float) -> float:
    """What a carried volume holds, in milligrams."""
    return volume_hundredth_ml * strength_mg_per_l / 100_000


def carried_g_per_m2(volume_hundredth_ml: int, strength_mg_per_l: float, size: Size) -> float:
    """The same, spread over one face of a sheet."""
    return areal_mass_g_per_m2(carried_mg(volume_hundredth_ml, strength_mg_per_l), size)
