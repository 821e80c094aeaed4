"""Colour differences against the pairs published with the formula, and lightness of neutrals."""

import csv
from pathlib import Path

import pytest
from coloraide import Color

from provenance.craft.colour import (
    delta_e00,
    density_of_lightness,
    lightness,
    lightness_of_density,
    luminance_percent,
)

with (Path(__file__).parent / "data" / "ciede2000.csv").open(encoding="utf-8", newline="") as file:
    PAIRS = list(csv.DictReader(line for line in file if not line.startswith("#")))


def test_all_pairs_are_there() -> None:
    assert [pair["pair"] for pair in PAIRS] == [str(number) for number in range(1, 35)]


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair["pair"])
def test_published_pairs_in_both_orders(pair: dict[str, str]) -> None:
    # S: Sharma, Wu and Dalal (2005); rounded to four places there.
    one, other = (
        (float(pair[f"L{n}"]), float(pair[f"a{n}"]), float(pair[f"b{n}"])) for n in (1, 2)
    )
    published = pytest.approx(float(pair["dE00"]), abs=1e-4)
    assert delta_e00(one, other) == published
    assert delta_e00(other, one) == published


def test_lightness_and_density_of_neutrals() -> None:
    # C
    assert luminance_percent(50) == pytest.approx(18.4187, abs=5e-5)
    assert density_of_lightness(50) == pytest.approx(0.7347, abs=5e-5)
    assert lightness(18) == pytest.approx(49.4961, abs=5e-5)
    for density, expected in ((1.0, 37.8424), (2.0, 8.9914), (2.1, 7.1751)):
        assert lightness_of_density(density) == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize("of", [0.5, 3, 7.99, 8.01, 20, 50, 75.5, 100])
def test_a_general_library_agrees(of: float) -> None:
    # C: coloraide, which carries Lab for D50 to luminance by itself.
    _x, y, _z = Color("lab", [of, 0, 0]).convert("xyz-d50").coords()
    assert luminance_percent(of) == pytest.approx(100 * y, rel=1e-6)
    assert lightness(100 * y) == pytest.approx(of, rel=1e-6)


@pytest.mark.parametrize(
    ("of", "step", "expected", "within"),
    [(50, 0.02, 1.0, 0.03), (75, 0.02, 1.0, 0.03), (95, 0.02, 1.0, 0.03), (20, 0.05, 0.93, 0.005)],
)
def test_densities_that_are_one_colour_difference(
    of: float, step: float, expected: float, within: float
) -> None:
    # C: at L* 50 and more 0.02 is about 1.0; at L* 20 0.05 is 0.93.
    darker = lightness_of_density(density_of_lightness(of) + step)
    assert delta_e00((of, 0, 0), (darker, 0, 0)) == pytest.approx(expected, abs=within)


def test_the_library_is_told_the_white() -> None:
    # C: untold, the library first converts to another white and is off by far more than 1e-4.
    one, other = Color("lab", [50.0, 2.6772, -79.7751]), Color("lab", [50.0, 0.0, -82.7485])
    published = 2.0425  # S: the first pair
    assert abs(one.delta_e(other, method="2000") - published) > 0.01
    assert delta_e00((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)) == pytest.approx(
        published, abs=1e-4
    )
