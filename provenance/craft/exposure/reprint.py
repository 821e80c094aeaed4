"""The exposure of a reprint, from that of the first print, with its band.

    t_new = t_old · 10^Δ · ((m2+1)/(m1+1))² · (N2/N1)²

Δ is how much more log exposure the new paper needs, m the magnification, N the
f-number.  Errors are standard errors in log H and add as squares; the band is
two of them to either side.
"""

from dataclasses import dataclass, field
from math import hypot, log

from provenance.craft.caution import Caution
from provenance.craft.exposure.cautions import (
    Light,
    lens_cautions,
    light_cautions,
    time_cautions,
)
from provenance.craft.exposure.checks import above_zero
from provenance.craft.exposure.lens import aperture_stops, lens_stop
from provenance.craft.exposure.magnification import enlarging_stops
from provenance.craft.exposure.stops import exposed_s, stops_between, stops_of

BAND = 2.0
"""Standard errors to either side: about nineteen in twenty."""


@dataclass(frozen=True)
class Magnification:
    """A magnification and its relative standard error; 0 when it is not known.

    Two lengths read to half a millimetre on a 200 mm line give about 0.003.
    """

    value: float
    error: float = 0.0

    @property
    def error_log_h(self) -> float:
        """The standard error of log (m+1)²."""
        return 2 * self.error * self.value / ((self.value + 1) * log(10))


@dataclass(frozen=True)
class Change:
    """What is different at the reprint.  Without a field nothing changes."""

    delta_log_h: float = 0.0
    delta_error_log_h: float = 0.0
    from_m: Magnification = field(default_factory=lambda: Magnification(1.0))
    to_m: Magnification = field(default_factory=lambda: Magnification(1.0))
    from_f: float = 8.0
    to_f: float = 8.0
    light: Light = "diffuse"


@dataclass(frozen=True)
class NewExposure:
    """A time with its band, and the parts of the change in stops."""

    seconds: float
    low_s: float
    high_s: float
    stops: float
    paper_stops: float
    magnification_stops: float
    aperture_stops: float
    cautions: tuple[Caution, ...]

    @property
    def band_stops(self) -> float:
        """Half the band, in stops."""
        return stops_between(self.seconds, self.high_s)


def reprint(old_s: float, change: Change) -> NewExposure:
    """The exposure that gives the same tone on the new paper at the new size.

    Raises Refused for a time, magnification or f-number that is not above zero.
    """
    above_zero(old_s, "an exposure", field="base")
    paper = stops_of(change.delta_log_h)
    size = enlarging_stops(change.from_m.value, change.to_m.value)
    aperture = aperture_stops(change.from_f, change.to_f)
    stops = paper + size + aperture
    # The same figure before and after has the same error, which drops out.
    measured = change.from_m != change.to_m
    of_size = (change.from_m.error_log_h, change.to_m.error_log_h) if measured else ()
    half = stops_of(BAND * hypot(change.delta_error_log_h, *of_size))
    seconds = exposed_s(old_s, stops)
    return NewExposure(
        seconds,
        exposed_s(seconds, -half),
        exposed_s(seconds, half),
        stops,
        paper,
        size,
        aperture,
        (
            *light_cautions(change.light, change.from_m.value, change.to_m.value),
            *time_cautions(seconds, old_s),
            *lens_cautions(*dict.fromkeys(map(lens_stop, (change.from_f, change.to_f)))),
        ),
    )
