"""Magnification, lens stops, and the reprint made of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.exposure.cautions import light_cautions, time_cautions
from provenance.craft.exposure.lens import aperture_stops, lens_stop
from provenance.craft.exposure.magnification import (
    conjugates,
    distance_factor,
    enlarging_factor,
    enlarging_stops,
    measured_magnification,
)
from provenance.craft.exposure.reprint import Change, Magnification, reprint
from provenance.craft.exposure.stops import exposed_s
from provenance.errors import Refused

magnifications = st.floats(0.1, 60)


@given(magnifications, magnifications, magnifications)
def test_changes_of_magnification_add_in_stops(one: float, two: float, three: float) -> None:
    by_way = enlarging_stops(one, two) + enlarging_stops(two, three)
    assert enlarging_stops(one, three) == pytest.approx(by_way, abs=1e-9)


@given(magnifications, magnifications)
def test_the_law_is_the_square_of_the_distance_to_the_paper(one: float, two: float) -> None:
    by_distance = distance_factor(conjugates(80, one).to_paper, conjugates(80, two).to_paper)
    assert enlarging_factor(one, two) == pytest.approx(by_distance)


@given(magnifications)
def test_conjugates_obey_the_lens_equation(m: float) -> None:
    away = conjugates(80, m)
    assert 1 / away.to_paper + 1 / away.to_negative == pytest.approx(1 / 80)
    assert measured_magnification(away.to_paper, away.to_negative) == pytest.approx(m)


def test_every_mark_is_within_a_sixth_of_a_stop_of_what_it_stands_for() -> None:
    marks = [1, 1.1, 1.2, 1.4, 1.7, 2.5, 3.5, 4.5, 4.8, 6.3, 7.1, 9, 9.5, 13, 14, 19, 20, 45, 76]
    for mark in marks:
        stop = lens_stop(mark)
        assert stop.on_scale
        assert abs(stop.exact / mark - 1) < 0.06
    assert lens_stop(13).others == pytest.approx((2 ** (7.5 / 2),))


def test_stops_of_a_lens_are_whole() -> None:
    scale = [2.8, 4, 5.6, 8, 11, 16, 22, 32]
    for place, mark in enumerate(scale):
        assert aperture_stops(2.8, mark) == pytest.approx(place)
    assert aperture_stops(8, 6.3) == pytest.approx(-2 / 3)


def test_a_mark_of_no_scale_is_taken_as_written_and_said() -> None:
    assert (lens_stop(4.2).exact, lens_stop(4.2).on_scale) == (4.2, False)
    new = reprint(10, Change(from_f=4.2, to_f=13))
    assert [one.id for one in new.cautions] == ["four-fold", "longer", "no scale", "two scales"]


@given(st.floats(2, 40), magnifications, st.floats(0, 0.1))
def test_the_same_set_up_gives_the_same_time(old_s: float, m: float, error: float) -> None:
    same = Change(from_m=Magnification(m, error), to_m=Magnification(m, error))
    new = reprint(old_s, same)
    assert (new.seconds, new.low_s, new.high_s) == pytest.approx((old_s, old_s, old_s))
    assert new.cautions == ()


def test_the_parts_add_to_the_whole_and_errors_as_squares() -> None:
    change = Change(0.15, 0.006, Magnification(4, 0.003), Magnification(5, 0.003), 8, 11)
    new = reprint(20, change)
    assert new.stops == pytest.approx(
        new.paper_stops + new.magnification_stops + new.aperture_stops
    )
    assert new.seconds == pytest.approx(exposed_s(20, new.stops))
    # 2 · sqrt(0.006² + (0.003·0.8·0.8686)² + (0.003·0.8333·0.8686)²) / 0.30103
    assert new.band_stops == pytest.approx(0.0446, abs=5e-5)
    assert new.low_s * new.high_s == pytest.approx(new.seconds**2)


def test_cautions_say_where_the_arithmetic_ends() -> None:
    assert light_cautions("diffuse", 2, 8) == light_cautions("condenser", 4, 4) == ()
    assert "condenser light" in light_cautions("condenser", 2, 4)[0].text
    assert "not on record" in light_cautions("", 2, 4)[0].text
    assert time_cautions(40, 10) == time_cautions(2) == ()
    assert [one.id for one in time_cautions(1.9, 8)] == ["four-fold", "shorter"]
    assert [one.id for one in time_cautions(41, 10)] == ["four-fold", "longer"]
    assert time_cautions(41)[0].source.grade == "S2"


@pytest.mark.parametrize(
    "change", [Change(from_m=Magnification(0)), Change(to_m=Magnification(-2)), Change(to_f=0)]
)
def test_what_no_enlarger_has_is_refused(change: Change) -> None:
    with pytest.raises(Refused, match="above zero"):
        reprint(20, change)
