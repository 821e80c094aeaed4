"""The silver in a sheet: what was coated, what the image holds, what the fixer takes."""

from dataclasses import dataclass

from provenance.craft.residual import area_m2
from provenance.errors import Problem, Refused
from provenance.model.quantities import Size
from provenance.model.sources import Sourced

COATING_SOURCE = Sourced("S2", "an emulsion engineer, 50 to 150 mg on a square foot")


@dataclass(frozen=True)
class Coating:
    """What is taken of a paper's silver; both figures are defaults that a studio may change.

    Published coatings run from 0.54 to 1.61 g/m², some to 3.23.  Raises Refused
    for a coating or a share that no paper has.
    """

    mg_per_m2: int = 1500
    developed_percent: int = 50
    source: Sourced = COATING_SOURCE

    def __post_init__(self) -> None:
        if not 0 < self.mg_per_m2 <= 20_000:
            raise Refused(
                Problem(
                    what=f"no paper is coated with {self.mg_per_m2 / 1000:g} g/m² of silver",
                    field="coating",
                    mend="published figures run from 0.5 to 3.3 g/m²",
                )
            )
        if not 0 <= self.developed_percent < 100:
            raise Refused(
                Problem(
                    what=f"{self.developed_percent} % of the silver cannot be developed",
                    field="developed",
                    mend="give 0 to 99 %; the fixer always finds some",
                )
            )

    def __str__(self) -> str:
        return (
            f"{self.mg_per_m2 / 1000:g} g/m² of silver coated, {self.developed_percent} % of it"
            f" developed: {self.source}"
        )


@dataclass(frozen=True)
class SheetSilver:
    """The silver of one sheet or of many, in milligrams; an estimate."""

    coated_mg: float
    image_mg: float

    @property
    def to_fixer_mg(self) -> float:
        """What the fixer takes of an ordinary picture: all that was not developed."""
        return self.coated_mg - self.image_mg

    @property
    def to_fixer_at_worst_mg(self) -> float:
        """What the fixer takes when next to nothing was developed, as in a high-key print."""
        return self.coated_mg


def silver_on(area: float, coating: Coating) -> SheetSilver:
    """The silver on `area` square metres of paper."""
    coated_mg = area * coating.mg_per_m2
    return SheetSilver(coated_mg, coated_mg * coating.developed_percent / 100)


def silver_in(size: Size, coating: Coating) -> SheetSilver:
    """The silver in one sheet."""
    return silver_on(area_m2(size), coating)
