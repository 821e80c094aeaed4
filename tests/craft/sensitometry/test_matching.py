"""The match keeps the mid-tones, and grades are chosen by the tones of the print."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.random import default_rng

from provenance.craft.sensitometry.choice import predict, ranked
from provenance.craft.sensitometry.curve import fit_curve
from provenance.craft.sensitometry.logistic import logistic_of_range
from provenance.craft.sensitometry.matching import Target, match, shift_at
from provenance.craft.sensitometry.paper_range import paper_range
from provenance.errors import Refused
from tests.craft.sensitometry.papers import TONES, curve, hump, paper, steps

OLD = curve(paper(1.1).density_at)
tones = st.lists(st.floats(0.1, 1.9), min_size=1, max_size=8).map(
    lambda densities: [Target(f"{d:g}", d) for d in densities]
)


@settings(max_examples=40)
@given(tones, st.floats(0.7, 1.7), st.integers(0, 50))
def test_identical_papers_give_no_change(targets: list[Target], log_h: float, trial: int) -> None:
    same = curve(paper(log_h).density_at, default_rng(trial))
    reached = [one for one in targets if same.reads(one.density)]
    if not reached:
        return
    found = match(same, same, reached)
    assert found.delta_log_h == pytest.approx(0, abs=1e-9)
    assert found.spread_log_h == pytest.approx(0, abs=1e-9)
    (candidate,) = ranked(same, {"same": same}, reached)
    assert candidate.rms_error == pytest.approx(0, abs=1e-6)
    assert candidate.unreachable == ()


@settings(max_examples=25)
@given(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3))
def test_changes_of_paper_add(one: float, other: float) -> None:
    first, last = (curve(paper(1.1, slower).density_at) for slower in (one, one + other))
    there = match(OLD, first, TONES).delta_log_h + match(first, last, TONES).delta_log_h
    assert match(OLD, last, TONES).delta_log_h == pytest.approx(there, abs=0.002)


def test_mid_tones_are_the_anchors() -> None:
    found = match(OLD, curve(paper(0.9, 0.2).density_at), TONES)
    assert found.anchors == ("0.5", "0.65", "0.8")
    assert found.delta_log_h == pytest.approx(0.2, abs=0.003)
    assert [caution.id for caution in found.cautions] == ["contrast"]
    assert match(OLD, curve(paper(1.1, 0.2).density_at), TONES).cautions == ()


def test_without_a_mid_tone_the_nearest_stands_in_with_a_caution() -> None:
    found = match(OLD, OLD, [Target("sky", 0.15), Target("hull", 1.8)])
    assert found.anchors == ("sky",)
    assert [caution.id for caution in found.cautions] == ["no mid-tone"]


def test_an_error_costs_more_in_the_highlights() -> None:
    light, middle = (shift_at(OLD, OLD, Target("", density)) for density in (0.12, 0.65))
    assert light.error > 3 * middle.error


def test_no_tone_in_reach_is_refused() -> None:
    with pytest.raises(Refused, match="within both curves"):
        match(OLD, OLD, [Target("black", 2.3)])


def test_the_grade_of_the_right_contrast_comes_first() -> None:
    grades = {
        str(grade): curve(paper(log_h, 0.1).density_at)
        for grade, log_h in ((1, 1.3), (2, 1.12), (3, 0.95), (4, 0.8))
    }
    order = ranked(OLD, grades, TONES)
    assert [one.name for one in order] == ["2", "3", "1", "4"]
    assert order[0].rms_error < 0.02
    assert abs(order[3].worst.error) > 0.1


def test_density_error_outranks_the_range() -> None:
    # A hump has the very range of the reference; a plain paper is off by R 12.
    reference = curve(paper(1.46).density_at)
    candidates = {"hump": curve(hump), "plain": curve(paper(1.34).density_at)}
    away = {
        name: abs(paper_range(one).log_h - paper_range(reference).log_h)
        for name, one in candidates.items()
    }
    assert away["hump"] < away["plain"]
    assert [one.name for one in ranked(reference, candidates, TONES)] == ["plain", "hump"]


def test_tones_that_the_paper_cannot_give_are_flagged() -> None:
    weak = logistic_of_range(1.1, d_min=0.12, d_max=1.60)
    new = fit_curve(steps(weak.density_at), [0.12], [1.60])
    targets = [Target("sky", 0.09), Target("mast", 0.65), Target("hull", 1.9)]
    (only,) = ranked(OLD, {"weak": new}, targets)
    assert [(one.target.spot, one.reach) for one in only.unreachable] == [
        ("sky", "below D-min"),
        ("hull", "beyond D-max"),
    ]
    assert only.worst.target.spot == "hull"
    darker = paper(1.1).log_h_at(1.9) - paper(1.1).log_h_at(0.65)
    expected = weak.density_at(weak.log_h_at(0.65) + darker) - 1.9
    assert only.worst.error == pytest.approx(expected, abs=0.005)
    assert expected < 1.60 - 1.9


def test_a_tone_beyond_the_old_curve_does_not_sway_the_choice() -> None:
    grades = {name: curve(paper(log_h).density_at) for name, log_h in (("2", 1.12), ("3", 0.95))}
    black = Target("rope", 2.4)
    with_it = ranked(OLD, grades, [*TONES, black])
    without = ranked(OLD, grades, TONES)
    assert [one.name for one in with_it] == ["2", "3"]
    assert [one.rms_error for one in with_it] == [one.rms_error for one in without]
    assert [one.target for one in with_it[0].unreachable] == [black]


def test_what_was_not_measured_is_said_and_not_guessed() -> None:
    short = [step for step in steps(paper(1.1).density_at) if step.log_h < 0.3]
    new = fit_curve(short, [0.05], [2.05])
    predicted = predict(OLD, new, 0.0, Target("hull", 1.8))
    assert predicted.reach == "not measured"
    assert predicted.density == pytest.approx(new.density[-1])
    assert predict(OLD, new, 0.0, Target("black", OLD.density[-1])).reach == "not measured"


def test_candidates_without_a_tone_in_common_are_left_out() -> None:
    far = fit_curve(
        [step for step in steps(paper(1.1).density_at) if step.log_h > 0.25], [0.05], [2.05]
    )
    targets = [Target("mast", 0.65)]
    assert [one.name for one in ranked(OLD, {"far": far, "near": OLD}, targets)] == ["near"]
    with pytest.raises(Refused, match="no candidate"):
        ranked(OLD, {"far": far}, targets)
