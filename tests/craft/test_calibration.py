"""The studio's own scale from a spot's darkness to an amount."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.calibration import READING_ERROR_MD, SpotScale
from provenance.errors import Refused
from provenance.model.study import SpotCalibration, SpotPoint


def scale(*points: tuple[int, int]) -> SpotScale:
    return SpotScale(
        SpotCalibration(
            code="C-1",
            paper=5,
            done_on="2031-03-02",
            method="silver-nitrate spot",
            points=tuple(
                SpotPoint(darker_md=darker, found_ng_per_cm2=found) for darker, found in points
            ),
        )
    )


RISING = st.lists(
    st.tuples(st.integers(60, 300), st.integers(50, 5000)), min_size=4, max_size=9
).map(
    lambda steps: [
        (sum(d for d, _f in steps[: n + 1]), sum(f for _d, f in steps[: n + 1]))
        for n in range(len(steps))
    ]
)


def test_between_two_spots_it_runs_straight() -> None:
    found = scale((0, 100), (100, 500), (300, 1500), (600, 4000)).convert(200)
    assert (found.ng_per_cm2, found.least_ng_per_cm2, found.most_ng_per_cm2) == (1000, 500, 1500)


@given(RISING, st.data())
def test_a_darker_spot_never_stands_for_less(
    points: list[tuple[int, int]], data: st.DataObject
) -> None:
    held = scale(*points)
    inside = st.integers(points[0][0], points[-1][0] - READING_ERROR_MD)
    lighter, darker = sorted((data.draw(inside), data.draw(inside)))
    one, other = held.convert(lighter), held.convert(darker)
    assert one.ng_per_cm2 <= other.ng_per_cm2
    assert one.least_ng_per_cm2 <= other.least_ng_per_cm2
    assert one.most_ng_per_cm2 <= other.most_ng_per_cm2
    for found in (one, other):
        assert found.least_ng_per_cm2 <= found.ng_per_cm2 <= found.most_ng_per_cm2


@given(RISING, st.data())
def test_what_the_laboratory_found_lies_in_the_band_of_its_own_spot(
    points: list[tuple[int, int]], data: st.DataObject
) -> None:
    darker, found = data.draw(st.sampled_from(points[:-1]))
    read = scale(*points).convert(darker)
    assert read.ng_per_cm2 == found
    assert read.least_ng_per_cm2 <= found <= read.most_ng_per_cm2


@given(RISING)
def test_the_order_of_the_spots_does_not_matter(points: list[tuple[int, int]]) -> None:
    middle = (points[0][0] + points[-1][0]) // 2
    assert scale(*points[::-1]).convert(middle) == scale(*points).convert(middle)


def test_readings_the_wrong_way_round_are_taken_together() -> None:
    # 520 and 480 stand together as 500 at 0.15; the band keeps both
    held = scale((0, 100), (100, 520), (200, 480), (400, 2000))
    found = held.convert(150)
    assert found.ng_per_cm2 == 500
    assert found.least_ng_per_cm2 <= 480
    assert found.most_ng_per_cm2 >= 520


def test_two_readings_of_one_darkness_widen_the_band() -> None:
    found = scale((0, 100), (200, 450), (200, 550), (400, 2000), (600, 3000)).convert(180)
    assert found.most_ng_per_cm2 == 550


@pytest.mark.parametrize(
    "points",
    [
        (),
        ((100, 500),),
        ((100, 500), (200, 900)),
        ((100, 500), (100, 700), (200, 900)),
        ((100, 900), (200, 500), (300, 100)),
        ((100, 500), (200, 500), (300, 500)),
    ],
)
def test_fewer_than_three_rising_levels_are_no_scale(points: tuple[tuple[int, int], ...]) -> None:
    with pytest.raises(Refused) as caught:
        scale(*points)
    (problem,) = caught.value.problems
    assert (problem.record, problem.field) == ("C-1", "points")
    assert "3 spots or more" in problem.mend


@pytest.mark.parametrize(
    ("darker", "said"),
    [(-1, "lighter than the paper"), (20, "outside"), (590, "outside"), (5000, "outside")],
)
def test_nothing_is_read_beyond_the_scale(darker: int, said: str) -> None:
    with pytest.raises(Refused, match=said) as caught:
        scale((50, 100), (200, 500), (600, 4000)).convert(darker)
    assert caught.value.problems[0].mend
