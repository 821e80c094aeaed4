"""The washing of a paper as a chart: what is left, by its logarithm, against minutes."""

from collections.abc import Sequence
from math import log10

from provenance.craft.chart import Chart, Sign, Trace, frame_around
from provenance.craft.washing.fit import WashFit
from provenance.model.study import WashReading

_STEPS = 60
_MINUTE_MS = 60_000


def wash_chart(fit: WashFit, readings: Sequence[WashReading]) -> Chart:
    """The fitted curve with its band dashed, a small o at each reading.

    Across are minutes of washing, up the logarithm of what is left in µg/cm²,
    between the first and the last reading and no further.
    """
    first, last = fit.shortest_ms, fit.longest_ms
    times_ms = [first + (last - first) * step / _STEPS for step in range(_STEPS + 1)]

    def trace(left_ng_per_cm2: Sequence[float], dashed: bool = False) -> Trace:
        points = zip(times_ms, left_ng_per_cm2, strict=True)
        return Trace([(ms / _MINUTE_MS, log10(ng / 1000)) for ms, ng in points], dashed)

    bands = [fit.band_ng_per_cm2(ms) for ms in times_ms]
    traces = (
        trace([fit.left_ng_per_cm2(ms) for ms in times_ms]),
        trace([least for least, _most in bands], True),
        trace([most for _least, most in bands], True),
    )
    signs = tuple(
        Sign("o", (one.washed_ms / _MINUTE_MS, log10(one.left_ng_per_cm2 / 1000)))
        for one in readings
    )
    points = [point for one in traces for point in one.points] + [one.at for one in signs]
    return Chart("min", "log µg/cm²", frame_around(points), traces, (), signs)
