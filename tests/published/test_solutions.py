"""Solutions against published and computed values: D9 to D18, A9, T5."""

from fractions import Fraction
from typing import Any

import pint
import pytest

from provenance.craft.atomic import molar_mass
from provenance.craft.dilution import mixed_strength, parse_dilution
from provenance.craft.solutions.heat import heat_of_dissolving_kj, temperature_rise_k
from provenance.craft.solutions.molar import mol_per_l, mol_per_l_by_weight
from provenance.craft.solutions.purity import Ware, equivalent_mass_mg
from provenance.craft.solutions.strength import (
    diluted_mg_per_l,
    percent_by_weight,
    strength_mg_per_l,
)
from provenance.craft.solutions.two_stocks import Blend, Pour, blend
from provenance.craft.solutions.volumes import weaker_when_added
from provenance.craft.solutions.written import parse_strength_mg_per_l
from provenance.craft.units import convert_quantity, parse_mass_mg, parse_volume_hundredth_ml
from provenance.model.chemistry import Finish

LITRE = 100_000
THIOUREA = Ware("CS(NH2)2")


def toner(finish: Finish, hydroxide: Ware) -> Blend:
    """20 ml of thiourea stock and 80 ml of hydroxide stock, both of 100 g/L, and a litre."""
    stock = Fraction(100_000)
    pours = (
        Pour("thiourea", THIOUREA, stock, 2_000),
        Pour("potassium_hydroxide", hydroxide, stock, 8_000),
    )
    return blend(pours, finish, LITRE)


def test_d9_thiourea_stock() -> None:
    # C: 100 g of 76.117 g/mol in a litre.
    assert mol_per_l(100_000, THIOUREA) == pytest.approx(1.3138, abs=5e-5)


@pytest.mark.parametrize(("finish", "molarity"), [("made up to", 0.02628), ("added to", 0.02389)])
def test_d10_thiourea_in_both_readings(finish: Finish, molarity: float) -> None:
    # C: 0.026275 mol in 1.000 and in 1.100 L.
    made = toner(finish, Ware("KOH"))
    assert made.mol_per_l(made.pours[0]) == pytest.approx(molarity, abs=5e-6)


@pytest.mark.parametrize(
    ("finish", "assay", "molarity"),
    [
        ("made up to", 100, 0.1426),
        ("added to", 100, 0.1296),
        ("made up to", 85, 0.1212),
        ("added to", 85, 0.1102),
    ],
)
def test_d11_hydroxide_in_both_readings(finish: Finish, assay: int, molarity: float) -> None:
    # C: 8 g of hydroxide, pure and as pellets of 85 %.
    made = toner(finish, Ware("KOH", Fraction(assay)))
    assert made.mol_per_l(made.pours[1]) == pytest.approx(molarity, abs=5e-5)


def test_the_two_readings_differ_by_an_eleventh_and_keep_the_ratio() -> None:
    # C: 100 ml of stocks into a litre give 1.100 L, 9.09 % weaker.
    assert weaker_when_added(LITRE, (2_000, 8_000)) == Fraction(1, 11)
    up, into = (toner(finish, Ware("KOH")) for finish in ("made up to", "added to"))
    assert into.volumes.finished_hundredth_ml == 110_000
    assert up.mole_ratio == into.mole_ratio == pytest.approx((1, 5.427), abs=5e-4)


def test_d12_hydroxide_stock_of_pellets() -> None:
    # C, with the assay S: 85 g of hydroxide in a litre.
    assert mol_per_l(100_000, Ware("KOH", Fraction(85))) == pytest.approx(1.515, abs=5e-4)


@pytest.mark.parametrize(
    ("formula", "wanted", "ratio"),
    [
        # C; S: Anchell, The Darkroom Cookbook, p. 268, has 0.64.
        ("Na2S2O3·5H2O", "Na2S2O3", 0.6370),
        # C; S: Langford, Basic Photography, appendix.
        ("Na2CO3", "Na2CO3·H2O", 1.170),
        ("Na2CO3", "Na2CO3·10H2O", 2.700),
        ("Na2SO3", "Na2SO3·7H2O", 2.000),
    ],
)
def test_d13_d14_hydrates(formula: str, wanted: str, ratio: float) -> None:
    assert equivalent_mass_mg(1, Ware(formula), Ware(wanted)) == pytest.approx(ratio, abs=6e-4)


def test_d15_acetic_acid_of_28_percent() -> None:
    # S: Radiography in Modern Industry, three parts of glacial acid and eight of water.
    # C: 27.3 % by volume; densities 1.049 and 0.998 kg/L (M) give 28.3 % by weight.
    assert float(mixed_strength(100, 3, 0, 8)) == pytest.approx(27.3, abs=0.05)
    dilution = parse_dilution("3+8", colon_means=None)
    by_weight = percent_by_weight(dilution, stock_kg_per_l=1.049, diluent_kg_per_l=0.998)
    assert by_weight == pytest.approx(28.3, abs=0.05)


def test_d16_washing_aid() -> None:
    # C; S2: a stock of 200 g/L at 1+9 is the 20 g/L of published washing times.
    assert diluted_mg_per_l(200_000, parse_dilution("1+9", colon_means=None)) == 20_000


def test_d17_grains_in_imperial_ounces() -> None:
    # C; S: Tennant, Bromide Printing and Enlarging.
    strength = strength_mg_per_l(
        parse_mass_mg("300 grains"), parse_volume_hundredth_ml("20 imperial fl oz")
    )
    assert float(strength) / 1000 == pytest.approx(34.21, abs=0.005)


def test_d18_ammonium_thiosulfate_by_weight() -> None:
    # C, with the density from memory (M).
    assert mol_per_l_by_weight(60, 1.33, "(NH4)2S2O3") == pytest.approx(5.385, abs=0.05)


@pytest.mark.parametrize(("formula", "kilojoules"), [("KOH", 102.7), ("NaOH", 111.3)])
def test_a9_heat_of_dissolving_hydroxide(formula: str, kilojoules: float) -> None:
    # C from S: CRC Handbook, enthalpies of solution; about 22 to 27 K in a kilogram of water.
    heat = heat_of_dissolving_kj(100_000, formula)
    assert heat == pytest.approx(kilojoules, abs=0.05)
    least, most = temperature_rise_k(heat, 100_000, LITRE)
    assert 22 < least < most < 27


def test_t5_silver_nitrate_test_solution() -> None:
    # C: 7.5 g in a litre.
    assert mol_per_l(7_500, Ware("AgNO3")) == pytest.approx(0.0442, abs=6e-5)


@pytest.mark.parametrize(
    ("text", "ours", "theirs"),
    [
        ("300 grains", "g", "gram"),
        ("2 oz", "g", "gram"),
        ("1 lb", "kg", "kilogram"),
        ("32 US fl oz", "ml", "milliliter"),
        ("3 imperial pints", "l", "liter"),
        ("11 in", "cm", "centimeter"),
        ("90 min", "h", "hour"),
    ],
)
def test_conversions_agree_with_a_general_library_of_units(
    text: str, ours: str, theirs: str
) -> None:
    # C: pint with its own definitions.
    library: pint.UnitRegistry[Any] = pint.UnitRegistry()
    name = text.replace("US fl oz", "fluid_ounce").replace("imperial pints", "imperial_pint")
    expected = library.Quantity(name).to(theirs).magnitude
    assert float(convert_quantity(text, ours)) == pytest.approx(expected, rel=1e-12)


def test_strengths_agree_with_a_general_library_of_units() -> None:
    # C: pint with its own definitions.
    library: pint.UnitRegistry[Any] = pint.UnitRegistry()
    theirs = library.Quantity("10 gram / (100 milliliter)").to("milligram / liter").magnitude
    assert float(parse_strength_mg_per_l("10 %")) == pytest.approx(theirs)
    moles = library.Quantity("100 gram / liter") / library.Quantity(
        molar_mass("CS(NH2)2"), "gram / mole"
    )
    assert mol_per_l(100_000, THIOUREA) == pytest.approx(moles.to("mole / liter").magnitude)
