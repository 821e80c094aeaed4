from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.numbers import read_number
from provenance.errors import Refused


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("9.5", Fraction(19, 2)),
        ("9 1/2", Fraction(19, 2)),
        ("9½", Fraction(19, 2)),
        ("⅓", Fraction(1, 3)),
        ("9 1⁄2", Fraction(19, 2)),
        ("30,5", Fraction(61, 2)),
        (".5", Fraction(1, 2)),
        ("+1/3", Fraction(1, 3)),
        ("−1 1/3", Fraction(-4, 3)),
    ],
)
def test_numbers_as_people_write_them(text: str, value: Fraction) -> None:
    assert read_number(text) == value


@pytest.mark.parametrize("text", ["", "a", "1/0", "1.2.3", "1e3", "9-1/2", "١", "1 2", "1,234.5"])
def test_other_text_is_refused(text: str) -> None:
    with pytest.raises(Refused, match="is not a number") as refused:
        read_number(text, field="amount")
    assert refused.value.problems[0].field == "amount"


def test_a_comma_before_three_figures_could_mean_either() -> None:
    with pytest.raises(Refused, match=r"can be read as 1500 or as 1\.500"):
        read_number("1,500")


@given(st.decimals(min_value=0, max_value=10**8, places=3, allow_nan=False))
def test_decimals_are_exact(value: object) -> None:
    assert read_number(str(value)) == Fraction(str(value))
