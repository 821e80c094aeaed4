from fractions import Fraction

import pytest

from provenance.craft.solutions.written import (
    parse_molarity,
    parse_percent,
    parse_strength_mg_per_l,
)
from provenance.errors import Refused


@pytest.mark.parametrize(
    ("text", "mg_per_l"),
    [
        ("100 g/L", 100_000),
        ("100g/l", 100_000),
        ("10 %", 100_000),
        ("10 % w/v", 100_000),
        ("2.5%", 25_000),
        ("7,5 g/L", 7_500),
        ("500 mg/L", 500),
        ("1 1/2 g/100 ml", 15_000),
    ],
)
def test_strengths_are_read(text: str, mg_per_l: int) -> None:
    assert parse_strength_mg_per_l(text) == mg_per_l


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("100", "is not a strength"),
        ("g/L", "is not a strength"),
        ("100 g", "is not a strength"),
        ("10 % v/v", "is not a strength"),
        ("1:9", "is not a strength"),
        ("0 g/L", "is no strength"),
        ("-5 %", "is no strength"),
        ("4000 g/L", "is no strength"),
    ],
)
def test_what_is_no_strength_is_refused(text: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        parse_strength_mg_per_l(text, field="stock")
    assert refused.value.problems[0].field == "stock"


def test_molarities_are_told_from_strengths() -> None:
    assert parse_molarity("0.1 mol/L") == Fraction(1, 10)
    assert parse_molarity("2 M") == 2
    assert parse_molarity("100 g/L") is None
    with pytest.raises(Refused, match="no molarity"):
        parse_molarity("100 mol/L")


def test_percentages_are_read() -> None:
    assert parse_percent("85 %") == parse_percent("85") == 85
    for text in ("-1", "101 %"):
        with pytest.raises(Refused, match="not from 0 to 100"):
            parse_percent(text)
