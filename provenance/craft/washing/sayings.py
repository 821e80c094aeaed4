"""Whether a saying of the trade can hold: “three half-changes and it is clean”."""

from dataclasses import dataclass
from math import log

from provenance.errors import Problem, Refused


@dataclass(frozen=True)
class Saying:
    """So many changes, each leaving such a share, are said to bring a sheet under a limit.

    Both amounts are reckoned as the same species.  Raises Refused when an
    amount is not above zero or a change takes nothing.
    """

    start_g_per_m2: float
    changes: int
    share_left_by_each: float
    limit_g_per_m2: float

    def __post_init__(self) -> None:
        amounts = self.start_g_per_m2, self.limit_g_per_m2
        if min(amounts) <= 0 or not 0 < self.share_left_by_each < 1 or self.changes < 0:
            raise Refused(
                Problem(
                    "this is not a saying about washing",
                    field="changes",
                    mend="amounts lie above zero, the share that each change leaves"
                    " between 0 and 1",
                )
            )

    @property
    def left_g_per_m2(self) -> float:
        """What the changes leave at the least: mixing alone, nothing held back by fibre."""
        return self.start_g_per_m2 * self.share_left_by_each**self.changes

    @property
    def changes_needed(self) -> float:
        """How many such changes the limit takes at the least; not rounded up."""
        return log(self.limit_g_per_m2 / self.start_g_per_m2) / log(self.share_left_by_each)

    @property
    def can_hold(self) -> bool:
        """False when mixing alone refutes it; True says only that mixing does not."""
        return self.left_g_per_m2 <= self.limit_g_per_m2
