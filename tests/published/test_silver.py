"""Silver in a sheet, and what toners and fixers make of it: A1 to A4, A7, A8, A10."""

import pytest

from provenance.craft.baths import Ledger, remaining
from provenance.craft.fixing import LIMITS, limit_named
from provenance.craft.silver import Coating, silver_in, silver_on
from provenance.craft.toning import (
    BLEACH,
    SELENITE,
    SELENIUM,
    SULFIDE,
    THIOUREA,
    Reaction,
    bound,
    reagents_taken_mg,
)
from provenance.craft.units import parse_size

USUAL = Coating(1500, 50)
EIGHT_BY_TEN = parse_size("8x10 in")
A1 = silver_on(0.0500, USUAL)
US_GALLON_L = 3.785411784


def test_a1_silver_of_a_print() -> None:
    # C: 0.0500 m² at 1.5 g/m², half of it developed; a high-key print leaves the fixer all.
    assert A1.image_mg == pytest.approx(37.5)
    assert A1.to_fixer_mg == pytest.approx(37.5)
    assert A1.to_fixer_at_worst_mg == pytest.approx(75)


@pytest.mark.parametrize(
    ("reaction", "milligrams"),
    [
        # A2, C
        (BLEACH, {"K3[Fe(CN)6]": 114.5, "KBr": 41.4}),
        # A3, C
        (THIOUREA, {"CS(NH2)2": 13.2}),
        (SULFIDE, {"Na2S·9H2O": 41.7}),
        (SELENIUM, {"Se": 13.7}),
    ],
)
def test_a2_a3_reagents_for_a_print(reaction: Reaction, milligrams: dict[str, float]) -> None:
    assert reagents_taken_mg(A1.image_mg, reaction) == pytest.approx(milligrams, abs=0.06)


@pytest.mark.parametrize(
    ("reaction", "grams"),
    [
        (BLEACH, {"K3[Fe(CN)6]": 3.052, "KBr": 1.103}),
        (THIOUREA, {"CS(NH2)2": 0.353}),
        (SULFIDE, {"Na2S·9H2O": 1.113}),
        (SELENIUM, {"Se": 0.366}),
        (SELENITE, {"Na2SeO3": 0.802}),
    ],
)
def test_reagents_for_a_gram_of_silver(reaction: Reaction, grams: dict[str, float]) -> None:
    # C: the equations and the molar masses.
    assert reagents_taken_mg(1, reaction) == pytest.approx(grams, abs=6e-4)


def test_a4_bromide_limits_the_bleach() -> None:
    # C: 20 g/L of ferricyanide and 5 g/L of bromide; a bound, not a promise.
    limit = bound(A1.image_mg, BLEACH, {"K3[Fe(CN)6]": 20_000, "KBr": 5_000})
    assert limit.reagent == "KBr"
    assert limit.sheets_per_l == pytest.approx(121, abs=0.5)


@pytest.mark.parametrize(("g_per_l", "sheets"), [(0.5, 10), (2.0, 40)])
def test_a7_two_published_limits_for_fixer_agree(g_per_l: float, sheets: int) -> None:
    # C from S2: both mean 0.05 g of silver for a sheet of 8 x 10 in.
    assert g_per_l / sheets == pytest.approx(0.05)
    # and a sheet at the default estimate brings a little less than that
    assert silver_in(EIGHT_BY_TEN, USUAL).to_fixer_mg < 50


@pytest.mark.parametrize(("g_per_l", "sheets_per_gallon"), [(0.3, 30), (0.05, 5)])
def test_a8_haist(g_per_l: float, sheets_per_gallon: int) -> None:
    # C from S2: 37.85 mg a sheet, 0.733 g/m² dissolved; the named limits hold the same figures.
    each_mg = g_per_l * 1000 * US_GALLON_L / sheets_per_gallon
    assert each_mg == pytest.approx(37.85, abs=0.005)
    dissolved = Coating(2 * round(each_mg / 0.0516128), 50)
    assert silver_in(EIGHT_BY_TEN, dissolved).to_fixer_mg == pytest.approx(each_mg, abs=0.05)
    assert round(g_per_l * 1000) in {limit.mg_per_l for limit in LIMITS}


def test_a10_sheets_to_two_grams() -> None:
    # C: 51.7 and, with all silver dissolved, 25.8; S2 and S (US Navy course 14209, 200 for a
    # US gallon): published rules say 50 to 53.
    fresh = Ledger(100_000, (), USUAL)
    left = remaining(fresh, limit_named("first of two"), EIGHT_BY_TEN)
    assert (left.sheets, left.sheets_at_worst) == (51, 25)
    assert 2000 / silver_in(EIGHT_BY_TEN, USUAL).to_fixer_mg == pytest.approx(51.7, abs=0.05)
    assert 2000 / silver_in(EIGHT_BY_TEN, USUAL).coated_mg == pytest.approx(25.8, abs=0.05)
    assert 2000 / A1.to_fixer_mg == pytest.approx(53.3, abs=0.05)
    assert pytest.approx(52.8, abs=0.05) == 200 / US_GALLON_L
