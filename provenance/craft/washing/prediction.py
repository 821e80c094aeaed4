"""How long a paper must be washed to come under the studio's limit, with its band."""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from provenance.craft.washing.fit import WashFit
from provenance.craft.washing.readings import no_calibration
from provenance.errors import Problem, Refused
from provenance.model.quantity_text import format_duration

_LOOKS = 400
"""At how many times between the shortest and the longest wash the band is looked at."""


@dataclass(frozen=True)
class WashTime:
    """Wash times to a limit, within what was tested; an estimate, never a test.

    At `likely_ms` half of such sheets are expected to be under the limit, from
    `sure_ms` on all but a few; None when the longest wash tested is too short
    for that.
    """

    likely_ms: int
    sure_ms: int | None
    already: bool
    """Whether the shortest wash tested was long enough for half of them."""


def wash_time(fit: WashFit | None, limit_ng_per_cm2: float) -> WashTime:
    """The time to a limit, reckoned as the readings are.

    Raises Refused without a fit, for a fit that the readings refute, for a
    limit of nothing, and when only washes longer than those tested would reach it.
    """
    if fit is None:
        raise no_calibration()
    if fit.bends:
        raise Refused(
            Problem(
                "the readings bend as two parts do, but do not tell them apart:"
                " no time can be read from them",
                field="readings",
                mend="add readings, early ones and ones after longer washes",
            )
        )
    if limit_ng_per_cm2 <= 0:
        raise Refused(Problem("no wash leaves nothing", field="limit", mend="give a limit above 0"))
    likely = _under_from(fit, limit_ng_per_cm2, fit.left_ng_per_cm2)
    if likely is None:
        raise Refused(
            Problem(
                f"after {format_duration(fit.longest_ms)}, the longest wash tested,"
                " more than the limit is still expected",
                field="limit",
                mend="test longer washes, or with washing aid; nothing is read beyond the readings",
            )
        )
    sure = _under_from(fit, limit_ng_per_cm2, lambda time: fit.band_ng_per_cm2(time)[1])
    return WashTime(likely, sure, already=likely == fit.shortest_ms)


def _under_from(fit: WashFit, limit: float, left: Callable[[float], float]) -> int | None:
    """From when on `left` stays under `limit`; None when it is over it at the end."""
    first, last = fit.shortest_ms, fit.longest_ms
    if left(last) > limit:
        return None
    under = float(last)
    for look in range(_LOOKS - 1, -1, -1):
        over = first + (last - first) * look / _LOOKS
        if left(over) > limit:
            break
        under = over
    else:
        return first
    while under - over > 1:
        middle = (under + over) / 2
        under, over = (under, middle) if left(middle) > limit else (middle, over)
    return ceil(under)
