"""What mixing alone leaves: changes of water, and water that runs.

Of film and of resin-coated paper every equal change takes the same share (S,
Clerc, *Photography: Theory and Practice*, §§ 416-417).  Fibre-based paper holds
some of it back, so for such paper these are the least that can be left.
"""

from math import ceil, exp, log

from provenance.errors import Problem, Refused

MS_PER_HOUR = 3_600_000


def left_after_changes(carried_hundredth_ml: int, fill_hundredth_ml: int, changes: int) -> float:
    """The share left after dumping and filling so often, each time at equilibrium.

    `carried_hundredth_ml` is what clings to the sheets, `fill_hundredth_ml` the
    fresh water they meet.  Raises Refused without water or for less than no change.
    """
    if changes < 0:
        raise Refused(
            Problem("there cannot be less than no change", field="changes", mend="give 0 or more")
        )
    return _share(carried_hundredth_ml, fill_hundredth_ml) ** changes


def changes_to(share: float, carried_hundredth_ml: int, fill_hundredth_ml: int) -> int:
    """The fewest changes that leave at most `share`.  Raises Refused outside 0 to 1."""
    _check_share(share)
    each = _share(carried_hundredth_ml, fill_hundredth_ml)
    # a share that is met exactly must not cost a change to rounding
    return ceil(log(share) / log(each) - 1e-9)


def volumes_per_hour(flow_hundredth_ml_per_min: int, volume_hundredth_ml: int) -> float:
    """How often in an hour a flow replaces the water of a vessel.  Raises Refused for none."""
    for field, value in (("flow", flow_hundredth_ml_per_min), ("volume", volume_hundredth_ml)):
        if value <= 0:
            raise Refused(Problem(f"a {field} of nothing washes nothing", field=field))
    return flow_hundredth_ml_per_min * 60 / volume_hundredth_ml


def left_in_running_water(changes_per_hour: float, washed_ms: int) -> float:
    """The share left in a vessel that is perfectly mixed all the time."""
    return exp(-changes_per_hour * washed_ms / MS_PER_HOUR)


def running_time_ms(share: float, changes_per_hour: float) -> int:
    """How long the water must run to leave `share`.  Raises Refused outside 0 to 1."""
    _check_share(share)
    return ceil(-log(share) / changes_per_hour * MS_PER_HOUR - 1e-6)


def _share(carried_hundredth_ml: int, fill_hundredth_ml: int) -> float:
    for field, value in (("carried", carried_hundredth_ml), ("fill", fill_hundredth_ml)):
        if value <= 0:
            raise Refused(
                Problem(
                    f"with a {field} volume of nothing there is nothing to reckon",
                    field=field,
                    mend="give a volume above zero",
                )
            )
    return carried_hundredth_ml / (carried_hundredth_ml + fill_hundredth_ml)


def _check_share(share: float) -> None:
    if not 0 < share < 1:
        raise Refused(
            Problem(
                f"a share of {share:g} cannot be washed down to",
                field="to",
                mend="give a share between 0 and 1: 0.001 is a thousandth",
            )
        )
