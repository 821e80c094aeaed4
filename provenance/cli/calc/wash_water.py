"""What changes of water and running water leave, as answers."""

from dataclasses import dataclass

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.craft.numbers import read_number
from provenance.craft.solutions.written import parse_strength_mg_per_l
from provenance.craft.units import parse_duration_ms, parse_size, parse_volume_hundredth_ml
from provenance.craft.washing.carry_over import USUAL, carried_g_per_m2
from provenance.craft.washing.changes import (
    changes_to,
    left_after_changes,
    left_in_running_water,
    running_time_ms,
    volumes_per_hour,
)
from provenance.model.quantity_text import format_duration, format_volume

_LEAST = "fibre-based paper holds fixer back: more is left than mixing alone leaves"


@dataclass(frozen=True)
class Load:
    """The sheets that are washed, as they were typed."""

    carried: str | None
    size: str | None
    sheets: int
    strength: str | None


def changed(load: Load, fill: str, changes: int | None, share: str | None) -> Answer:
    """Dump and fill.  Raises Refused and click.UsageError."""
    fill_hundredth_ml = parse_volume_hundredth_ml(fill, field="fill")
    answer = Answer(heed=[_LEAST])
    carried = _carried(load, answer)
    answer.data |= {
        "model": "dump and fill",
        "carried_hundredth_ml": carried,
        "fill_hundredth_ml": fill_hundredth_ml,
    }
    answer.rows.append(("carried", format_volume(carried)))
    answer.assumed.append("each change mixed through, and drained as before")
    if changes is not None:
        left = left_after_changes(carried, fill_hundredth_ml, changes)
        answer.data |= {"changes": changes, "share_left": left}
        answer.rows.append((_counted(changes), f"{_share(left)} left at the least"))
        _per_area(load, carried, left, answer)
    if share is not None:
        wanted = float(read_number(share, field="to"))
        needed = changes_to(wanted, carried, fill_hundredth_ml)
        answer.data |= {"share_wanted": wanted, "changes_needed": needed}
        answer.rows.append((f"to {_share(wanted)}", f"{_counted(needed)} at the least"))
    return answer


def running(flow: str, fill: str, time: str | None, share: str | None) -> Answer:
    """Running water.  Raises Refused."""
    per_min = parse_volume_hundredth_ml(flow, field="flow")
    vessel = parse_volume_hundredth_ml(fill, field="fill")
    per_hour = volumes_per_hour(per_min, vessel)
    answer = Answer(
        data={
            "model": "running water",
            "flow_hundredth_ml_per_min": per_min,
            "vessel_hundredth_ml": vessel,
            "volumes_per_hour": per_hour,
        },
        rows=[("changes", f"{figure(per_hour)} volumes an hour")],
        assumed=["a vessel that is perfectly mixed all the time"],
        heed=[_LEAST],
    )
    if time is not None:
        washed_ms = parse_duration_ms(time, field="time")
        left = left_in_running_water(per_hour, washed_ms)
        answer.data |= {"washed_ms": washed_ms, "share_left": left}
        answer.rows.append((format_duration(washed_ms), f"{_share(left)} left at the least"))
    if share is not None:
        wanted = float(read_number(share, field="to"))
        needed = running_time_ms(wanted, per_hour)
        answer.data |= {"share_wanted": wanted, "time_needed_ms": needed}
        answer.rows.append(
            (f"to {_share(wanted)}", f"{format_duration(_whole_s(needed))} at the least")
        )
    return answer


def _carried(load: Load, answer: Answer) -> int:
    if load.carried is not None:
        return parse_volume_hundredth_ml(load.carried, field="carried")
    answer.assumed.append(str(USUAL))
    return USUAL.volume_hundredth_ml(parse_size(load.size or "", field="size"), load.sheets)


def _per_area(load: Load, carried: int, left: float, answer: Answer) -> None:
    """What is left on a square metre, when it is known what clings to how much paper."""
    if load.strength is None:
        return
    if load.size is None:
        raise click.UsageError("--strength needs the --size of the sheets")
    each = carried_g_per_m2(
        round(carried / load.sheets),
        float(parse_strength_mg_per_l(load.strength, field="strength")),
        parse_size(load.size, field="size"),
    )
    answer.data |= {"start_g_per_m2": each, "left_g_per_m2": each * left}
    answer.rows.append(
        ("on each sheet", f"{figure(each, 'g/m²')} carried, {figure(each * left, 'g/m²')} left")
    )


def _counted(changes: int) -> str:
    return "1 change" if changes == 1 else f"{changes} changes"


def _share(share: float) -> str:
    """A share as a person reads it: 2.5 %, or one part in so many."""
    return f"{figure(share * 100)} %" if share >= 1e-4 else f"1 part in {1 / share:,.0f}"


def _whole_s(ms: int) -> int:
    """Up to the next whole second."""
    return -(-ms // 1000) * 1000
