"""How much of each solution a session needs."""

from collections.abc import Mapping
from dataclasses import dataclass

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Role
from provenance.model.process import ProcessSheet
from provenance.model.quantities import Size
from provenance.model.quantity_text import format_volume
from provenance.model.sources import Sourced

WATER: frozenset[Role] = frozenset({"presoak", "rinse", "wash"})
"""Steps in plain water, which is not mixed."""

TRAY_MARGIN_TENTH_MM = 200
"""A tray is this much larger than the sheet on every side."""
TRAY_DEPTH_TENTH_MM = 150
TRAY_SOURCE = Sourced("P", "a tray two centimetres larger all round, one and a half deep")


@dataclass(frozen=True)
class Need:
    """One solution of a session: how much, in how many fillings, on what assumption."""

    step: str
    role: Role
    volume_hundredth_ml: int
    fillings: int
    assumption: str


def tray_volume_hundredth_ml(size: Size) -> int:
    """What fills a tray for a sheet, up to the next 100 ml; `TRAY_SOURCE` is its worth."""
    height = size.height_tenth_mm + 2 * TRAY_MARGIN_TENTH_MM
    width = size.width_tenth_mm + 2 * TRAY_MARGIN_TENTH_MM
    # a hundredth of a millilitre is ten cubic millimetres, ten thousand cubic tenths
    hundreds_of_ml = -(-height * width * TRAY_DEPTH_TENTH_MM // (10_000 * 10_000))
    return hundreds_of_ml * 10_000


def chemistry_needed(
    process: ProcessSheet,
    size: Size,
    sheets: int,
    *,
    tray_hundredth_ml: int | None = None,
    one_shot_hundredth_ml: Mapping[str, int] | None = None,
    sheets_per_filling: Mapping[str, int] | None = None,
) -> tuple[Need, ...]:
    """What to mix so that `sheets` of one size can go through `process`.

    Each step has one tray, renewed after `sheets_per_filling` where that is
    given for the step; a step named in `one_shot_hundredth_ml` takes that much
    fresh solution for every sheet.  Raises Refused for no sheets, for a volume
    or a capacity that is not above zero, and for a step that is not in the plan.
    """
    one_shot, capacity = one_shot_hundredth_ml or {}, sheets_per_filling or {}
    _check(process, sheets, {**one_shot, **capacity}, tray_hundredth_ml)
    tray = tray_hundredth_ml or tray_volume_hundredth_ml(size)
    of_tray = "as given" if tray_hundredth_ml else str(TRAY_SOURCE)
    needs = []
    for step in process.steps:
        if step.role is None or step.role in WATER:
            continue
        if step.name in one_shot:
            each, fillings = one_shot[step.name], sheets
            why = f"{format_volume(each)} fresh for every sheet, as given"
        else:
            each = tray
            fillings = -(-sheets // capacity[step.name]) if step.name in capacity else 1
            renewed = (
                f"renewed after {capacity[step.name]} sheets"
                if step.name in capacity
                else "not renewed"
            )
            why = f"a tray of {format_volume(each)}, {of_tray}; {renewed}"
        needs.append(Need(step.name, step.role, each * fillings, fillings, why))
    return tuple(needs)


def _check(
    process: ProcessSheet, sheets: int, given: Mapping[str, int], tray_hundredth_ml: int | None
) -> None:
    unknown = given.keys() - {step.name for step in process.steps}
    if unknown:
        raise Refused(
            Problem(
                what=f"{process.name} has no step {', '.join(sorted(unknown))}",
                field="step",
                mend=f"its steps are: {', '.join(step.name for step in process.steps)}",
            )
        )
    amounts = (sheets, *given.values(), 1 if tray_hundredth_ml is None else tray_hundredth_ml)
    if min(amounts) <= 0:
        raise Refused(
            Problem(
                what="a number of sheets or a volume is not above zero",
                field="sheets",
                mend="give how many sheets, and volumes above zero",
            )
        )
