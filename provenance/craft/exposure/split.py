"""Split-grade printing: one soft and one hard exposure, and the balance between them."""

from dataclasses import dataclass

from provenance.craft.exposure.stops import exposed_s, stops_between


@dataclass(frozen=True)
class SplitGrade:
    """Two exposures of the whole sheet through different filters, in seconds."""

    soft_s: float
    hard_s: float

    @property
    def total_s(self) -> float:
        """Both together."""
        return self.soft_s + self.hard_s

    @property
    def balance_stops(self) -> float:
        """How much longer the hard exposure is than the soft one, in stops."""
        return stops_between(self.soft_s, self.hard_s)

    def scaled(self, stops: float) -> "SplitGrade":
        """Both changed alike, as for another magnification: the contrast stays."""
        return SplitGrade(exposed_s(self.soft_s, stops), exposed_s(self.hard_s, stops))

    def changed(self, *, soft_stops: float = 0.0, hard_stops: float = 0.0) -> "SplitGrade":
        """Each changed by itself: the soft one moves the highlights, the hard one the blacks."""
        return SplitGrade(exposed_s(self.soft_s, soft_stops), exposed_s(self.hard_s, hard_stops))
