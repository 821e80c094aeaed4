"""Strips, dry-down and split-grade."""

from itertools import accumulate

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from provenance.craft.exposure.drydown import START, DryDown, measured_dry_down
from provenance.craft.exposure.split import SplitGrade
from provenance.craft.exposure.strips import strip_around
from provenance.errors import Refused


def test_a_strip_of_third_stops() -> None:
    strip = strip_around(16, 7, 1 / 3)
    assert [patch.total_s for patch in strip.patches] == pytest.approx(
        [8, 10.1, 12.7, 16, 20.2, 25.4, 32]
    )
    assert strip.cover_s == pytest.approx([8, 2.1, 2.6, 3.3, 4.2, 5.2, 6.6])
    assert strip.uncover_s == strip.cover_s[::-1]


@given(st.floats(2, 60), st.integers(2, 9), st.sampled_from([0.25, 1 / 3, 0.5, 1]))
def test_covering_and_uncovering_give_the_same_patches(
    centre_s: float, patches: int, step: float
) -> None:
    try:
        strip = strip_around(centre_s, patches, step)
    except Refused:
        assume(False)
    totals = [patch.total_s for patch in strip.patches]
    # Covered from the lightest on: a patch has every exposure up to its own.
    assert list(accumulate(strip.cover_s)) == pytest.approx(totals)
    # Uncovered from the darkest on: a patch has every exposure from its own on.
    assert list(accumulate(reversed(strip.uncover_s))) == pytest.approx(totals)
    for patch in strip.patches:
        assert abs(patch.total_s - centre_s * 2**patch.stops) <= 0.05 + 1e-9


@pytest.mark.parametrize(
    ("centre_s", "patches", "step", "said"),
    [(10, 1, 0.5, "1 patches"), (10, 25, 0.5, "25 patches"), (1, 5, 0.05, "timer can set")],
)
def test_a_strip_that_shows_nothing_is_refused(
    centre_s: float, patches: int, step: float, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        strip_around(centre_s, patches, step)


def test_dry_down_is_measured_for_a_paper() -> None:
    measured = measured_dry_down(20, 18.6)
    assert measured.percent == pytest.approx(7)
    assert measured.dried_down_s(30) == pytest.approx(27.9)
    assert START.source.grade == "S2"
    assert DryDown(0, START.source).stops == 0


@pytest.mark.parametrize("dry_s", [21, 9])
def test_a_dry_down_of_no_paper_is_refused(dry_s: float) -> None:
    with pytest.raises(Refused, match="dry-down"):
        measured_dry_down(20, dry_s)


def test_split_grade_keeps_its_balance_when_scaled() -> None:
    split = SplitGrade(12, 8)
    scaled = split.scaled(1.5)
    assert scaled.balance_stops == pytest.approx(split.balance_stops)
    assert scaled.total_s == pytest.approx(20 * 2**1.5)
    harder = split.changed(hard_stops=1)
    assert (harder.soft_s, harder.hard_s) == pytest.approx((12, 16))
    assert harder.balance_stops == pytest.approx(split.balance_stops + 1)
