"""Studies of a day sheet: of washing, of toning, and of how dark a spot is."""

from collections.abc import Callable
from typing import TypeVar

from provenance.craft.numbers import read_number
from provenance.craft.residual import convert_areal_mass, read_areal_mass
from provenance.craft.units import parse_duration_ms, parse_temperature_tenth_c
from provenance.craft.washing.written import read_readings
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.model.process import Question
from provenance.model.proof import METHODS
from provenance.model.study import BleachedPatch, SpotCalibration, SpotPoint, ToningStudy, WashStudy
from provenance.studio.daysheet.context import Context, Item, Skipped
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.study_forms import (
    CalibrationForm,
    ToningStudyForm,
    WashStudyForm,
)
from provenance.studio.processes import use_process

T = TypeVar("T")
_DENSEST = 6


def enter_studies(context: Context, sheet: DaySheet) -> None:
    """Enter the studies of the sheet; their papers are on record by then."""
    for place, washed in enumerate(sheet.wash_study):
        _washed(context, place, washed)
    for place, toned in enumerate(sheet.toning_study):
        _toned(context, place, toned)
    for place, scale in enumerate(sheet.calibration):
        _scale(context, place, scale)


def _washed(context: Context, place: int, form: WashStudyForm) -> None:
    with context.item("wash_study", place, names=(form.code,)) as item:
        on = item.day("on", form.on)
        warmth = item.read("temperature", parse_temperature_tenth_c, form.temperature)
        readings = item.attempt(lambda: read_readings(form.readings, form.code), "readings")
        paper = item.known(Paper, form.paper, "paper")
        item.check()
        if readings is None:
            raise Skipped
        item.enter(
            WashStudy(
                code=form.code,
                paper=paper.id,
                done_on=on,
                fixing=form.fixing,
                aid=form.aid,
                washing=form.washing,
                temperature_tenth_c=warmth,
                method=form.method,
                reckoned_as=form.reckoned_as,
                laboratory=form.laboratory,
                readings=readings,
                source=context.source,
                note=form.note,
            ),
            f"wash study {form.code}  {len(readings)} readings",
        )


def _toned(context: Context, place: int, form: ToningStudyForm) -> None:
    with context.item("toning_study", place, names=(form.code,)) as item:
        on = item.day("on", form.on)
        bleached = item.read("bleached", parse_duration_ms, form.bleached)
        least = item.read("paper_density", density_md, form.paper_density)
        patches = _each(item, "patches", _patch, form.patches)
        paper = item.known(Paper, form.paper, "paper")
        code = form.process
        process = (
            item.attempt(lambda: use_process(context.act, context.folder, code), "process")
            if code
            else None
        )
        item.check()
        if least is None:
            raise Skipped
        item.enter(
            ToningStudy(
                code=form.code,
                paper=paper.id,
                process=process[0] if process else None,
                done_on=on,
                bleach=form.bleach,
                bath=form.bath,
                bleached_ms=bleached,
                d_min_md=least,
                patches=patches,
                filter=form.filter,
                instrument=form.instrument,
                source=context.source,
                note=form.note,
            ),
            f"toning study {form.code}  {len(patches)} patches",
        )


def _scale(context: Context, place: int, form: CalibrationForm) -> None:
    with context.item("calibration", place, names=(form.code,)) as item:
        on = item.day("on", form.on)
        contact = item.read("contact", parse_duration_ms, form.contact)
        read = item.read("read", parse_duration_ms, form.read)
        points = _each(item, "points", _point, form.points)
        paper = item.known(Paper, form.paper, "paper")
        item.check()
        silver: Question = "silver"
        species = form.reckoned_as or (None if form.method in METHODS[silver] else "ion")
        item.enter(
            SpotCalibration(
                code=form.code,
                paper=paper.id,
                done_on=on,
                method=form.method,
                contact_ms=contact,
                read_ms=read,
                points=points,
                reckoned_as=species,
                laboratory=form.laboratory,
                instrument=form.instrument,
                filter=form.filter,
                source=context.source,
                note=form.note,
            ),
            f"calibration {form.code}  {len(points)} spots",
        )


def _each(item: Item, field: str, read: Callable[..., T], texts: list[str]) -> tuple[T, ...]:
    found = (item.read(f"{field}.{place}", read, text) for place, text in enumerate(texts))
    return tuple(one for one in found if one is not None)


def density_md(text: str, *, field: str = "") -> int:
    """A density in thousandths: ``0.65`` is 650.  Raises Refused for one below nothing."""
    value = read_number(text.strip(), field=field)
    if not 0 <= value <= _DENSEST:
        raise Refused(
            Problem(
                f"“{text.strip()}” is no density of a print",
                field=field,
                mend="give it with two decimals, as 0.65; none is negative",
            )
        )
    return round(1000 * value)


def _patch(text: str, *, field: str = "") -> BleachedPatch:
    before, after = _pair(text, field, "0.96: 0.36")
    return BleachedPatch(
        before_md=density_md(before, field=field), after_md=density_md(after, field=field)
    )


def _point(text: str, *, field: str = "") -> SpotPoint:
    darker, found = _pair(text, field, "0.12: 0.9 µg/cm²")
    return SpotPoint(
        darker_md=density_md(darker, field=field), found_ng_per_cm2=ng_per_cm2(found, field=field)
    )


def _pair(text: str, field: str, as_: str) -> tuple[str, str]:
    first, colon, second = text.partition(":")
    if not (colon and first.strip() and second.strip()):
        raise Refused(Problem(f"“{text}” is not two readings", field=field, mend=f"as {as_}"))
    return first, second


def ng_per_cm2(text: str, *, field: str = "") -> int:
    """A residual amount, whatever its unit, in ng/cm².  Raises Refused."""
    amount = read_areal_mass(text.strip(), field=field)
    if amount is None or amount.value < 0:
        what = "is not an amount per area" if amount is None else "is less than nothing"
        raise Refused(Problem(f"“{text.strip()}” {what}", field=field, mend="as 0.9 µg/cm²"))
    exact = convert_areal_mass(amount.value, amount.unit, "µg/cm²") * 1000
    if amount.unit == "µg/cm²" and abs(exact - round(exact)) > 1e-6:
        raise Refused(
            Problem(
                f"“{text.strip()}” is finer than 0.001 µg/cm²",
                field=field,
                mend="give the figure of the report",
            )
        )
    return round(exact)
