"""Range, speed and match on papers whose answer is known: the handbook's section 11."""

from math import log

import pytest
from numpy.random import default_rng

from provenance.craft.sensitometry.logistic import fit_logistic
from provenance.craft.sensitometry.matching import Target, match, shifts
from provenance.craft.sensitometry.paper_range import (
    SHOULDER,
    SPEED_POINT,
    STANDARD_SOURCE,
    TOE,
    TOE_SOURCE,
    PaperRange,
    paper_range,
    slower_by,
    speed_point,
)
from provenance.craft.sensitometry.steps import nominal_tablet
from provenance.errors import Refused
from tests.craft.sensitometry.papers import (
    D_MAX,
    D_MIN,
    TONES,
    curve,
    hump,
    paper,
    steps,
)

OFFSETS = [0.0, 0.013, 0.05, 0.0871, 0.137, 0.2, 0.255]


def test_the_definition_of_the_range() -> None:
    # S: 0.04 above D-min, Focal Encyclopedia of Photography, p. 679.
    assert (TOE, TOE_SOURCE.grade) == (0.04, "S")
    # M: 0.90 of the net density, and R to the nearest 10, ISO 6846.
    assert (SHOULDER, STANDARD_SOURCE.grade) == (0.90, "M")
    assert [PaperRange(0, log_h).class_r for log_h in (1.049, 1.051, 0.9, 1.46)] == [
        *(100, 110, 90, 150)
    ]


def test_the_speed_point() -> None:
    # M: ISO 6846, 0.60 above D-min; only differences of it are used.
    assert (SPEED_POINT, STANDARD_SOURCE.grade) == (0.60, "M")


def test_a_logistic_paper_has_a_closed_form() -> None:
    # C: net density 2.00, k · LER = 2 ln 21; the ends lie 0.55 about D-min + 0.60.
    closed = paper(1.10)
    assert closed.steepness == pytest.approx(2 * log(21) / 1.10)
    assert closed.steepness == pytest.approx(5.5355, abs=5e-5)
    assert closed.log_h_at(D_MIN + 0.60) == pytest.approx(0, abs=1e-12)
    assert (closed.range.begins, closed.range.ends) == pytest.approx((-0.55, 0.55))


@pytest.mark.parametrize("slower", OFFSETS)
def test_range_and_speed_are_recovered_without_noise(slower: float) -> None:
    # C: at most 0.001 log H with 31 steps.
    fitted = curve(paper(1.10, slower).density_at)
    assert paper_range(fitted).log_h == pytest.approx(1.10, abs=0.001)
    assert paper_range(fitted).class_r == 110
    assert speed_point(fitted) == pytest.approx(slower, abs=0.001)
    assert slower_by(curve(paper(1.10).density_at), fitted) == pytest.approx(slower, abs=0.001)


@pytest.mark.parametrize("slower", OFFSETS)
def test_papers_of_one_shape_match_without_noise(slower: float) -> None:
    # C: at most 0.001 log H, at every tone.
    old, new = curve(paper(1.10).density_at), curve(paper(1.10, slower).density_at)
    found = shifts(old, new, TONES)
    assert [one.delta_log_h for one in found] == pytest.approx([slower] * len(TONES), abs=0.001)
    assert match(old, new, TONES).delta_log_h == pytest.approx(slower, abs=0.001)


def test_papers_of_one_shape_match_with_noise() -> None:
    # C: readings off by 0.01 (standard error) move the match by at most 0.015 log H.
    found = []
    for trial in range(100):
        noise = default_rng(trial)
        old = curve(paper(1.10).density_at, noise)
        new = curve(paper(1.10, 0.137).density_at, noise)
        found.append(match(old, new, TONES))
    off = [abs(one.delta_log_h - 0.137) for one in found]
    assert max(off) <= 0.015
    # The band of two standard errors holds what it says: about nineteen in twenty.
    within = sum(one <= 2 * matched.error for one, matched in zip(off, found, strict=True))
    assert 88 <= within < 100


def test_papers_of_different_contrast() -> None:
    # C: D-min 0.05, net 2.00; old R 110 at 0, new R 90 slower by 0.20.
    densities = (0.15, 0.35, 0.65, 1.0, 1.5, 1.8)
    expected = [0.2689, 0.2291, 0.2000, 0.1755, 0.1403, 0.1083]
    old, new = paper(1.10), paper(0.90, 0.20)
    closed = [new.log_h_at(d) - old.log_h_at(d) for d in densities]
    assert closed == pytest.approx(expected, abs=5e-4)
    targets = [Target(str(d), d) for d in densities]
    fitted = shifts(curve(old.density_at), curve(new.density_at), targets)
    assert [one.delta_log_h for one in fitted] == pytest.approx(expected, abs=7e-4)


def test_two_emulsions_are_not_a_logistic() -> None:
    # C: a hump of range 146 that a logistic takes for more than 200.
    assert paper_range(curve(hump)).log_h == pytest.approx(1.46, abs=0.002)
    fooled = fit_logistic(steps(hump), D_MIN, D_MAX)
    assert 2 * log(21) / fooled.steepness > 2.0
    with pytest.raises(Refused, match="take the range from the curve"):
        _ = fooled.range


def test_what_an_error_costs_in_highlights_and_mid_tones() -> None:
    # C: 0.01 is 0.15 stop at density 0.09 and 0.014 stop at 0.65.
    closed = paper(1.10)
    for density, stops in ((0.09, 0.15), (0.65, 0.014)):
        cost = (closed.log_h_at(density + 0.005) - closed.log_h_at(density - 0.005)) / 0.30103
        assert cost == pytest.approx(stops, rel=0.05)


def test_tablets_as_they_are_sold() -> None:
    # S: nominal.
    assert nominal_tablet(21)[-1] == pytest.approx(3.0)
    assert nominal_tablet(31)[-1] == pytest.approx(3.0)
