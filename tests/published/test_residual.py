"""Residual substances per area: T1 to T4, T6, A5, A6, and the molar masses they rest on."""

import pytest

from provenance.craft.atomic import molar_mass
from provenance.craft.residual import (
    area_m2,
    areal_mass_g_per_m2,
    convert_areal_mass,
    thiosulfate_as,
)
from provenance.craft.units import parse_size
from provenance.model.proof import ThiosulfateAs


def test_t1_micrograms_on_a_square_centimetre() -> None:
    # C: definitions.
    assert convert_areal_mass(1, "µg/cm²", "g/m²") == pytest.approx(0.01)


def test_t2_milligrams_on_a_square_inch() -> None:
    # C: the inch of 25.4 mm.
    assert convert_areal_mass(1, "mg/in²", "µg/cm²") == pytest.approx(155.0003, abs=5e-5)
    assert convert_areal_mass(1, "mg/in²", "g/m²") == pytest.approx(1.550003, abs=5e-7)


def test_t3_two_published_limits_for_film_are_one() -> None:
    # S, S: 1.4 µg/cm² in microfilm practice, 0.014 g/m² in the film standard of 1996.
    assert convert_areal_mass(1.4, "µg/cm²", "g/m²") == pytest.approx(0.014)


@pytest.mark.parametrize(
    ("species", "ratio"), [("sodium", 1.4101), ("ammonium", 1.3218), ("crystal", 2.2135)]
)
def test_t4_thiosulfate_as_other_species(species: ThiosulfateAs, ratio: float) -> None:
    # C: molar masses with sulfur 32.06; the older 32.065 gives 2.2134 for the crystal.
    assert thiosulfate_as(1, "ion", species) == pytest.approx(ratio, abs=5e-5)


def test_t6_residual_silver_on_a_large_sheet() -> None:
    # S: Haddon and Grundy, 0.246 grain on 22 x 17 in; C: 0.0661 g/m².
    found = areal_mass_g_per_m2(0.246 * 64.79891, parse_size("22 x 17 in"))
    assert found == pytest.approx(0.0661, abs=5e-5)


def test_a5_coating_weights() -> None:
    # C: 50 to 150 mg of silver on a square foot.
    assert convert_areal_mass(50, "mg/ft²", "g/m²") == pytest.approx(0.538, abs=5e-4)
    assert convert_areal_mass(150, "mg/ft²", "g/m²") == pytest.approx(1.615, abs=5e-4)


def test_a6_the_area_of_a_sheet() -> None:
    # C: 8 x 10 in.
    assert area_m2(parse_size("8x10 in")) == pytest.approx(0.0516128, abs=1e-12)


@pytest.mark.parametrize(
    ("formula", "grams"),
    [
        ("K3Fe(CN)6", 329.248),
        ("KBr", 119.002),
        ("CS(NH2)2", 76.117),
        ("NH4SCN", 76.117),
        ("KOH", 56.105),
        ("NaOH", 39.997),
        ("Na2S·9H2O", 240.175),
        ("Na2S2O3·5H2O", 248.172),
        ("(NH4)2S2O3", 148.195),
        ("AgNO3", 169.872),
        ("Ag2S", 247.796),
        ("Ag2Se", 294.707),
        ("Na2SeO3", 172.948),
    ],
)
def test_molar_masses(formula: str, grams: float) -> None:
    # C: IUPAC abridged weights.
    assert molar_mass(formula) == pytest.approx(grams, abs=0.002)


def test_molar_masses_agree_with_an_independent_table() -> None:
    # C: the periodictable package, which keeps its own weights.
    periodictable = pytest.importorskip("periodictable")
    for formula, theirs in (
        ("K3Fe(CN)6", "K3Fe(CN)6"),
        ("Na2S2O3·5H2O", "Na2S2O3(H2O)5"),
        ("Ag2Se", "Ag2Se"),
        ("KI", "KI"),
        ("NaCl", "NaCl"),
    ):
        assert molar_mass(formula) == pytest.approx(periodictable.formula(theirs).mass, abs=0.02)
