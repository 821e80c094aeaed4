"""Exposure and enlarging: every figure of the handbook's section 10."""

from math import log2

import pytest

from provenance.craft.exposure.cautions import (
    FOUR_FOLD,
    FOUR_FOLD_SOURCE,
    TESTED_S,
    TESTED_SOURCE,
    light_cautions,
    time_cautions,
)
from provenance.craft.exposure.drydown import START
from provenance.craft.exposure.lens import aperture_stops, lens_stop
from provenance.craft.exposure.magnification import (
    conjugates,
    distance_factor,
    enlarging_factor,
    framing,
)
from provenance.craft.exposure.reprint import Change, Magnification, reprint
from provenance.craft.exposure.stops import (
    burn_s,
    dodge_s,
    exposed_s,
    log_h_of,
    through_density_s,
)
from provenance.craft.units import parse_size


def test_a_published_table_of_burns_and_dodges() -> None:
    # S: a published f-stop table prints 5.2 and 10.5.
    assert dodge_s(25.4, 1 / 3) == pytest.approx(5.24, abs=0.005)
    assert burn_s(25.4, 1 / 2) == pytest.approx(10.52, abs=0.005)


def test_published_changes_in_stops() -> None:
    # S
    assert exposed_s(17, 0.4) == pytest.approx(22.43, abs=0.005)
    assert exposed_s(24, -1 / 3) == pytest.approx(19.05, abs=0.005)


def test_a_stop_in_log_exposure() -> None:
    # C
    assert log_h_of(1) == pytest.approx(0.30103, abs=5e-6)


def test_magnification() -> None:
    # S: Clerc, Photography: Theory and Practice, relative times at m = 2, 3, 4, 5.
    assert [9 * enlarging_factor(2, m) for m in (2, 3, 4, 5)] == pytest.approx([9, 16, 25, 36])
    # C: the ratio of the magnifications squared, 4.0, is the common mistake.
    assert enlarging_factor(2, 4) == pytest.approx(2.7778, abs=5e-5)


def test_distance() -> None:
    # S: Clerc, 12 to 20 in.
    assert distance_factor(12, 20) == pytest.approx(400 / 144)
    # S: Tennant, 5 s at 1 ft is 20 s at 2 ft.
    assert 5 * distance_factor(1, 2) == pytest.approx(20)
    # S: Wellington Photographic Handbook, 3 min 30 s comes to 2 min 8 s; 128.17 s (C).
    assert 210 * distance_factor(192, 150) == pytest.approx(128.17, abs=0.005)


def test_another_density_of_the_negative() -> None:
    # S: Clerc, 12 s under 1.5 are 30 s under 1.9; 30.14 (C).
    assert through_density_s(12, 1.5, 1.9) == pytest.approx(30.14, abs=0.005)


def test_conjugate_distances() -> None:
    # S: 6 in, four times.
    away = conjugates(6, 4)
    assert (away.to_paper, away.to_negative) == pytest.approx((30, 7.5))


def test_f_numbers_are_powers() -> None:
    # C
    exact = [lens_stop(marked).exact for marked in (5.6, 8, 11, 16)]
    assert exact == pytest.approx([5.657, 8, 11.314, 16], abs=5e-4)


def test_dry_down_to_begin_with() -> None:
    # S2: ten percent less; -0.152 stop (C).
    assert START.percent == 10
    assert START.stops == pytest.approx(-0.152, abs=5e-4)


def test_a_reprint() -> None:
    # C: 20 s, from four to five times, paper slower by 0.15.
    change = Change(0.15, from_m=Magnification(4), to_m=Magnification(5))
    assert reprint(20, change).seconds == pytest.approx(40.681, abs=5e-4)


def test_small_format_on_eight_by_ten() -> None:
    # C
    whole = framing(parse_size("24x36 mm"), parse_size("8x10 in"))
    assert (whole.whole, whole.filled) == pytest.approx((7.056, 8.467), abs=5e-4)


def test_where_the_arithmetic_stops_being_true() -> None:
    # S2: makers test paper near 8 to 10 s; P: more than four-fold leaves reciprocity behind.
    assert (TESTED_S, TESTED_SOURCE.grade) == ((8.0, 10.0), "S2")
    assert (FOUR_FOLD, FOUR_FOLD_SOURCE.grade) == (4.0, "P")
    assert time_cautions(40, 10) == ()
    assert [one.id for one in time_cautions(40.1, 10)] == ["four-fold", "longer"]
    # S: the law is one of diffuse light (Clerc).
    assert light_cautions("diffuse", 2, 4) == ()
    assert [one.id for one in light_cautions("condenser", 2, 4)] == ["condenser"]


def test_a_fraction_of_a_stop_is_no_difference_of_nominal_numbers() -> None:
    # C: counted stops, not squares of what is engraved: f/5.6 to f/11 is two stops.
    assert aperture_stops(5.6, 11) == pytest.approx(2)
    assert 2 * log2(11 / 5.6) == pytest.approx(1.948, abs=5e-4)
