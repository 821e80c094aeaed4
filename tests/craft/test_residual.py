import itertools
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.residual import (
    ArealUnit,
    area_m2,
    areal_mass_g_per_m2,
    convert_areal_mass,
    thiosulfate_as,
)
from provenance.model.proof import ThiosulfateAs
from provenance.model.quantities import Size

AMOUNTS = st.floats(1e-6, 1e6)


@given(AMOUNTS, st.sampled_from([*itertools.product(get_args(ArealUnit), repeat=2)]))
def test_there_and_back_is_the_same_mass_per_area(
    value: float, units: tuple[ArealUnit, ArealUnit]
) -> None:
    unit, to = units
    there = convert_areal_mass(value, unit, to)
    assert convert_areal_mass(there, to, unit) == pytest.approx(value)


@given(AMOUNTS, st.permutations(get_args(ThiosulfateAs)))
def test_the_way_through_another_species_makes_no_difference(
    mass: float, species: list[ThiosulfateAs]
) -> None:
    first, second, third, _ = species
    through = thiosulfate_as(thiosulfate_as(mass, first, second), second, third)
    assert through == pytest.approx(thiosulfate_as(mass, first, third))


@given(st.integers(1, 100_000), st.integers(1, 100_000))
def test_turning_a_sheet_leaves_its_area(one: int, other: int) -> None:
    upright = Size(height_tenth_mm=one, width_tenth_mm=other)
    turned = Size(height_tenth_mm=other, width_tenth_mm=one)
    assert area_m2(upright) == area_m2(turned)


def test_a_gram_on_a_square_metre() -> None:
    sheet = Size(height_tenth_mm=10_000, width_tenth_mm=10_000)
    assert areal_mass_g_per_m2(1000, sheet) == pytest.approx(1)
