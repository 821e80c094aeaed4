"""How long to wash, and when no time is told."""

from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from provenance.craft.washing.curve import WashPart
from provenance.craft.washing.fit import fit_washing
from provenance.craft.washing.prediction import wash_time
from provenance.errors import Refused
from tests.craft.washing.test_fit import BENT, MINUTE, NOISE, TWO, after


def test_the_time_to_a_limit_is_that_of_the_curve() -> None:
    time = wash_time(fit_washing(after(*TWO)), 2000)
    # the fast part is gone by then: 20000 exp(-0.04 t) = 2000
    assert time.likely_ms == pytest.approx(log(10) / 0.04 * MINUTE, rel=2e-3)
    assert time.sure_ms is not None
    assert time.sure_ms > time.likely_ms
    assert not time.already


@settings(max_examples=40, deadline=None)
@given(NOISE, st.floats(700, 100_000), st.floats(1.01, 3))
def test_a_stricter_limit_takes_longer(off: list[float], limit: float, looser: float) -> None:
    fit = fit_washing(after(*TWO, off=off))
    if fit.bends or fit.left_ng_per_cm2(fit.longest_ms) > limit:
        return
    strict, loose = wash_time(fit, limit), wash_time(fit, limit * looser)
    assert loose.likely_ms <= strict.likely_ms <= fit.longest_ms
    assert fit.left_ng_per_cm2(strict.likely_ms) <= limit * 1.001
    if strict.sure_ms is not None:
        assert strict.likely_ms <= strict.sure_ms <= fit.longest_ms
        assert fit.band_ng_per_cm2(strict.sure_ms)[1] <= limit * 1.001


def test_more_scatter_makes_the_sure_time_longer() -> None:
    still = wash_time(fit_washing(after(*TWO)), 5000)
    off = [0.05, -0.05] * 4 + [0.05]
    noisy = wash_time(fit_washing(after(*TWO, off=off)), 5000)
    assert still.sure_ms is not None
    assert noisy.sure_ms is not None
    assert noisy.sure_ms - noisy.likely_ms > still.sure_ms - still.likely_ms


def test_a_limit_met_by_the_shortest_wash_is_said_to_be() -> None:
    fit = fit_washing(after(*TWO, times=(5, 10, 15, 20, 40, 60, 90)))
    time = wash_time(fit, 100_000)
    assert (time.likely_ms, time.already) == (5 * MINUTE, True)


def test_a_sure_time_beyond_the_readings_is_not_told() -> None:
    fit = fit_washing(after(*TWO))
    just = fit.left_ng_per_cm2(fit.longest_ms) * 1.001
    time = wash_time(fit, just)
    assert time.sure_ms is None
    assert time.likely_ms <= fit.longest_ms


def test_no_time_is_told() -> None:
    with pytest.raises(Refused, match="no calibration: estimate only"):
        wash_time(None, 1000)
    with pytest.raises(Refused, match="longest wash tested"):
        wash_time(fit_washing(after(*TWO)), 100)
    with pytest.raises(Refused, match="nothing"):
        wash_time(fit_washing(after(*TWO)), 0)
    with pytest.raises(Refused, match="do not tell them apart"):
        wash_time(fit_washing(BENT), 5000)


def test_one_part_tells_its_time_with_its_band() -> None:
    time = wash_time(fit_washing(after(WashPart(50_000, 0.1), times=(0, 10, 20, 40))), 5000)
    assert time.likely_ms == pytest.approx(log(10) / 0.1 * MINUTE, rel=2e-3)
    assert time.sure_ms is not None
