"""Magnification and the exposure that goes with it.

The law (m+1)² is that of a lens in diffuse light (S, Clerc, *Photography:
Theory and Practice*).  The ratio of the magnifications squared is a common
mistake: from 2 to 4 it gives 4.0 in place of 2.78.
"""

from dataclasses import dataclass
from math import log2

from provenance.craft.exposure.checks import above_zero
from provenance.model.quantities import Size


def enlarging_factor(from_m: float, to_m: float) -> float:
    """By how much the time grows from one magnification to another at the same aperture."""
    before = above_zero(from_m, "a magnification", field="magnification") + 1
    after = above_zero(to_m, "a magnification", field="magnification") + 1
    return (after / before) ** 2


def enlarging_stops(from_m: float, to_m: float) -> float:
    """The same in stops."""
    return log2(enlarging_factor(from_m, to_m))


def distance_factor(from_distance: float, to_distance: float) -> float:
    """By how much the time grows with distance, as the square.

    True for a small lamp and its distance from the paper (contact printing), and
    for the distance from the lens to the paper with the negative kept in focus.
    Both distances are in the same unit.
    """
    before = above_zero(from_distance, "a distance", field="distance")
    return (above_zero(to_distance, "a distance", field="distance") / before) ** 2


@dataclass(frozen=True)
class Conjugates:
    """Distances from the lens, in the unit of the focal length that was given."""

    to_paper: float
    to_negative: float


def conjugates(focal_length: float, magnification: float) -> Conjugates:
    """Where the paper and the negative are at a magnification, for a thin lens."""
    f = above_zero(focal_length, "a focal length", field="focal length")
    m = above_zero(magnification, "a magnification", field="magnification")
    return Conjugates(f * (m + 1), f * (1 + 1 / m))


def measured_magnification(on_paper_mm: float, on_negative_mm: float) -> float:
    """The magnification from one length measured on both; the best there is to record."""
    on_paper = above_zero(on_paper_mm, "a length", field="magnification")
    return on_paper / above_zero(on_negative_mm, "a length", field="magnification")


@dataclass(frozen=True)
class Framing:
    """Magnifications that show the whole negative, and that fill the picture."""

    whole: float
    filled: float


def framing(negative: Size, picture: Size) -> Framing:
    """The two magnifications, with the negative turned the way of the picture."""
    of_negative = sorted((negative.height_tenth_mm, negative.width_tenth_mm))
    of_picture = sorted((picture.height_tenth_mm, picture.width_tenth_mm))
    whole, filled = sorted(
        large / small for small, large in zip(of_negative, of_picture, strict=True)
    )
    return Framing(whole, filled)
