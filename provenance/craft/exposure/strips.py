"""Test strips in even stops: one sequence of exposures, shown or hidden patch by patch."""

from dataclasses import dataclass
from itertools import pairwise

from provenance.craft.exposure.stops import exposed_s
from provenance.errors import Problem, Refused

MOST_PATCHES = 24


@dataclass(frozen=True)
class StripPatch:
    """One patch; the first has the least exposure."""

    stops: float
    """From the exposure that the strip is made around."""
    total_s: float
    """What it has had in the end."""


@dataclass(frozen=True)
class TestStrip:
    """A strip, and the exposures that make it.

    `cover_s`: all is open at first; after each exposure the next patch from the
    lightest on is covered.  `uncover_s`: only the darkest is open at first;
    after each exposure the next one toward the lightest is uncovered.
    """

    __test__ = False

    patches: tuple[StripPatch, ...]
    cover_s: tuple[float, ...]
    uncover_s: tuple[float, ...]


def strip_around(
    centre_s: float, patches: int, step_stops: float, *, timer_s: float = 0.1
) -> TestStrip:
    """A strip of `patches` with `step_stops` between them, its middle at `centre_s`.

    With an even number the two middle patches lie half a step to either side.
    The times are whole multiples of what the timer can set, `timer_s`, and it is
    the patches' totals that are rounded, so errors do not add up along the strip.
    Raises Refused when that makes two patches alike.
    """
    if not 2 <= patches <= MOST_PATCHES:
        raise Refused(
            Problem(
                what=f"a strip of {patches} patches cannot be made",
                field="patches",
                mend=f"give 2 to {MOST_PATCHES}",
            )
        )
    middle = (patches - 1) / 2
    stops = [(place - middle) * step_stops for place in range(patches)]
    ticks = [round(exposed_s(centre_s, one) / timer_s) for one in stops]
    steps = [ticks[0], *(after - before for before, after in pairwise(ticks))]
    if min(steps) < 1:
        raise Refused(
            Problem(
                what=f"patches {step_stops:g} stop apart around {centre_s:g} s differ by less"
                f" than the {timer_s:g} s that the timer can set",
                field="step",
                mend="take larger steps, or a smaller aperture and a longer time",
            )
        )
    cover = tuple(step * timer_s for step in steps)
    return TestStrip(
        tuple(StripPatch(one, tick * timer_s) for one, tick in zip(stops, ticks, strict=True)),
        cover,
        cover[::-1],
    )
