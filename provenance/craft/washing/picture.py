"""The curve of a paper's washing as lines of text, for every face."""

from collections.abc import Sequence
from math import log10

from provenance.craft.plot import Line, braille
from provenance.craft.washing.fit import WashFit
from provenance.model.quantity_text import format_duration
from provenance.model.study import WashReading

_COLUMNS, _ROWS, _STEPS = 60, 10, 80
_TEN_MIN_MS = 600_000


def wash_curve(
    fit: WashFit, readings: Sequence[WashReading], limit_ng_per_cm2: float | None = None
) -> list[str]:
    """The curve with its band and the readings, what is left on a logarithmic scale."""
    first, last = fit.shortest_ms, fit.longest_ms
    times = [first + (last - first) * step / _STEPS for step in range(_STEPS + 1)]
    least = [(time, log10(fit.band_ng_per_cm2(time)[0])) for time in times]
    most = [(time, log10(fit.band_ng_per_cm2(time)[1])) for time in times]
    lines = [
        Line([(time, log10(fit.left_ng_per_cm2(time))) for time in times]),
        Line(least, every=3),
        Line(most, every=3),
        Line([(one.washed_ms, log10(one.left_ng_per_cm2)) for one in readings], joined=False),
    ]
    if limit_ng_per_cm2 is not None:
        level = log10(limit_ng_per_cm2)
        lines.append(Line([(first, level), (last, level)], every=2))
    heights = [y for line in lines for _x, y in line.points]
    return [
        f"{10 ** max(heights) / 1000:.4g} µg/cm²",
        *braille(lines, _COLUMNS, _ROWS),
        f"{10 ** min(heights) / 1000:.4g} µg/cm², {minutes(first)} to {minutes(last)};"
        " the curve, its band dotted" + ("" if limit_ng_per_cm2 is None else ", the limit level"),
    ]


def minutes(ms: int) -> str:
    """Up to the next second below ten minutes, to the next minute above."""
    step = 1000 if ms < _TEN_MIN_MS else 60_000
    return format_duration(-(-ms // step) * step)
