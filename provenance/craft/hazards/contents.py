"""What is in a solution, and how much: the ground on which hazards are judged."""

from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.solutions.molar import mol_per_l
from provenance.craft.solutions.purity import Ware
from provenance.craft.solutions.scaling import litres_from_a_litre
from provenance.craft.solutions.strength import MG_PER_L_IN_A_PERCENT
from provenance.craft.solutions.two_stocks import Blend
from provenance.model.formula import Formula

VOLUME_AS_WEIGHT = "a liquid's percentage by volume is taken for its percentage by weight"


@dataclass(frozen=True)
class Content:
    """One substance in a solution.

    `percent` counts the substance itself, without what its assay leaves over;
    a liquid's is by volume.  `mol_per_l` is None where the molar mass or the
    density is not known.
    """

    substance: str
    percent: float
    mol_per_l: float | None = None


def contents_of(formula: Formula, share: Fraction = Fraction(1)) -> tuple[Content, ...]:
    """What a formula puts into a solution, or into a dilution with `share` of it."""
    share /= litres_from_a_litre(formula)
    contents = []
    for one in formula.ingredients:
        assay = Fraction(one.assay_hundredth_percent, 10_000)
        if one.mg_per_l is not None:
            percent = one.mg_per_l * share * assay / MG_PER_L_IN_A_PERCENT
            moles = (
                mol_per_l(float(one.mg_per_l * share), Ware(one.formula, assay * 100))
                if one.formula
                else None
            )
        else:
            percent = (one.hundredth_ml_per_l or 0) * share * assay / 1000
            moles = None
        contents.append(Content(one.substance, float(percent), moles))
    return tuple(contents)


def contents_of_blend(blend: Blend) -> tuple[Content, ...]:
    """What stocks poured together put into a solution."""
    return tuple(
        Content(
            pour.substance,
            blend.g_per_l(pour) / 10 * float(pour.ware.assay_percent) / 100,
            blend.mol_per_l(pour),
        )
        for pour in blend.pours
    )
