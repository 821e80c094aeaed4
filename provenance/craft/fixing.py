"""How far a fixer may be used: named limits and two-bath rotation.

Published limits for dissolved silver differ forty-fold.  A studio chooses one,
and whatever rests on it says which.
"""

from dataclasses import dataclass

from provenance.errors import NotFound, Problem
from provenance.model.sources import Sourced


@dataclass(frozen=True)
class SilverLimit:
    """The most dissolved silver that a bath may hold."""

    name: str
    mg_per_l: int
    meaning: str
    source: Sourced


LIMITS: tuple[SilverLimit, ...] = (
    SilverLimit("strictest", 50, "strictest published", Sourced("S2", "Haist")),
    SilverLimit("commercial", 300, "commercial work", Sourced("S2", "Haist")),
    SilverLimit("single", 500, "a single bath, for permanence", Sourced("S2")),
    SilverLimit("first of two", 2000, "the first of two baths", Sourced("S2")),
)

MOVES_BEFORE_RENEWAL = (3, 5)
"""How often the second bath moves up before both are renewed."""
ROTATION_SOURCE = Sourced("S", "Anchell, The Darkroom Cookbook, p. 107")

WORKING_FIXER_DAYS = 60
OPEN_TRAY_DAYS = 7
AGE_SOURCE = Sourced("S2", "two months for a working fixer, a week for an open tray")


def limit_named(name: str) -> SilverLimit:
    """The limit with that name.  Raises NotFound with the names there are."""
    for limit in LIMITS:
        if limit.name == name:
            return limit
    raise NotFound(
        Problem(
            what=f"there is no silver limit “{name}”",
            field="limit",
            mend=f"choose one of: {', '.join(limit.name for limit in LIMITS)}",
        )
    )


@dataclass(frozen=True)
class Rotation:
    """What to do with a pair of fixing baths."""

    move_up: bool
    renew_both: bool
    why: str


def rotation(first_mg_per_l: float, moves: int, limit: SilverLimit) -> Rotation:
    """Advice for two baths from the silver in the first and how often they moved.

    When the first has reached `limit` the second takes its place and a fresh
    one follows; after three to five such moves (`ROTATION_SOURCE`) both are
    renewed, here after the fewest.
    """
    load = (
        f"{first_mg_per_l / 1000:.2g} g/L of the {limit.mg_per_l / 1000:g} g/L for {limit.meaning}"
    )
    if first_mg_per_l < limit.mg_per_l:
        return Rotation(False, False, f"the first bath is estimated to hold {load}")
    if moves >= MOVES_BEFORE_RENEWAL[0]:
        return Rotation(False, True, f"{load}, and the second moved up {moves} times already")
    return Rotation(True, False, load)
