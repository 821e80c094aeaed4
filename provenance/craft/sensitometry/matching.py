"""How much more exposure another paper needs, tone by tone, and for the print as a whole."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from provenance.craft.caution import Caution
from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.paper_range import SPEED_POINT
from provenance.craft.sensitometry.steps import READING_ERROR
from provenance.errors import Problem, Refused
from provenance.model.sources import Sourced

MID_TONES = 0.25
"""How far from the speed point a tone may lie to be an anchor, in density."""
ANCHOR_SOURCE = Sourced("C", "an error of 0.01 costs 0.15 stop at density 0.09, 0.014 at 0.65")
CONTRAST_SOURCE = Sourced("C", "papers of one contrast give one answer for all tones")


@dataclass(frozen=True)
class Target:
    """A tone of the reference print: where, how dense, how surely."""

    spot: str
    density: float
    error: float = READING_ERROR


@dataclass(frozen=True)
class Shift:
    """What the new paper needs more, in log H, for one tone."""

    target: Target
    delta_log_h: float
    error: float


@dataclass(frozen=True)
class Match:
    """The change of exposure that keeps the mid-tones."""

    delta_log_h: float
    error: float
    """From the readings of both curves and of the print; not from the process."""
    anchors: tuple[str, ...]
    spread_log_h: float
    """Between the anchors that need least and most."""
    cautions: tuple[Caution, ...]


def shift_at(old: Curve, new: Curve, target: Target) -> Shift:
    """The shift for one tone.  Raises Refused when either curve does not reach it."""
    of_print = target.error * (new.run_at(target.density) - old.run_at(target.density))
    return Shift(
        target,
        new.log_h_at(target.density) - old.log_h_at(target.density),
        hypot(old.error_at(target.density), new.error_at(target.density), of_print),
    )


def shifts(old: Curve, new: Curve, targets: Sequence[Target]) -> tuple[Shift, ...]:
    """The shift of every tone that both curves reach."""
    return tuple(
        shift_at(old, new, target)
        for target in targets
        if old.reads(target.density) and new.reads(target.density)
    )


def match(old: Curve, new: Curve, targets: Sequence[Target]) -> Match:
    """The change of exposure, anchored on the mid-tones of the print.

    Tones within 0.25 of the old paper's speed point are anchors, and count the
    more the steeper both curves are there; where there is none, the nearest tone
    is the anchor, with a caution.  Raises Refused when no tone is within reach
    of both papers.
    """
    reached = shifts(old, new, targets)
    if not reached:
        raise Refused(
            Problem(
                what="none of the print's tones lies within both curves",
                field="patches",
                mend="read a mid-tone of the reference print, density 0.4 to 0.9",
            )
        )
    middle = old.d_min + SPEED_POINT
    anchors = [one for one in reached if abs(one.target.density - middle) <= MID_TONES]
    cautions = []
    if not anchors:
        anchors = [min(reached, key=lambda one: abs(one.target.density - middle))]
        text = f"no mid-tone was read; “{anchors[0].target.spot}” stands in for one"
        cautions.append(Caution("no mid-tone", text, ANCHOR_SOURCE))
    weights = [1 / max(one.error, 1e-6) ** 2 for one in anchors]
    total = sum(weights)
    weights = [weight / total for weight in weights]
    delta = sum(weight * one.delta_log_h for weight, one in zip(weights, anchors, strict=True))
    error = _error(old, new, anchors, weights)
    least, *_, most = sorted([*(one.delta_log_h for one in anchors), delta])
    widest = max(one.error for one in anchors)
    if most - least > 2 * sqrt(2) * widest:
        text = (
            f"the mid-tones differ by {most - least:.2f} log H: the contrast is not the same,"
            " and no exposure matches them all"
        )
        cautions.append(Caution("contrast", text, CONTRAST_SOURCE))
    names = tuple(one.target.spot for one in anchors)
    return Match(delta, error, names, most - least, tuple(cautions))


def _error(old: Curve, new: Curve, anchors: Sequence[Shift], weights: Sequence[float]) -> float:
    """The error of the weighted mean; anchors near each other rest on the same knots."""
    parts: list[float] = []
    for curve in (old, new):
        by_knot: dict[int, float] = {}
        for weight, one in zip(weights, anchors, strict=True):
            for knot, run in curve.sensitivities(one.target.density).items():
                by_knot[knot] = by_knot.get(knot, 0.0) + weight * run
        parts += [run * curve.error[knot] for knot, run in by_knot.items()]
    for weight, one in zip(weights, anchors, strict=True):
        density = one.target.density
        parts.append(weight * one.target.error * (new.run_at(density) - old.run_at(density)))
    return hypot(*parts)
