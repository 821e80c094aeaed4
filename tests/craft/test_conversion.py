"""Quantities given in another unit, and masses per area as they are written."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.residual import read_areal_mass, read_areal_unit
from provenance.craft.units import convert_quantity
from provenance.errors import Refused


@pytest.mark.parametrize(
    ("text", "to", "value"),
    [
        ("11 in", "cm", Fraction("27.94")),
        ("10 US fl oz", "ml", Fraction("295.735295625")),
        ("2 oz", "g", Fraction("56.69904625")),
        ("1.5 h", "min", 90),
        ("68 F", "C", 20),
        ("20 °C", "°F", 68),
        ("-40 C", "F", -40),
    ],
)
def test_quantities_are_converted_exactly(text: str, to: str, value: Fraction) -> None:
    assert convert_quantity(text, to) == value


@given(st.integers(1, 10**6), st.sampled_from((("g", "grain"), ("ml", "us_pint"), ("mm", "in"))))
def test_there_and_back_is_the_same(number: int, units: tuple[str, str]) -> None:
    here, there = units
    factor = convert_quantity(f"1 {here}", there) * convert_quantity(f"1 {there}", here)
    assert factor == 1
    assert convert_quantity(f"{number} {here}", there) == number * convert_quantity(
        f"1 {here}", there
    )


@pytest.mark.parametrize(
    ("text", "to", "reason"),
    [
        ("10 oz", "ml", "295.74 ml"),
        ("10 ml", "gal", "US gallon or imperial gallon"),
        ("10 g", "ml", "cannot be given in"),
        ("10 g", "stone", "cannot be given in"),
        ("20 C", "ml", "cannot be given in"),
        ("10", "ml", "cannot be given in"),
        ("much", "ml", "is not a length"),
    ],
)
def test_what_cannot_be_meant_is_refused(text: str, to: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        convert_quantity(text, to, field="quantity")
    assert refused.value.problems[0].field == "quantity"


@pytest.mark.parametrize("unit", ["µg/cm²", "ug/cm2", "\u03bcg/cm²", "µg/cm2"])
def test_units_per_area_may_be_written_plainly(unit: str) -> None:
    assert read_areal_unit(unit) == "µg/cm²"
    found = read_areal_mass(f"0.8 {unit}")
    assert found is not None
    assert (found.value, found.unit) == (0.8, "µg/cm²")


def test_what_is_no_mass_per_area_is_left_to_others() -> None:
    assert read_areal_unit("g/L") is None
    assert read_areal_mass("10 g") is None
    with pytest.raises(Refused, match="is not a number"):
        read_areal_mass("much g/m²")
