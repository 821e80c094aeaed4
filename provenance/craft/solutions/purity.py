"""The same chemical as another hydrate or at another assay."""

from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.atomic import anhydrous, molar_mass
from provenance.errors import Problem, Refused


@dataclass(frozen=True)
class Ware:
    """What is weighed: a formula with its water, and how much of it is that, in percent.

    Raises Refused for an assay that is not above 0 and up to 100 %, and for a
    formula that cannot be read.
    """

    formula: str
    assay_percent: Fraction = Fraction(100)

    def __post_init__(self) -> None:
        molar_mass(self.formula)
        if not 0 < self.assay_percent <= 100:
            raise Refused(
                Problem(
                    what=f"an assay of {float(self.assay_percent):g} % is none",
                    field="assay",
                    mend="give a percentage above 0 and up to 100; the label has it",
                )
            )

    @property
    def g_per_mol(self) -> float:
        """What has to be weighed for one mole of the formula, impurities and all."""
        return molar_mass(self.formula) * 100 / float(self.assay_percent)


def equivalent_mass_mg(mass_mg: float, ware: Ware, wanted: Ware) -> float:
    """What to weigh of `wanted` in place of `mass_mg` of `ware`, mole for mole.

    Raises Refused when the two are not the same substance but for their water.
    """
    if anhydrous(ware.formula) != anhydrous(wanted.formula):
        raise Refused(
            Problem(
                what=f"{ware.formula} and {wanted.formula} are not forms of one substance",
                field="formula",
                mend="convert between hydrates and assays of the same salt only",
            )
        )
    return mass_mg * wanted.g_per_mol / ware.g_per_mol
