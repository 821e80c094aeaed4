"""`provenance calc range`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from provenance.cli.calc.answer import Answer
from provenance.cli.main import json_option

if TYPE_CHECKING:
    from provenance.craft.sensitometry.curve import Curve
    from provenance.craft.sensitometry.paper_range import PaperRange


@click.command("range")
@click.argument("readings", type=click.Path(path_type=Path))
@click.option("--tablet", type=click.Choice(["21", "31"]), help="Steps, where they are numbered.")
@click.option("--logistic", is_flag=True, help="From a logistic, if one fits every reading.")
@json_option
def range_command(readings: Path, tablet: str | None, logistic: bool, as_json: bool) -> None:
    """The exposure range of a paper from READINGS of a step tablet printed on it (CSV)."""
    from provenance.cli.calc.wedge_file import (
        READINGS_ONLY,
        curve_in,
        drawn,
        read_wedge_file,
        tablet_assumed,
    )
    from provenance.craft.sensitometry.logistic import fit_logistic
    from provenance.craft.sensitometry.paper_range import paper_range

    steps = int(tablet or 0)
    table = read_wedge_file(readings, steps)
    curve = curve_in(readings, table)
    answer = Answer(
        data={
            "d_min": curve.d_min,
            "d_max": curve.d_max,
            "steps": len(curve.log_h),
            "moved": curve.moved,
        },
        rows=[("D-min, D-max", f"{curve.d_min:.2f}, {curve.d_max:.2f}")],
        assumed=tablet_assumed(steps),
    )
    if logistic:
        fitted = fit_logistic(table.steps, curve.d_min, curve.d_max)
        answer.assumed.append(
            f"a logistic, which misses no reading by more than {fitted.worst_residual:.3f}"
        )
        _tell_range(answer, fitted.range)
    else:
        answer.assumed.append(READINGS_ONLY)
        _tell_range(answer, paper_range(curve))
        _tell_speed(answer, curve)
    if curve.moved > 0.03:
        answer.heed.append(
            f"a reading is {curve.moved:.2f} off a curve that rises with exposure; read it again"
        )
    answer.drawing = drawn(curve)
    answer.tell(as_json=as_json)


def _tell_range(answer: Answer, found: "PaperRange") -> None:
    from provenance.craft.exposure.stops import stops_of
    from provenance.craft.sensitometry.paper_range import (
        SHOULDER,
        STANDARD_SOURCE,
        TOE,
        TOE_SOURCE,
    )

    low, high = found.classes
    answer.data |= {
        "range_log_h": found.log_h,
        "range_error_log_h": found.error,
        "class_r": found.class_r,
        "class_r_from": low,
        "class_r_to": high,
        "begins_log_h": found.begins,
        "ends_log_h": found.ends,
    }
    within = f", within the band R {low} to {high}" if low < high else ""
    band = f" ± {2 * found.error:.2f}" if found.error else ""
    said = f"{found.log_h:.2f}{band} log H, {stops_of(found.log_h):.1f} stops"
    answer.rows += [("range", said), ("class", f"R {found.class_r}{within}")]
    answer.assumed += [
        f"from {TOE} above D-min: {TOE_SOURCE}",
        f"to {SHOULDER:.0%} of D-max above D-min; R to the nearest 10: {STANDARD_SOURCE}",
    ]


def _tell_speed(answer: Answer, curve: "Curve") -> None:
    from provenance.craft.sensitometry.paper_range import SPEED_POINT, speed_point

    at, error = speed_point(curve), curve.error_at(curve.d_min + SPEED_POINT)
    answer.data |= {"speed_point_log_h": at, "speed_point_error_log_h": error}
    answer.rows.append(("speed point", f"{at:.3f} ± {2 * error:.3f} log H"))
