"""What mixing alone leaves, and what sheets carry along."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.washing.carry_over import USUAL, CarryOver, carried_mg
from provenance.craft.washing.changes import (
    changes_to,
    left_after_changes,
    left_in_running_water,
    running_time_ms,
    volumes_per_hour,
)
from provenance.craft.washing.sayings import Saying
from provenance.errors import Refused
from provenance.model.quantities import Size
from provenance.model.sources import Sourced

VOLUMES = st.integers(1, 10_000_000)
SHEET = Size(height_tenth_mm=2400, width_tenth_mm=3000)


@given(VOLUMES, VOLUMES, st.integers(0, 40), st.integers(0, 40))
def test_changes_one_after_another_multiply(v: int, fill: int, first: int, then: int) -> None:
    together = left_after_changes(v, fill, first + then)
    apart = left_after_changes(v, fill, first) * left_after_changes(v, fill, then)
    assert together == pytest.approx(apart)


@given(VOLUMES, VOLUMES)
def test_two_small_changes_beat_one_large(v: int, fill: int) -> None:
    assert left_after_changes(v, fill, 2) < left_after_changes(v, 2 * fill, 1)


@given(st.integers(1, 10_000), st.integers(1_000, 1_000_000), st.floats(1e-9, 0.999))
def test_the_fewest_changes_are_enough_and_one_less_is_not(v: int, fill: int, share: float) -> None:
    fewest = changes_to(share, v, fill)
    assert left_after_changes(v, fill, fewest) <= share * (1 + 1e-6)
    assert left_after_changes(v, fill, fewest - 1) > share


@given(st.floats(0.1, 100), st.floats(1e-6, 0.999))
def test_the_running_time_is_enough_and_no_longer_than_needed(each: float, share: float) -> None:
    time = running_time_ms(share, each)
    assert left_in_running_water(each, time) <= share * (1 + 1e-9)
    assert left_in_running_water(each, time - 2) > share


def test_a_flow_in_volumes_an_hour() -> None:
    # 2 L a minute through 10 L
    assert volumes_per_hour(200_000, 1_000_000) == 12


@given(st.integers(1, 500), st.integers(1, 500))
def test_sheets_carry_by_their_area(one: int, other: int) -> None:
    apart = USUAL.volume_hundredth_ml(SHEET, one) + USUAL.volume_hundredth_ml(SHEET, other)
    assert abs(USUAL.volume_hundredth_ml(SHEET, one + other) - apart) <= 1


def test_what_is_carried_is_named_with_its_worth() -> None:
    assert carried_mg(2000, 60_000) == 1200
    assert str(USUAL) == (
        "387.5 ml carried on a square metre: 20 ml on a sheet of 8 × 10 in"
        " (common practice, no source)"
    )


@given(st.floats(1e-3, 1e3), st.floats(1e-6, 1e3), st.floats(0.01, 0.99), st.integers(0, 60))
def test_a_saying_can_hold_when_it_has_the_changes_it_needs(
    start: float, limit: float, each: float, changes: int
) -> None:
    saying = Saying(start, changes, each, limit)
    if abs(changes - saying.changes_needed) > 1e-6:
        assert saying.can_hold == (changes > saying.changes_needed)


@pytest.mark.parametrize(
    ("ask", "given", "field"),
    [
        (left_after_changes, (0, 1000, 1), "carried"),
        (left_after_changes, (20, 0, 1), "fill"),
        (left_after_changes, (20, 1000, -1), "changes"),
        (changes_to, (0, 20, 1000), "to"),
        (changes_to, (1, 20, 1000), "to"),
        (running_time_ms, (1.5, 12), "to"),
        (volumes_per_hour, (0, 1000), "flow"),
        (volumes_per_hour, (1000, 0), "volume"),
        (CarryOver, (0, Sourced("P")), "carried"),
        (CarryOver, (600_000, Sourced("P")), "carried"),
        (USUAL.volume_hundredth_ml, (SHEET, 0), "sheets"),
        (Saying, (0, 3, 0.5, 0.014), "changes"),
        (Saying, (23, 3, 1.0, 0.014), "changes"),
        (Saying, (23, -1, 0.5, 0.014), "changes"),
        (Saying, (23, 3, 0.5, 0), "changes"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    ask: Callable[..., object], given: tuple[object, ...], field: str
) -> None:
    with pytest.raises(Refused) as caught:
        ask(*given)
    assert [problem.field for problem in caught.value.problems] == [field]
