"""What is left in a sheet as a sum of parts, each of which falls by a constant rate.

The fast part of fibre-based paper is what diffuses out, the slow part what
fibre and baryta let go of (S2); a washing aid shortens the slow part.
"""

from dataclasses import dataclass
from math import exp, log

MS_PER_MIN = 60_000


@dataclass(frozen=True)
class WashPart:
    """One part: how much of it there was unwashed, and the rate at which it goes."""

    start_ng_per_cm2: float
    rate_per_min: float

    def log_left(self, washed_ms: float) -> float:
        """The logarithm of what is left of this part, in ng/cm²."""
        return log(self.start_ng_per_cm2) - self.rate_per_min * washed_ms / MS_PER_MIN

    @property
    def half_life_ms(self) -> float:
        """How long it takes to lose half of this part."""
        return log(2) / self.rate_per_min * MS_PER_MIN


Parts = tuple[WashPart, ...]


def log_left(parts: Parts, washed_ms: float) -> float:
    """The logarithm of what is left of all parts, in ng/cm²."""
    logs = [part.log_left(washed_ms) for part in parts]
    most = max(logs)  # taken out, so that nothing small becomes nothing
    return most + log(sum(exp(one - most) for one in logs))


def slopes_of_log(parts: Parts, washed_ms: float) -> tuple[float, ...]:
    """How that logarithm answers to the logarithms of each start and rate.

    In the order start, rate, start, rate.
    """
    whole = log_left(parts, washed_ms)
    slopes: list[float] = []
    for part in parts:
        share = exp(part.log_left(washed_ms) - whole)
        slopes += (share, -share * part.rate_per_min * washed_ms / MS_PER_MIN)
    return tuple(slopes)
