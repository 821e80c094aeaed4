"""The chart of a wash: the curve within its band, every reading in the frame."""

from provenance.craft.chart import ticks
from provenance.craft.washing.chart import wash_chart
from provenance.craft.washing.fit import fit_washing
from provenance.model.study import WashReading

READINGS = tuple(
    WashReading(washed_ms=minutes * 60_000, left_ng_per_cm2=left)
    for minutes, left in ((5, 12_000), (10, 5_500), (20, 2_200), (30, 1_300), (45, 700), (60, 450))
)


def test_the_curve_runs_from_the_first_reading_to_the_last_inside_its_band() -> None:
    chart = wash_chart(fit_washing(READINGS), READINGS)
    curve, least, most = chart.traces
    assert (curve.points[0][0], curve.points[-1][0]) == (5, 60)
    for (_x, low), (_x2, middle), (_x3, high) in zip(
        least.points, curve.points, most.points, strict=True
    ):
        assert low <= middle <= high
    assert (curve.dashed, least.dashed, most.dashed) == (False, True, True)


def test_every_reading_lies_in_the_frame() -> None:
    chart = wash_chart(fit_washing(READINGS), READINGS)
    assert len(chart.signs) == len(READINGS)
    for sign in chart.signs:
        across, down = chart.frame.shares(sign.at)
        assert 0 <= across <= 1
        assert 0 <= down <= 1


def test_an_hour_is_told_in_round_minutes() -> None:
    assert ticks(5, 60, 6) == [10, 20, 30, 40, 50, 60]
