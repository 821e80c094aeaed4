"""What patches before and after a bleach tell, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.conversion import (
    CAN_SAY,
    CANNOT_SAY,
    READING_ERROR_MD,
    coverage,
    estimate_from_time,
)
from provenance.errors import Refused
from provenance.model.study import BleachedPatch, BleachTest, ToningStudy

PAPER_MD = 60


def study(
    *net: tuple[int, int], bleach: BleachTest = "toning bleach", ms: int | None = None
) -> ToningStudy:
    """A study of patches that are so much darker than the paper, before and after."""
    return ToningStudy(
        code="T-1",
        paper=5,
        done_on="2031-03-02",
        bleach=bleach,
        bleached_ms=ms,
        d_min_md=PAPER_MD,
        patches=tuple(
            BleachedPatch(before_md=before + PAPER_MD, after_md=after + PAPER_MD)
            for before, after in net
        ),
    )


def test_highlights_first_and_shadows_last() -> None:
    found = coverage(study((1800, 1600), (900, 300), (300, 30)))
    assert [(one.before_md, one.left_permille) for one in found.shares] == [
        (300, 100),
        (900, 333),
        (1800, 889),
    ]
    assert found.can_say == ("share left unbleached", "out of reach of sulfide")
    assert "not each toner" in found.cannot_say


@given(st.integers(100, 3000).flatmap(lambda b: st.tuples(st.just(b), st.integers(0, b))))
def test_the_share_lies_in_its_band_and_the_band_in_the_possible(net: tuple[int, int]) -> None:
    (share,) = coverage(study(net)).shares
    assert 0 <= share.least_permille <= share.left_permille <= share.most_permille <= 1000
    assert share.left_permille == pytest.approx(1000 * net[1] / net[0], abs=0.5)


@given(st.integers(200, 1400))
def test_darker_patches_are_known_more_closely(before: int) -> None:
    light, dark = coverage(study((before, before // 2), (2 * before, before))).shares
    assert dark.most_permille - dark.least_permille < light.most_permille - light.least_permille


def test_a_patch_that_two_readings_cannot_judge_is_told_apart() -> None:
    found = coverage(study((40, 30), (1000, 500)))
    assert found.too_light == (40,)
    assert len(found.shares) == 1


@pytest.mark.parametrize("bleach", ["toning bleach", "oxidising bleach"])
def test_no_study_may_split_the_silver_between_toners(bleach: BleachTest) -> None:
    assert {"not the silver", "not each toner"} <= {*CANNOT_SAY[bleach]}
    assert not {*CAN_SAY[bleach]} & {*CANNOT_SAY[bleach]}
    assert "estimate" not in CAN_SAY[bleach]


@pytest.mark.parametrize(
    ("net", "said"),
    [
        ((900, 1000), "more than 100 %"),
        ((900, 921), "more than 100 %"),
        ((900, -30), "less than that of the paper"),
        ((-30, -30), "less than that of the paper"),
        ((50, 10), "no patch is dark enough"),
    ],
)
def test_densities_that_cannot_be_are_refused(net: tuple[int, int], said: str) -> None:
    with pytest.raises(Refused, match=said) as caught:
        coverage(study(net))
    assert caught.value.problems[0].record == "T-1"
    assert caught.value.problems[0].mend


def test_every_patch_that_is_wrong_is_named() -> None:
    with pytest.raises(Refused) as caught:
        coverage(study((900, 1000), (900, 300), (300, 400)))
    assert [problem.field for problem in caught.value.problems] == ["patch 1", "patch 3"]


def test_readings_may_lie_off_by_their_error() -> None:
    assert coverage(study((900, 900 + READING_ERROR_MD))).shares[0].left_permille == 1000
    assert coverage(study((900, -READING_ERROR_MD))).shares[0].left_permille == 0


def test_an_estimate_is_called_one() -> None:
    base = study((900, 300), ms=120_000)
    (same,) = estimate_from_time(base, 120_000)
    (longer,) = estimate_from_time(base, 240_000)
    assert (same.left_permille, longer.left_permille) == (333, 111)
    assert same.says == "estimate"


@pytest.mark.parametrize(
    ("base", "ms", "said"),
    [
        (study((900, 300)), 60_000, "nothing can be estimated"),
        (study((900, 300), ms=0), 60_000, "nothing can be estimated"),
        (study((900, 300), bleach="oxidising bleach", ms=60_000), 60_000, "nothing can be"),
        (study((900, 300), ms=60_000), 29_000, "too far"),
        (study((900, 300), ms=60_000), 121_000, "too far"),
        (study((900, 300), ms=60_000), 0, "too far"),
    ],
)
def test_no_estimate_is_made(base: ToningStudy, ms: int, said: str) -> None:
    with pytest.raises(Refused, match=said):
        estimate_from_time(base, ms)
