"""Stops, seconds and log exposure.  A stop doubles; stops add where seconds multiply."""

from math import log2, log10

from provenance.craft.exposure.checks import above_zero
from provenance.errors import Problem, Refused

LOG_H_PER_STOP = log10(2)
"""One stop in log exposure, 0.30103 (calculated)."""


def exposed_s(base_s: float, stops: float) -> float:
    """The time that is `stops` more (or, below zero, less) than `base_s`."""
    return float(above_zero(base_s, "an exposure", field="base") * 2**stops)


def burn_s(base_s: float, stops: float) -> float:
    """The seconds to add to an area for `stops` more than the base."""
    return exposed_s(base_s, _upward(stops, "burn")) - base_s


def dodge_s(base_s: float, stops: float) -> float:
    """The seconds of the base to hold back from an area for `stops` less (given above zero)."""
    return base_s - exposed_s(base_s, -_upward(stops, "dodge"))


def stops_between(from_s: float, to_s: float) -> float:
    """The change from one time to another, in stops."""
    return log2(above_zero(to_s, "an exposure") / above_zero(from_s, "an exposure"))


def stops_of(log_h: float) -> float:
    """A difference of log exposure in stops."""
    return log_h / LOG_H_PER_STOP


def log_h_of(stops: float) -> float:
    """Stops as a difference of log exposure."""
    return stops * LOG_H_PER_STOP


def through_density_s(time_s: float, from_density: float, to_density: float) -> float:
    """The time behind another density of the negative for the same exposure of the paper."""
    shift = stops_of(to_density - from_density)
    return exposed_s(time_s, shift)


def _upward(stops: float, noun: str) -> float:
    if stops < 0:
        raise Refused(
            Problem(
                what=f"a {noun} of {stops:g} stops goes the other way",
                field=noun,
                mend="give the stops above zero; more exposure is a burn, less is a dodge",
            )
        )
    return stops
