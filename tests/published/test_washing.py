"""Washing by mixing alone: W1 to W4."""

import pytest

from provenance.craft.solutions.strength import strength_mg_per_l
from provenance.craft.units import parse_size
from provenance.craft.washing.carry_over import USUAL, carried_g_per_m2
from provenance.craft.washing.changes import left_after_changes, left_in_running_water
from provenance.craft.washing.sayings import Saying

ML = 100
EIGHT_BY_TEN = parse_size("8x10 in")


@pytest.mark.parametrize(("minutes", "left"), [(5, 0.36788), (15, 0.049787), (30, 0.0024788)])
def test_w1_perfectly_mixed_running_water(minutes: int, left: float) -> None:
    # C: twelve volumes an hour, exp(-Qt/V).
    assert left_in_running_water(12, minutes * 60_000) == pytest.approx(left, rel=2e-5)


@pytest.mark.parametrize(("changes", "left"), [(1, 0.019608), (3, 7.5386e-06)])
def test_w2_dump_and_fill(changes: int, left: float) -> None:
    # C: 20 ml carried into 1000 ml, v/(v+V) for each change.
    assert left_after_changes(20 * ML, 1000 * ML, changes) == pytest.approx(left, rel=2e-5)


def test_w3_what_film_carries_into_the_water() -> None:
    # S: Torzynski 2004; 600 mg into 500 ml, and 120 mg after a rinse.
    assert strength_mg_per_l(600, 500 * ML) == 1200
    assert strength_mg_per_l(120, 500 * ML) == 240


def test_w4_three_half_changes_are_not_enough() -> None:
    # C: 20 ml of 60 g/L on 8x10 in; “three half-changes, 87.5 % out, is archival” is false.
    start = carried_g_per_m2(20 * ML, 60_000, EIGHT_BY_TEN)
    assert start == pytest.approx(23, abs=0.5)
    saying = Saying(start, changes=3, share_left_by_each=0.5, limit_g_per_m2=0.014)
    assert 1 - saying.left_g_per_m2 / start == pytest.approx(0.875)
    assert saying.changes_needed == pytest.approx(10.7, abs=0.05)
    assert not saying.can_hold
    assert Saying(start, 11, 0.5, 0.014).can_hold


def test_the_usual_carry_over_is_that_of_w4() -> None:
    # P: 20 ml on a sheet of 8x10 in.
    assert USUAL.volume_hundredth_ml(EIGHT_BY_TEN) == 20 * ML
