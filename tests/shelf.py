"""The tables of the shelf as they come with the program, and formulas to test with."""

from functools import cache
from typing import Any

from provenance.craft.hazards.tables import Hazards
from provenance.craft.substances import Substances
from provenance.model.formula import Formula, Ingredient
from provenance.studio.chemicals import load_hazards, load_substances


@cache
def substances() -> Substances:
    """The table of substances."""
    return load_substances()


@cache
def hazards() -> Hazards:
    """The tables of hazards."""
    return load_hazards(substances())


def ingredient(substance: str, **other: Any) -> Ingredient:
    """An ingredient of the table, 10 g in a litre unless said otherwise."""
    amount = {} if "hundredth_ml_per_l" in other else {"mg_per_l": 10_000}
    formula = substances().by_id(substance).formula
    return Ingredient(**{"substance": substance, "formula": formula} | amount | other)


def formula(*ingredients: Ingredient, **other: Any) -> Formula:
    """A working solution of those."""
    fields: dict[str, Any] = {
        "code": "trial",
        "name": "Trial bath",
        "role": "bleach",
        "use": "working",
        "ingredients": ingredients,
        "finish": "made up to",
        "source": "this test",
        "grade": "P",
    }
    return Formula(**fields | other)
