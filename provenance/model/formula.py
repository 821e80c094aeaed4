"""Formulas: what goes into a stock or a working solution."""

from typing import ClassVar, Literal

from provenance.errors import Problem, Refused
from provenance.model.body import Body, Count, Part
from provenance.model.chemistry import Finish, Role
from provenance.model.process import Question
from provenance.model.quantities import Dilution
from provenance.model.sources import Grade

Use = Literal["stock", "working"]
"""Whether a solution is diluted or poured together before use, or used as it is."""


class Ingredient(Part, frozen=True, kw_only=True):
    """One substance and its amount for a litre, as a mass or as a volume.

    `substance` is the id in the table of substances; `formula` says which
    hydrate was meant, whatever becomes of the table (empty for a mixture);
    `assay_hundredth_percent` how much of it is the substance.

    Raises Refused unless there is one amount, above zero, and an assay up to 100 %.
    """

    substance: str
    formula: str
    assay_hundredth_percent: Count = 10_000
    mg_per_l: Count | None = None
    hundredth_ml_per_l: Count | None = None
    note: str = ""

    def __post_init__(self) -> None:
        amounts = [one for one in (self.mg_per_l, self.hundredth_ml_per_l) if one is not None]
        if len(amounts) != 1 or amounts[0] == 0:
            raise Refused(
                Problem(
                    what=f"{self.substance} needs one amount per litre, above zero",
                    field="amount",
                    mend="give it by weight or by volume: 20 g, or 50 ml",
                )
            )
        if not 0 < self.assay_hundredth_percent <= 10_000:
            raise Refused(
                Problem(
                    what=f"{self.substance} has an assay outside 0 to 100 %",
                    field="assay",
                    mend="give what the label says, in percent",
                )
            )


class Formula(Body, frozen=True, kw_only=True):
    """How a solution is made, for one litre; who says so, and what that is worth.

    It is for a bath (`role`) or for a residual test (`test`).  `keeps_days` is
    a closed full bottle's, `tray_days` an open tray's.
    """

    KIND: ClassVar[str] = "formula"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "name", "source")

    code: str
    name: str
    role: Role | None = None
    test: Question | None = None
    use: Use
    ingredients: tuple[Ingredient, ...]
    finish: Finish
    dilution: Dilution | None = None
    """How a stock is taken for use, where that is always the same."""
    one_shot: bool = False
    keeps_days: Count | None = None
    tray_days: Count | None = None
    source: str
    grade: Grade
    note: str = ""
