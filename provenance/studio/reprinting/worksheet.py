"""A plan put on the darkroom worksheet."""

from datetime import datetime
from pathlib import Path

from provenance.documents.worksheet import Crop, Line, Part, Worksheet, draw_worksheet
from provenance.model.certificate import Page
from provenance.model.quantity_text import format_stops
from provenance.records.files import write_whole
from provenance.studio.reprinting.plan import ReprintPlan


def write_worksheet(
    path: Path, plan: ReprintPlan, *, name: str, page: Page, drawn_at_utc: datetime
) -> None:
    """Write the worksheet of `plan`, for the reference called `name`, to `path`.

    Raises Refused when it does not fit on one side.
    """
    sheet = worksheet_of(plan, name=name, page=page, drawn_at_utc=drawn_at_utc)
    write_whole(path, draw_worksheet(sheet))


def worksheet_of(plan: ReprintPlan, *, name: str, page: Page, drawn_at_utc: datetime) -> Worksheet:
    """The plan as finished text."""
    history, new = plan.reference.history, plan.exposure
    return Worksheet(
        title=f"To match {name}: {history.negative.body.title}",
        about=f"negative {history.negative.body.code}, paper {plan.paper.body.code},"
        f" {plan.wish.sheets} to print",
        base=f"{new.seconds:.1f} s" if new is not None else "",
        beside=tuple(_beside(plan)),
        parts=(
            Part("Burns and dodges", tuple(_areas(plan))),
            Part("Trays", tuple(_trays(plan))),
            Part("To mix", tuple(_mixes(plan))),
            Part("Densities, dry", tuple(_aims(plan))),
        ),
        ladder=tuple(f"{one.total_s:.1f}" for one in plan.strip.patches) if plan.strip else (),
        crop=_crop(plan),
        drawn_at_utc=drawn_at_utc,
        author=history.studio.body.artist,
        page=page,
    )


def _beside(plan: ReprintPlan) -> list[str]:
    exposure, new = plan.reference.exposure, plan.exposure
    said = []
    if new is not None:
        said.append(f"strip decides: {new.low_s:.1f} to {new.high_s:.1f} s")
    if len(plan.parts_s) > 1:
        said += [f"{seconds:.1f} s at {grade}" for grade, seconds in plan.parts_s.items()]
    elif plan.change.grade:
        said.append(f"grade {plan.change.grade}")
    aperture = plan.wish.aperture_tenth or exposure.aperture_tenth
    said.append(f"f/{aperture / 10:g}, {exposure.lens}".strip(", ") if aperture else exposure.lens)
    enlarged = plan.wish.magnification_thousandth or exposure.magnification_thousandth
    if enlarged:
        said.append(f"magnification {enlarged / 1000:.3f}")
    said.append(", ".join(filter(None, (exposure.enlarger, exposure.head, exposure.carrier))))
    if exposure.emergence_ms:
        said.append(f"first tone at {exposure.emergence_ms / 1000:g} s")
    return [one for one in said if one]


def _areas(plan: ReprintPlan) -> list[Line]:
    notes = {burn.area: burn.note for burn in plan.reference.exposure.burns}
    timed = {area.area for area in plan.areas}
    lines = []
    for area in plan.areas:
        for one in area.changes:
            done = "burn" if one.seconds > 0 else "dodge"
            at = f" at {one.grade}" if one.grade else ""
            stops = format_stops(round(1000 * one.stops))
            more = "; ".join(filter(None, (stops, notes.get(area.area, ""))))
            lines.append(Line(area.area, f"{done} {abs(one.seconds):.1f} s{at}", more))
    for burn in plan.reference.exposure.burns:
        if burn.area not in timed:
            lines.append(Line(burn.area, format_stops(burn.milli_stop), burn.note))
    return lines


def _trays(plan: ReprintPlan) -> list[Line]:
    return [
        Line(tray.name, tray.aim, "; ".join(filter(None, (tray.contents, *tray.differences))))
        for tray in (plan.session.trays if plan.session else ())
    ]


def _mixes(plan: ReprintPlan) -> list[Line]:
    return [
        Line(mix.step, mix.text, mix.heed[0] if mix.heed else "", box=False)
        for mix in (plan.session.mixes if plan.session else ())
    ]


def _aims(plan: ReprintPlan) -> list[Line]:
    return [
        Line(
            aim.spot,
            f"{aim.density:.2f} ± {aim.tolerance:.2f}",
            f"predicted {aim.predicted.density:.2f}" if aim.predicted else "",
        )
        for aim in plan.aims
    ]


def _crop(plan: ReprintPlan) -> Crop | None:
    frame, crop = plan.reference.history.negative.body.format, plan.reference.exposure.crop
    if frame is None:
        return None
    whole = (frame.height_tenth_mm, frame.width_tenth_mm)
    if crop is None:
        return Crop(whole, 0, 0, whole)
    size = (crop.size.height_tenth_mm, crop.size.width_tenth_mm)
    return Crop(whole, crop.left_tenth_mm, crop.top_tenth_mm, size)
