"""A studio's own scale from the darkness of a spot to an amount.

It assumes nothing but that a darker spot stands for more: where two readings of
the laboratory lie the wrong way round they are taken together, the estimate runs
straight between neighbours, and its band is what the neighbours themselves allow.
Nothing is read beyond the darkest spot that a laboratory measured.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from provenance.errors import Problem, Refused
from provenance.model.study import SpotCalibration, SpotPoint

READING_ERROR_MD = 20
"""How far a difference of two densities may lie off, in thousandths (P)."""
LEAST_LEVELS = 3


@dataclass(frozen=True)
class _Level:
    """Spots that are taken together: their mean, and the least and most found in them."""

    darker_md: float
    found_ng_per_cm2: float
    least_ng_per_cm2: int
    most_ng_per_cm2: int
    spots: int


@dataclass(frozen=True)
class Converted:
    """An amount read from a spot, and between which amounts it may lie."""

    ng_per_cm2: int
    least_ng_per_cm2: int
    most_ng_per_cm2: int


class SpotScale:
    """The scale of one calibration.

    Raises Refused with fewer than three levels that rise: three spots, each
    darker and each holding more than the last.
    """

    def __init__(self, calibration: SpotCalibration) -> None:
        self.code = calibration.code
        self._levels = _levels(calibration.points)
        if len(self._levels) < LEAST_LEVELS:
            raise Refused(
                Problem(
                    f"{len(calibration.points)} spots give only {len(self._levels)} levels that"
                    " rise together"
                    if len(calibration.points) > 1
                    else "one spot or none is no scale",
                    self.code,
                    "points",
                    f"have a laboratory measure {LEAST_LEVELS} spots or more, from faint to dark",
                )
            )

    def convert(self, darker_md: int) -> Converted:
        """The amount for a spot that is so much darker than the paper beside it.

        Raises Refused for one lighter than the paper and for one outside the scale.
        """
        lightest, darkest = self._levels[0].darker_md, self._levels[-1].darker_md
        if darker_md < 0:
            raise Refused(
                Problem(
                    "a spot is not lighter than the paper beside it",
                    self.code,
                    "darker",
                    "read both again",
                )
            )
        if not lightest <= darker_md <= darkest - READING_ERROR_MD:
            raise Refused(
                Problem(
                    f"a spot darker by {darker_md / 1000:g} lies outside the scale, which goes"
                    f" from {lightest / 1000:g} to {(darkest - READING_ERROR_MD) / 1000:g}",
                    self.code,
                    "darker",
                    "have a laboratory measure such a spot; nothing is read beyond the last",
                )
            )
        return Converted(
            round(self._between(darker_md)),
            self._least(darker_md - READING_ERROR_MD),
            self._most(darker_md + READING_ERROR_MD),
        )

    def _between(self, darker_md: float) -> float:
        for low, high in pairwise(self._levels):
            if darker_md <= high.darker_md:
                along = (darker_md - low.darker_md) / (high.darker_md - low.darker_md)
                return low.found_ng_per_cm2 + along * (high.found_ng_per_cm2 - low.found_ng_per_cm2)
        return self._levels[-1].found_ng_per_cm2

    def _least(self, darker_md: float) -> int:
        """The least found at the next level that is no darker; nothing below the first."""
        below = [level for level in self._levels if level.darker_md <= darker_md]
        return below[-1].least_ng_per_cm2 if below else 0

    def _most(self, darker_md: float) -> int:
        """The most found at the next level that is no lighter."""
        above = [level for level in self._levels if level.darker_md >= darker_md]
        return above[0].most_ng_per_cm2


def _levels(points: Sequence[SpotPoint]) -> tuple[_Level, ...]:
    """Spots as levels that rise in both, by pooling neighbours that do not (isotonic)."""
    kept: list[_Level] = []
    ordered = sorted(points, key=lambda point: point.darker_md)
    for darker, same in groupby(ordered, key=lambda point: point.darker_md):
        found = [point.found_ng_per_cm2 for point in same]
        level = _Level(darker, sum(found) / len(found), min(found), max(found), len(found))
        while kept and kept[-1].found_ng_per_cm2 >= level.found_ng_per_cm2:
            level = _together(kept.pop(), level)
        kept.append(level)
    return tuple(kept)


def _together(one: _Level, other: _Level) -> _Level:
    spots = one.spots + other.spots

    def mean(first: float, second: float) -> float:
        return (first * one.spots + second * other.spots) / spots

    return _Level(
        mean(one.darker_md, other.darker_md),
        mean(one.found_ng_per_cm2, other.found_ng_per_cm2),
        min(one.least_ng_per_cm2, other.least_ng_per_cm2),
        max(one.most_ng_per_cm2, other.most_ng_per_cm2),
        spots,
    )
