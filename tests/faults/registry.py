"""The list of faults: each is brought about so many times, and each time something comes of it."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tests.faults.ground import Ground
from tests.faults.outcome import Came, Outcome

Bring = Callable[[Ground, int], Iterator[Outcome]]


@dataclass(frozen=True)
class Fault:
    """Something that may go wrong, and how often it is brought about."""

    name: str
    bring: Bring
    long: int
    """How many times in the long form."""
    short: int
    """How many times in the tests; 0 where it takes too long for them."""
    allowed: frozenset[Came]
    """What may come of it."""


FAULTS: dict[str, Fault] = {}
ANY = frozenset({Came.WHOLE, Came.REFUSED, Came.TOLD_IN_USE, Came.TOLD_BY_AUDIT})
HARMLESS = frozenset({Came.WHOLE})
TOLD = frozenset({Came.TOLD_IN_USE, Came.TOLD_BY_AUDIT})
HARMLESS_OR_REFUSED = frozenset({Came.WHOLE, Came.REFUSED})


def fault(
    name: str, *, long: int, short: int, allowed: frozenset[Came] = ANY
) -> Callable[[Bring], Bring]:
    """Register what brings a fault about so many times."""

    def register(bring: Bring) -> Bring:
        FAULTS[name] = Fault(name, bring, long, short, allowed)
        return bring

    return register


@dataclass(frozen=True)
class Tally:
    """What came of one fault, all times together."""

    counts: Counter[Came]
    amiss: list[str]
    """What came of it and must not."""


def tally(one: Fault, ground: Ground, times: int) -> Tally:
    """Bring a fault about `times` times."""
    counts: Counter[Came] = Counter()
    amiss: list[str] = []
    for outcome in one.bring(ground, times):
        counts[outcome.came] += 1
        if outcome.came not in one.allowed:
            amiss.append(f"{outcome.came.value}: {outcome.about}")
    return Tally(counts, amiss)
