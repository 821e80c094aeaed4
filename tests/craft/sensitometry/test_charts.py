"""Charts show what the curves say, and how surely."""

import pytest

from provenance.craft.sensitometry.charts import curves_chart, tones_chart, wedge_chart
from provenance.craft.sensitometry.choice import ranked
from tests.craft.sensitometry.papers import TONES, curve, paper

OLD = curve(paper(1.1).density_at)
NEW = curve(paper(0.9, 0.2).density_at)


def test_both_papers_with_a_band_at_every_tone() -> None:
    chart = curves_chart(OLD, NEW, TONES)
    assert [one.dashed for one in chart.traces] == [False, True]
    assert len(chart.bars) == 2 * len(TONES)
    for bar in chart.bars[: len(TONES)]:
        density = bar.start[1]
        assert bar.end[0] - bar.start[0] == pytest.approx(4 * OLD.error_at(density))
    for trace in chart.traces:
        assert all(0 <= one <= 1 for point in trace.points for one in chart.frame.shares(point))


def test_a_tone_lies_where_it_is_predicted_between_its_errors() -> None:
    (best,) = ranked(OLD, {"3": NEW}, TONES)
    chart = tones_chart(best.tones, [0.02] * len(best.tones))
    for tone, sign, bar in zip(best.tones, chart.signs, chart.bars, strict=True):
        assert sign.at == (tone.target.density, tone.density)
        assert bar.start[1] < tone.density < bar.end[1]
        # an exposure that is off shows most where the curve is steep
        assert tone.error_of_prediction >= best.match.error / NEW.run_at(tone.density)


def test_a_prediction_is_surer_of_a_surer_exposure() -> None:
    (best,) = ranked(OLD, {"same": OLD}, TONES)
    steep, flat = best.tones[3], best.tones[0]
    assert steep.error_of_prediction > flat.error_of_prediction


def test_the_curves_of_one_paper_have_letters() -> None:
    chart = wedge_chart({"2": OLD, "3": NEW})
    assert [one.letter for one in chart.signs] == ["a", "b"]
