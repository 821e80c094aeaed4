"""`provenance reprint REF`"""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from provenance.cli.main import WHOLE, json_option
from provenance.cli.output import json_line, line, narrate, pad
from provenance.model.certificate import Page

if TYPE_CHECKING:
    from provenance.studio.reprinting.plan import ReprintPlan


_COLUMNS, _ROWS = 78, 16
"""Of the two charts together."""


@click.command("reprint")
@click.argument("ref", nargs=-1, required=True)
@click.option("--paper", required=True, metavar="CODE", help="The paper to print on.")
@click.option("--magnification", metavar="M", help="As measured now; else as it was.")
@click.option("--grade", help="The grade or filter; else the one that comes nearest.")
@click.option("--aperture", metavar="F", help="Else as it was.")
@click.option("--process", metavar="CODE", help="The process sheet; else as it was.")
@click.option("--sheets", type=WHOLE, default=1, show_default=True, help="How many to print.")
@click.option("--page", type=click.Choice(["A4", "letter"]), help="Else the studio's setting.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Write the worksheet (PDF)."
)
@json_option
@click.pass_obj
def reprint_command(
    studio: str | None,
    ref: tuple[str, ...],
    paper: str,
    magnification: str | None,
    grade: str | None,
    aperture: str | None,
    process: str | None,
    sheets: int,
    page: Page | None,
    out: Path | None,
    as_json: bool,
) -> None:
    """Plan a print that matches the one that REF names, on another paper or at another size.

    What the record lacks for a match is said, with the weaker plan that remains.
    """
    from provenance.studio.daysheet.exposed import f_number_tenth, magnification_thousandth
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print
    from provenance.studio.reprinting.plan import Wish, plan_reprint
    from provenance.studio.settings import read_settings

    wish = Wish(
        paper=paper,
        magnification_thousandth=None
        if magnification is None
        else magnification_thousandth(magnification, field="magnification"),
        grade=grade,
        sheets=sheets,
        aperture_tenth=None if aperture is None else f_number_tenth(aperture, field="aperture"),
        process=process,
    )
    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_print(register.read, " ".join(ref))
        today = register.clock().local_date()
        plan = plan_reprint(register.read, folder, held.id, wish, today=today)
        if out is not None:
            from provenance.studio.browsing import name_of
            from provenance.studio.reprinting.worksheet import write_worksheet

            settings = read_settings(folder)
            write_worksheet(
                out,
                plan,
                folder,
                name=name_of(register.read, held),
                page=page or settings.page,
                language=settings.language,
                drawn_at_utc=register.clock().utc(),
            )
            narrate(f"worksheet: {out}")
    if as_json:
        json_line(shape(plan))
        return
    _tell(plan)


def shape(plan: "ReprintPlan") -> dict[str, Any]:
    """The plan as plain values."""
    new, session = plan.exposure, plan.session
    return {
        "paper": plan.paper.body.code,
        "grade": plan.change.grade,
        "basis": plan.change.basis,
        "grades": [
            {"grade": one.name, "rms_density_error": one.rms_error, "worst": one.worst.target.spot}
            for one in plan.change.candidates
        ],
        "base_ms": None if new is None else round(1000 * new.seconds),
        "low_ms": None if new is None else round(1000 * new.low_s),
        "high_ms": None if new is None else round(1000 * new.high_s),
        "parts_ms": {grade: round(1000 * one) for grade, one in plan.parts_s.items()},
        "areas": [
            {
                "area": area.area,
                "changes": [
                    {
                        "grade": one.grade,
                        "milli_stop": round(1000 * one.stops),
                        "time_ms": round(1000 * one.seconds),
                    }
                    for one in area.changes
                ],
            }
            for area in plan.areas
        ],
        "strip_ms": [round(1000 * one.total_s) for one in plan.strip.patches] if plan.strip else [],
        "targets": [
            {
                "spot": one.spot,
                "density": one.density,
                "tolerance": one.tolerance,
                "predicted": one.predicted.density if one.predicted else None,
                "predicted_error": one.predicted.error_of_prediction if one.predicted else None,
            }
            for one in plan.aims
        ],
        "trays": [
            {
                "step": one.name,
                "in": one.contents,
                "aim": one.aim,
                "changed": [str(each) for each in one.differences],
            }
            for one in (session.trays if session else ())
        ],
        "mix": [{"step": one.step, "take": one.text} for one in (session.mixes if session else ())],
        "missing": [str(one) for one in plan.missing],
        "questions": [str(one) for one in plan.questions],
        "cautions": [str(one) for one in plan.cautions],
    }


def _tell(plan: "ReprintPlan") -> None:
    from provenance.studio.reprinting.pictures import chart_lines
    from provenance.studio.reprinting.plan_text import (
        Said,
        exposure_said,
        mixes_said,
        targets_said,
        trays_said,
    )

    def tell(about: str, said: Said) -> None:
        line(f"{pad(about, 11)} {said.text}" + (f"  [{said.more}]" if said.more else ""))

    for one in exposure_said(plan):
        tell(one.about, one)
    for kind, lines in (
        ("target", targets_said(plan)),
        ("tray", trays_said(plan)),
        ("mix", mixes_said(plan)),
    ):
        for one in lines:
            tell(kind, Said(one.about, f"{one.about}: {one.text}", one.more))
    for row in chart_lines(plan, _COLUMNS, _ROWS):
        line(row)
    for missing in plan.missing:
        narrate(f"missing: {missing}")
    for question in plan.questions:
        narrate(f"open: {question}")
    for caution in plan.cautions:
        narrate(f"heed: {caution}")
