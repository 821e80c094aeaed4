"""A curve rises, keeps to what was read, and says how far it may be off."""

from itertools import pairwise
from math import nextafter, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.random import default_rng

from provenance.craft.sensitometry.curve import Curve, fit_curve
from provenance.craft.sensitometry.logistic import fit_logistic
from provenance.craft.sensitometry.paper_range import paper_range
from provenance.craft.sensitometry.steps import (
    READING_ERROR,
    Step,
    gathered,
    nominal_tablet,
    reading_error,
)
from provenance.errors import Refused
from tests.craft.sensitometry.papers import D_MAX, D_MIN, curve, hump, paper, steps

rising = st.lists(st.floats(0.001, 0.4), min_size=6, max_size=31).map(
    lambda rises: [0.05 + sum(rises[: n + 1]) for n in range(len(rises))]
)
anything = st.lists(st.floats(0.05, 2.0), min_size=6, max_size=31)


def of(densities: list[float]) -> Curve:
    """A curve through readings a tenth of log H apart."""
    return fit_curve(
        [Step(n / 10, (density,)) for n, density in enumerate(densities)], [0.05], [3.0]
    )


@given(rising.filter(lambda one: one[-1] - one[0] >= 0.3))
def test_readings_that_rise_are_kept_and_the_curve_rises(densities: list[float]) -> None:
    fitted = of(densities)
    assert fitted.density == pytest.approx(densities)
    assert fitted.moved == pytest.approx(0, abs=1e-9)
    drawn = [density for _log_h, density in fitted.samples(301)]
    assert all(after >= before - 1e-12 for before, after in pairwise(drawn))
    assert min(drawn) >= densities[0] - 1e-12
    assert max(drawn) <= densities[-1] + 1e-12


@given(anything)
def test_any_readings_give_a_curve_that_rises_or_a_refusal(densities: list[float]) -> None:
    try:
        fitted = of(densities)
    except Refused as refused:
        assert "do not rise" in str(refused)  # noqa: PT017 -- most draws do rise
        return
    drawn = [density for _log_h, density in fitted.samples(301)]
    assert all(after >= before - 1e-9 for before, after in pairwise(drawn))


@given(rising.filter(lambda one: one[-1] - one[0] >= 0.3), st.floats(0.001, 0.999))
def test_there_and_back(densities: list[float], share: float) -> None:
    fitted = of(densities)
    density = densities[0] + share * (densities[-1] - densities[0])
    assert fitted.density_at(fitted.log_h_at(density)) == pytest.approx(density, abs=1e-6)


def test_a_hair_from_a_knot() -> None:
    fitted = curve(paper(1.1).density_at)
    for log_h, density in list(zip(fitted.log_h, fitted.density, strict=True))[1:-1]:
        for near in (nextafter(density, 0), density, nextafter(density, 3)):
            assert fitted.log_h_at(near) == pytest.approx(log_h, abs=1e-6)


def test_the_middle_of_a_level_is_taken() -> None:
    assert of([0.1, 0.3, 0.6, 0.6, 0.6, 0.9, 1.2]).log_h_at(0.6) == pytest.approx(0.3)


def test_a_reading_that_falls_is_pooled_and_told() -> None:
    fitted = of([0.1, 0.3, 0.7, 0.5, 0.9, 1.2])
    assert fitted.density == pytest.approx([0.1, 0.3, 0.6, 0.6, 0.9, 1.2])
    assert fitted.moved == pytest.approx(0.1)
    assert fitted.error[2] == pytest.approx(READING_ERROR / sqrt(2))


def test_nothing_is_said_outside_of_the_readings() -> None:
    fitted = curve(paper(1.1).density_at)
    for density in (fitted.density[0], fitted.density[-1], 0.0, 3.0):
        assert not fitted.reads(density)
        with pytest.raises(Refused, match="outside of the readings"):
            fitted.log_h_at(density)
    for log_h in (-1.41, 1.61):
        with pytest.raises(Refused, match="a curve is not extended"):
            fitted.density_at(log_h)


def test_a_tablet_that_did_not_reach_black_gives_no_range() -> None:
    short = [step for step in steps(paper(1.1).density_at) if step.log_h < 0.4]
    with pytest.raises(Refused, match="outside of the readings"):
        paper_range(fit_curve(short, [D_MIN], [D_MAX]))


def test_replicates_make_the_error_smaller() -> None:
    once, often = (curve(paper(1.1).density_at, default_rng(5), times) for times in (1, 4))
    assert once.error[15] == pytest.approx(READING_ERROR)
    # Ninety readings to spare tell the error of one within a fifth.
    assert often.error[15] == pytest.approx(READING_ERROR / 2, rel=0.2)
    assert often.error_at(0.65) < once.error_at(0.65)


def test_the_band_of_the_range_holds_the_truth() -> None:
    within = 0
    for trial in range(100):
        found = paper_range(curve(paper(1.1).density_at, default_rng(trial)))
        within += abs(found.log_h - 1.1) <= 2 * found.error
    assert 85 <= within < 100


def test_steps_of_one_exposure_are_taken_together() -> None:
    both = gathered([Step(0.3, (0.5,)), Step(0.1, (0.2,)), Step(0.3, (0.7,))])
    assert both == (Step(0.1, (0.2,)), Step(0.3, (0.5, 0.7)))
    assert both[1].density == pytest.approx(0.6)


def test_the_error_of_a_reading_comes_from_replicates() -> None:
    assert reading_error([(0.5,), (0.6, 0.62)]) == READING_ERROR
    assert reading_error([(0.5, 0.54), (0.6, 0.64), (0.7, 0.74)]) == pytest.approx(0.02 * sqrt(2))
    assert reading_error([(0.5, 0.5, 0.5, 0.5)]) == READING_ERROR / 2


@pytest.mark.parametrize(
    ("readings", "d_min", "d_max", "said"),
    [
        ([0.1, 0.5, 0.9, 1.2], [0.05], [2.0], "4 exposures do not make a curve"),
        ([0.1, 0.5, 0.9, 1.2, 1.5], [], [2.0], "an unexposed patch was not read"),
        ([0.1, 0.5, 0.9, 1.2, 1.5], [0.05], [], "a fully exposed patch was not read"),
        ([0.1, 0.5, 0.9, 1.2, 1.5], [2.0], [0.05], "does not lie above D-min"),
        ([1.5, 1.2, 0.9, 0.5, 0.1], [0.05], [2.0], "do not rise with exposure"),
    ],
)
def test_what_is_no_wedge_is_refused(
    readings: list[float], d_min: list[float], d_max: list[float], said: str
) -> None:
    with pytest.raises(Refused, match=said):
        fit_curve([Step(n / 10, (one,)) for n, one in enumerate(readings)], d_min, d_max)


def test_a_tablet_of_no_common_kind_is_refused() -> None:
    with pytest.raises(Refused, match="17 steps"):
        nominal_tablet(17)


@given(st.floats(0.6, 1.8), st.floats(-0.4, 0.4))
def test_a_logistic_finds_a_logistic(log_h: float, slower: float) -> None:
    few = steps(paper(log_h, slower).density_at)[::3]
    fitted = fit_logistic(few, D_MIN, D_MAX)
    assert fitted.worst_residual < 1e-4
    assert fitted.range.log_h == pytest.approx(log_h, abs=1e-3)


def test_a_logistic_is_allowed_below_its_worst_residual_only() -> None:
    exact = paper(1.1).density_at
    bent = [
        Step(one.log_h, (one.density + (0.028 if n == 20 else 0),))
        for n, one in enumerate(steps(exact))
    ]
    assert fit_logistic(bent, D_MIN, D_MAX).range.log_h == pytest.approx(1.1, abs=0.02)
    bent[20] = Step(bent[20].log_h, (bent[20].density + 0.01,))
    for readings in (bent, steps(hump)):
        with pytest.raises(Refused, match="too much"):
            _ = fit_logistic(readings, D_MIN, D_MAX).range


def test_three_readings_make_no_logistic() -> None:
    with pytest.raises(Refused, match="3 exposures"):
        fit_logistic(steps(paper(1.1).density_at)[:3], D_MIN, D_MAX)
