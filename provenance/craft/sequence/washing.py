"""What counts as a full wash, for which paper.

Each published practice counts: the aid and a wash after it, the short sequence
of wash, aid and wash, and the long wash without aid.
"""

from collections.abc import Callable, Collection, Iterable
from math import inf

from provenance.craft.sequence.deeds import Deed, Sequence
from provenance.model.chemistry import Role
from provenance.model.quantity_text import format_duration
from provenance.model.sources import Sourced

MINUTE_MS = 60_000

LONG_MS = 60 * MINUTE_MS
LONG_SOURCE = Sourced("S", "Focal Encyclopedia of Photography, 4th ed., p. 687")
THIN_MS = 30 * MINUTE_MS
THIN_SOURCE = Sourced("S", "Clerc, Photography: Theory and Practice, §607")
AID_MS = 2 * MINUTE_MS
AFTER_AID_MS = 10 * MINUTE_MS
AID_SOURCE = Sourced("S2", "two to three minutes of aid, then ten to twenty of washing")
SHORT_MS = (5 * MINUTE_MS, 10 * MINUTE_MS, 5 * MINUTE_MS)
SHORT_SOURCE = Sourced("S2", "five minutes of washing, ten of aid, five of washing")
RESIN_MS = 4 * MINUTE_MS
RESIN_SOURCE = Sourced("S2", "four to five minutes")

FLOWING: frozenset[Role] = frozenset({"rinse", "wash"})
"""Steps that carry out what the baths left; a presoak does not."""


def long_ms(sequence: Sequence) -> int:
    """The full wash without aid for the paper; the shortest there is where it is not known."""
    if sequence.base != "fibre":
        return RESIN_MS
    return THIN_MS if sequence.thin else LONG_MS


def is_full(sequence: Sequence, between: Collection[Deed]) -> bool | None:
    """Whether `between` holds a full wash; None when its times do not tell."""
    return _surely(lambda unknown: _full(sequence, between, unknown))


def washed_for(sequence: Sequence, between: Collection[Deed], time_ms: int) -> bool | None:
    """Whether `between` holds so much washing, or a full wash; None when nobody can tell."""

    def enough(unknown: float) -> bool:
        return _water(between, unknown) >= time_ms or _full(sequence, between, unknown)

    return _surely(enough)


def said(between: Collection[Deed]) -> str:
    """The washing in `between` in words: how long, and whether with aid."""
    water = [deed for deed in between if deed.role in FLOWING]
    if not water:
        return "no wash"
    time = format_duration(sum(deed.least_ms or 0 for deed in water))
    aided = any(deed.role == "washing aid" for deed in between)
    return f"{time} of washing {'with' if aided else 'without'} washing aid"


def _surely(holds: Callable[[float], bool]) -> bool | None:
    if holds(0):
        return True
    return None if holds(inf) else False


def _full(sequence: Sequence, between: Collection[Deed], unknown: float) -> bool:
    if _water(between, unknown) >= long_ms(sequence):
        return True
    for aid in (deed for deed in between if deed.role == "washing aid"):
        time = unknown if aid.least_ms is None else aid.least_ms
        after = _water((deed for deed in between if not deed.when.before(aid.when)), unknown)
        ahead = _water((deed for deed in between if not aid.when.before(deed.when)), unknown)
        if time >= AID_MS and after >= AFTER_AID_MS:
            return True
        if all(one >= least for one, least in zip((ahead, time, after), SHORT_MS, strict=True)):
            return True
    return False


def _water(between: Iterable[Deed], unknown: float) -> float:
    return sum(
        unknown if deed.least_ms is None else deed.least_ms
        for deed in between
        if deed.role in FLOWING
    )
