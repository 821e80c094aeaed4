import msgspec
import pytest

from provenance.errors import Refused
from provenance.model.formula import Formula, Ingredient


@pytest.mark.parametrize(
    ("amounts", "reason"),
    [
        ({}, "one amount"),
        ({"mg_per_l": 0}, "one amount"),
        ({"mg_per_l": 5, "hundredth_ml_per_l": 5}, "one amount"),
        ({"mg_per_l": 5, "assay_hundredth_percent": 0}, "assay"),
        ({"mg_per_l": 5, "assay_hundredth_percent": 10_001}, "assay"),
    ],
)
def test_an_ingredient_has_one_amount_and_an_assay(amounts: dict[str, int], reason: str) -> None:
    with pytest.raises(Refused, match=reason):
        Ingredient(substance="salt", formula="NaCl", **amounts)


def test_a_formula_holds_nothing_but_whole_numbers_and_comes_back_the_same() -> None:
    body = Formula(
        code="brine",
        name="Brine",
        role="washing aid",
        use="stock",
        ingredients=(Ingredient(substance="salt", formula="NaCl", mg_per_l=7_500),),
        finish="made up to",
        source="a test",
        grade="P",
    )
    kept = msgspec.json.encode(body)
    assert b"." not in kept
    assert msgspec.json.decode(kept, type=Formula) == body
