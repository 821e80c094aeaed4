"""Stops add, seconds multiply, and a dodge undoes no more than there is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.exposure.areas import area_times
from provenance.craft.exposure.stops import (
    burn_s,
    dodge_s,
    exposed_s,
    log_h_of,
    stops_between,
    stops_of,
    through_density_s,
)
from provenance.errors import Refused
from provenance.model.printing import Burn

seconds = st.floats(0.5, 600)
stops = st.floats(-5, 5)


@given(seconds, stops, stops)
def test_stops_add(base_s: float, one: float, other: float) -> None:
    there = exposed_s(exposed_s(base_s, one), other)
    assert there == pytest.approx(exposed_s(base_s, one + other))
    assert stops_between(base_s, there) == pytest.approx(one + other, abs=1e-9)


@given(seconds, st.floats(0, 5))
def test_a_burn_and_a_dodge_are_what_the_base_lacks_or_has_over(base_s: float, one: float) -> None:
    assert base_s + burn_s(base_s, one) == pytest.approx(exposed_s(base_s, one))
    assert base_s - dodge_s(base_s, one) == pytest.approx(exposed_s(base_s, -one))
    assert 0 <= dodge_s(base_s, one) < base_s


@given(stops)
def test_log_exposure_and_stops_are_one(one: float) -> None:
    assert stops_of(log_h_of(one)) == pytest.approx(one)
    assert through_density_s(10, 1, 1 + log_h_of(one)) == pytest.approx(exposed_s(10, one))


@pytest.mark.parametrize("base_s", [0, -1, float("nan"), float("inf")])
def test_a_time_that_is_none_is_refused(base_s: float) -> None:
    with pytest.raises(Refused, match="above zero"):
        exposed_s(base_s, 1)


def test_a_burn_below_zero_is_refused() -> None:
    with pytest.raises(Refused, match="more exposure is a burn"):
        burn_s(10, -1)


def burn(area: str, milli_stop: int, grade: str = "") -> Burn:
    return Burn(area=area, milli_stop=milli_stop, grade=grade)


def test_entries_for_one_area_add_in_seconds() -> None:
    sky, hull = area_times({"2": 20.0}, [burn("sky", 1000), burn("hull", -500), burn("sky", 500)])
    assert (sky.area, hull.area) == ("sky", "hull")
    assert [change.seconds for change in sky.changes] == pytest.approx([20, 20 * (2**0.5 - 1)])
    assert sky.exposures_s == pytest.approx({"2": 20 * (1 + 2**0.5)})
    assert sky.stops == pytest.approx(1.2716, abs=5e-5)
    assert hull.stops == pytest.approx(-0.5)


def test_split_grade_changes_both_or_the_one_that_is_named() -> None:
    base = {"00": 12.0, "5": 8.0}
    (both,) = area_times(base, [burn("edge", 1000)])
    assert both.exposures_s == pytest.approx({"00": 24, "5": 16})
    assert both.stops == pytest.approx(1)
    (soft,) = area_times(base, [burn("sky", 1000, "00")])
    assert soft.exposures_s == pytest.approx({"00": 24, "5": 8})
    assert soft.stops is None


def test_a_burn_at_a_grade_of_its_own_counts_from_the_whole_base() -> None:
    (sky,) = area_times({"2": 20.0}, [burn("sky", 1000, "5")])
    assert sky.exposures_s == pytest.approx({"2": 20, "5": 20})
    assert sky.stops is None


@pytest.mark.parametrize(
    ("base", "burns", "said"),
    [
        ({}, [burn("sky", 1000)], "no base exposure"),
        ({"2": 0.0}, [burn("sky", 1000)], "above zero"),
        ({"2": 20.0}, [burn("sky", -1000, "5")], "at which nothing is exposed"),
        ({"2": 20.0}, [burn("sky", -1000), burn("sky", -1000)], "held back from “sky”"),
    ],
)
def test_areas_that_cannot_be_are_refused(
    base: dict[str, float], burns: list[Burn], said: str
) -> None:
    with pytest.raises(Refused, match=said):
        area_times(base, burns)
