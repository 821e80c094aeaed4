"""Papers and tones as charts."""

from collections.abc import Mapping, Sequence

from provenance.craft.chart import Bar, Chart, Sign, Trace, frame_around
from provenance.craft.sensitometry.choice import Predicted
from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.matching import Target

BAND = 2.0
"""Standard errors to either side."""
_LEVELS = (0.15, 0.5, 1.0, 1.5)
"""Densities at which a band is shown where no tones were read."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def curves_chart(old: Curve, new: Curve, targets: Sequence[Target] = ()) -> Chart:
    """Both papers; the new one is dashed.  Bars are two standard errors of the exposure."""
    densities = [one.density for one in targets] or list(_LEVELS)
    bars = [bar for curve in (old, new) for bar in _bands(curve, densities)]
    return _of_curves((Trace(old.samples()), Trace(new.samples(), dashed=True)), bars)


def wedge_chart(curves: Mapping[str, Curve]) -> Chart:
    """The curves of one paper, a letter at the middle of each."""
    signs = []
    for letter, curve in zip(LETTERS, curves.values(), strict=False):
        middle = (curve.density[0] + curve.density[-1]) / 2
        signs.append(Sign(letter.lower(), (curve.log_h_at(middle), middle)))
    bars = [bar for curve in curves.values() for bar in _bands(curve, _LEVELS)]
    return _of_curves(tuple(Trace(one.samples()) for one in curves.values()), bars, signs)


def tones_chart(tones: Sequence[Predicted], tolerances: Sequence[float]) -> Chart:
    """Predicted against target; dashed is as far as a tone may be off.

    The letters are the tones in their order; bars are two standard errors of
    the prediction.
    """
    order = sorted(zip(tones, tolerances, strict=True), key=lambda one: one[0].target.density)
    either = [
        Trace([(one.target.density, one.target.density + side * off) for one, off in order], True)
        for side in (-1, 1)
    ]
    bars, signs = [], []
    for letter, tone in zip(LETTERS, tones, strict=False):
        half = BAND * tone.error_of_prediction
        at = tone.target.density
        bars.append(Bar((at, tone.density - half), (at, tone.density + half)))
        signs.append(Sign(letter, (at, tone.density)))
    points = [one.at for one in signs] + [point for trace in either for point in trace.points]
    frame = frame_around(points)
    low, high = max(frame.left, frame.bottom), min(frame.right, frame.top)
    even = Trace([(low, low), (high, high)])
    return Chart("target", "predicted", frame, (even, *either), tuple(bars), tuple(signs))


def _bands(curve: Curve, densities: Sequence[float]) -> list[Bar]:
    found = []
    for density in densities:
        if curve.reads(density):
            at, half = curve.log_h_at(density), BAND * curve.error_at(density)
            found.append(Bar((at - half, density), (at + half, density)))
    return found


def _of_curves(traces: tuple[Trace, ...], bars: Sequence[Bar], signs: Sequence[Sign] = ()) -> Chart:
    points = [point for trace in traces for point in trace.points]
    frame = frame_around([*points, (points[0][0], 0.0)])
    return Chart("log H", "density", frame, traces, tuple(bars), tuple(signs))
