"""Dry-down: a print that looks right wet is too dark when it has dried."""

from dataclasses import dataclass

from provenance.craft.exposure.checks import above_zero
from provenance.craft.exposure.stops import exposed_s, stops_between
from provenance.errors import Problem, Refused
from provenance.model.sources import Sourced


@dataclass(frozen=True)
class DryDown:
    """How much less exposure a paper wants than what looks right wet, and who says so."""

    percent: float
    source: Sourced

    def __post_init__(self) -> None:
        if not 0 <= self.percent < 50:
            raise Refused(
                Problem(
                    what=f"a dry-down of {self.percent:g} % is not one of any paper",
                    field="dry-down",
                    mend="give the percent of exposure to take off, from 0 to 50; it is"
                    " usually about 10 on fibre paper and less on resin-coated",
                )
            )

    @property
    def stops(self) -> float:
        """The change of exposure, at most zero."""
        return stops_between(1.0, 1 - self.percent / 100)

    def dried_down_s(self, looks_right_wet_s: float) -> float:
        """The time whose print is right when it has dried."""
        return exposed_s(looks_right_wet_s, self.stops)


START = DryDown(10.0, Sourced("S2", "a start for fibre paper; measure it for each paper"))


def measured_dry_down(right_wet_s: float, right_dry_s: float) -> DryDown:
    """From a strip judged twice: the time that was right wet, and the one that is right dry.

    Raises Refused when the dry time is the longer.
    """
    ratio = above_zero(right_dry_s, "an exposure") / above_zero(right_wet_s, "an exposure")
    return DryDown(100 * (1 - ratio), Sourced("C", "measured on this paper"))
