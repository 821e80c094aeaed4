"""Dilution and mixing against published and computed values, D1 to D8 and D19."""

from decimal import Decimal
from typing import Any

import pint
import pytest

from provenance.craft.dilution import (
    criss_cross,
    mixed_strength,
    parse_dilution,
    part_volumes_hundredth_ml,
    percent_weight_in_volume,
)
from provenance.craft.units import (
    parse_mass_mg,
    parse_temperature_tenth_c,
    parse_volume_hundredth_ml,
)
from provenance.model.quantity_text import format_temperature

LITRE_HUNDREDTH_ML = 100_000


@pytest.mark.parametrize(("text", "stock_ml"), [("1+4", 200), ("1+9", 100), ("1+19", 50)])
def test_d1_parts_in_a_litre(text: str, stock_ml: int) -> None:
    # C: from the definition of a+b parts.
    dilution = parse_dilution(text, colon_means=None)
    stock, water = part_volumes_hundredth_ml(dilution, LITRE_HUNDREDTH_ML)
    assert (stock, water) == (stock_ml * 100, LITRE_HUNDREDTH_ML - stock_ml * 100)


def test_d2_a_colon_read_both_ways() -> None:
    # C: 1000/20 and 1000/21 ml.
    volumes = [
        part_volumes_hundredth_ml(parse_dilution("1:20", colon_means=way), LITRE_HUNDREDTH_ML)[0]
        for way in ("total", "parts")
    ]
    assert volumes == [5000, 4762]


def test_d3_28_percent_to_1_percent_with_water() -> None:
    # S: a published example of criss-cross mixing.
    assert criss_cross(28, 0, 1) == (1, 27)


def test_d4_32_ounces_of_28_percent_acid() -> None:
    # S: United States Army, photographic course SS0513: 9 + 23 oz from 99.5 % acid.
    acid, water = criss_cross(Decimal("99.5"), 0, 28)
    assert 32 * acid / (acid + water) == pytest.approx(9.0, abs=0.05)
    assert 32 * water / (acid + water) == pytest.approx(23.0, abs=0.05)


def test_d5_25_and_10_percent_to_18_percent() -> None:
    # C: a published example has the parts the wrong way round, which gives 17 %.
    assert criss_cross(25, 10, 18) == (8, 7)
    assert mixed_strength(25, 7, 10, 8) == 17


def test_d6_10_percent_in_an_imperial_pint() -> None:
    # S: Henley's Formulas, 875 grains; C: 9.978 g in 100 ml.
    percent = percent_weight_in_volume(
        parse_mass_mg("875 grains"), parse_volume_hundredth_ml("1 imperial pint")
    )
    assert float(percent) == pytest.approx(9.978, abs=0.0005)


def test_d7_fluid_ounces() -> None:
    # S: 29.5735295625 and 28.4130625 ml; ten thousand of each show every figure kept.
    assert parse_volume_hundredth_ml("10000 US fl oz") == 29_573_530
    assert parse_volume_hundredth_ml("10000 imperial fl oz") == 28_413_062


def test_d8_the_grain() -> None:
    # S: NIST, 64.79891 mg.
    assert parse_mass_mg("100000 grains") == 6_479_891


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        ("US fl oz", "fluid_ounce"),
        ("US pint", "pint"),
        ("US gallon", "gallon"),
        ("imperial fl oz", "imperial_fluid_ounce"),
        ("imperial pint", "imperial_pint"),
        ("imperial gallon", "imperial_gallon"),
    ],
)
def test_volumes_agree_with_a_general_library_of_units(ours: str, theirs: str) -> None:
    # C: pint with its own definitions.
    library: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Decimal)
    expected = library.Quantity(Decimal(100), theirs).to("milliliter").magnitude
    assert parse_volume_hundredth_ml(f"100 {ours}") == round(expected * 100)


def test_d19_temperatures() -> None:
    # C: the definition of the degree Fahrenheit; 75 °F is 23.889 °C, 24 °C is 75.2 °F.
    assert parse_temperature_tenth_c("68 F") == 200
    assert parse_temperature_tenth_c("75 F") == 239
    assert parse_temperature_tenth_c("75.2 F") == parse_temperature_tenth_c("24 C") == 240
    assert format_temperature(240, "F") == "75 °F"
