"""Lens stops.  What is engraved is rounded; what the lens does is a power of two.

f/5.6 is 5.657 and f/11 is 11.314: count stops, do not square what is engraved.
"""

from dataclasses import dataclass
from math import log2

from provenance.craft.exposure.checks import above_zero

_WHOLE = (1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90)
_THIRDS = (
    *(1.1, 1.2, 1.6, 1.8, 2.2, 2.5, 3.2, 3.5, 4.5, 5, 6.3, 7.1, 9, 10, 13, 14, 18, 20),
    *(25, 29, 36, 40, 51, 57, 72, 80),
)
_HALVES = (1.2, 1.7, 2.4, 3.3, 4.8, 6.7, 9.5, 13, 19, 27, 38, 54, 76)


def _powers() -> dict[float, tuple[float, ...]]:
    """What each engraved figure may stand for, in stops from f/1."""
    found: dict[float, tuple[float, ...]] = {}
    for place, mark in enumerate(_WHOLE):
        found[mark] = (float(place),)
    for place, mark in enumerate(_THIRDS):
        found[mark] = (place // 2 + (1 + place % 2) / 3,)
    for place, mark in enumerate(_HALVES):
        found[mark] = (*found.get(mark, ()), place + 0.5)
    return found


_STOPS_FROM_ONE = _powers()


@dataclass(frozen=True)
class LensStop:
    """An engraved f-number and what it is exactly.

    `others` holds what else the figure may stand for: f/13 is 12.70 on a scale
    of thirds and 13.45 on one of halves.  `on_scale` is False for a figure of no
    scale, such as the widest opening of some lenses, which is taken as written.
    """

    marked: float
    exact: float
    others: tuple[float, ...] = ()
    on_scale: bool = True


def lens_stop(marked: float) -> LensStop:
    """Read an engraved f-number, on a scale of thirds where there are two readings."""
    above_zero(marked, "an f-number", field="aperture")
    stops = _STOPS_FROM_ONE.get(round(marked, 1))
    if stops is None:
        return LensStop(marked, marked, on_scale=False)
    exact, *others = (2 ** (stop / 2) for stop in stops)
    return LensStop(marked, exact, tuple(others))


def aperture_stops(from_marked: float, to_marked: float) -> float:
    """How many stops more the time needs at the second f-number, both as engraved."""
    return 2 * log2(lens_stop(to_marked).exact / lens_stop(from_marked).exact)
