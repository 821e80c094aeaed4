"""Burns and dodges: for every area of the print, the seconds of every exposure.

The base may be several exposures, as in split-grade printing: seconds by grade.
An entry without a grade changes all of them alike; one that names the grade of
a base exposure changes that one; any other grade is a burn of its own, reckoned
from the whole base.  Entries for one area add up in seconds, not in stops.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log2

from provenance.craft.exposure.checks import above_zero
from provenance.errors import Problem, Refused
from provenance.model.printing import Burn


@dataclass(frozen=True)
class Change:
    """Seconds given to an area beside the base; below zero they are held back."""

    grade: str
    stops: float
    seconds: float


@dataclass(frozen=True)
class AreaTimes:
    """One area: what is done for it, and what it has had in the end, in seconds by grade."""

    area: str
    changes: tuple[Change, ...]
    exposures_s: Mapping[str, float]
    base_s: Mapping[str, float]

    @property
    def stops(self) -> float | None:
        """The whole change in stops.

        None where the exposures change in different proportion: filters differ
        in speed, and seconds of one do not add to seconds of another.
        """
        if self.exposures_s.keys() != self.base_s.keys():
            return None
        first, *rest = (log2(self.exposures_s[grade] / self.base_s[grade]) for grade in self.base_s)
        return first if all(abs(one - first) < 1e-9 for one in rest) else None


def area_times(base_s: Mapping[str, float], burns: Sequence[Burn]) -> tuple[AreaTimes, ...]:
    """Every area that `burns` name, in the order of the first mention.

    Raises Refused without a base, for a dodge of an exposure that is not given,
    and for an area that would be held back longer than it is exposed.
    """
    if not base_s:
        raise Refused(Problem(what="there is no base exposure", field="base", mend="give its time"))
    for seconds in base_s.values():
        above_zero(seconds, "an exposure", field="base")
    areas = dict.fromkeys(burn.area for burn in burns)
    return tuple(
        _one_area(area, base_s, [burn for burn in burns if burn.area == area]) for area in areas
    )


def _one_area(area: str, base_s: Mapping[str, float], burns: Sequence[Burn]) -> AreaTimes:
    changes = tuple(change for burn in burns for change in _changes(base_s, burn))
    exposures = dict(base_s)
    for change in changes:
        exposures[change.grade] = exposures.get(change.grade, 0.0) + change.seconds
    for grade, seconds in exposures.items():
        if seconds <= 1e-9:
            exposure = f"the exposure at {grade}" if grade else "the exposure"
            raise Refused(
                Problem(
                    what=f"{exposure} is held back from “{area}” altogether",
                    field="burns",
                    mend="give one dodge for the area, in stops from the base",
                )
            )
    return AreaTimes(area, changes, exposures, dict(base_s))


def _changes(base_s: Mapping[str, float], burn: Burn) -> list[Change]:
    stops = burn.milli_stop / 1000
    if not burn.grade:
        return [Change(grade, stops, seconds * (2**stops - 1)) for grade, seconds in base_s.items()]
    if burn.grade in base_s:
        return [Change(burn.grade, stops, base_s[burn.grade] * (2**stops - 1))]
    if stops < 0:
        raise Refused(
            Problem(
                what=f"“{burn.area}” is dodged at {burn.grade}, at which nothing is exposed",
                field="burns",
                mend=f"dodge the exposure at {' or '.join(filter(None, base_s)) or 'the base'}",
            )
        )
    return [Change(burn.grade, stops, sum(base_s.values()) * (2**stops - 1))]
