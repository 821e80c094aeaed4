"""The charts of a plan, and the picture of a match, as lines of text for any terminal."""

from provenance.craft.chart import Chart
from provenance.craft.plot import chart_rows, letter_rows
from provenance.craft.sensitometry.charts import BAND, LETTERS, curves_chart, tones_chart
from provenance.craft.sensitometry.choice import Predicted
from provenance.model.quantities import Size
from provenance.studio.reprinting.plan import ReprintPlan
from provenance.studio.reprinting.spots import Spot

_BETWEEN = "   "
CURVES = "old paper drawn through, new dotted"
TONES = "predicted over target; tolerance"
BARS = "bars: two standard errors of the readings"


def plan_charts(plan: ReprintPlan) -> tuple[Chart, ...]:
    """Both papers, and predicted against target; none where papers cannot be compared."""
    old, new = plan.change.old, plan.change.new
    if old is None or new is None:
        return ()
    charts = [curves_chart(old, new, plan.change.targets)]
    predicted = [one.predicted for one in plan.aims if one.predicted is not None]
    if predicted:
        charts.append(tones_chart(predicted, [one.tolerance for one in plan.aims]))
    return tuple(charts)


def chart_lines(plan: ReprintPlan, columns: int, rows: int) -> list[str]:
    """The charts side by side, what they show above, and whose the letters are below."""
    charts = plan_charts(plan)
    if not charts:
        return []
    wide = (columns - len(_BETWEEN)) // 2 if len(charts) > 1 else columns
    heads = [f"{told:{wide}}"[:wide] for told in (CURVES, TONES)]
    drawn = [chart_rows(one, wide, rows) for one in charts]
    lines = [_BETWEEN.join(heads[: len(charts)]).rstrip()]
    lines += [
        _BETWEEN.join(f"{part:{wide}}" for part in row).rstrip() for row in zip(*drawn, strict=True)
    ]
    named = [f"{letter} {aim.spot}" for letter, aim in zip(LETTERS, plan.aims, strict=False)]
    return [*lines, "   ".join(named), BARS] if len(charts) > 1 else [*lines, BARS]


def predicted_text(one: Predicted) -> str:
    """``0.66 ± 0.03``, two standard errors."""
    return f"{one.density:.2f} ± {BAND * one.error_of_prediction:.2f}"


def runner_up_lines(plan: ReprintPlan) -> list[str]:
    """The grades that were not taken, the next best first, and by what they would be off."""
    found = []
    for one in plan.change.candidates:
        worst = one.worst
        found.append(
            f"{one.name}: densities off by {one.rms_error:.3f},"
            f" most at {worst.target.spot}, {worst.error:+.2f}"
        )
    return found[1:]


def spot_lines(spots: tuple[Spot, ...], image: Size, columns: int, rows: int) -> list[str]:
    """A frame with the letters of the spots; empty where none says where it lies."""
    placed = [(one.letter, one.share) for one in spots]
    letters = [(letter, share) for letter, share in placed if share is not None]
    if not letters:
        return []
    return letter_rows(letters, image.height_tenth_mm, image.width_tenth_mm, columns, rows)
