"""Printings and treatments of a day sheet, with their steps and tests."""

import re
from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.numbers import read_number
from provenance.craft.units import (
    parse_duration_ms,
    parse_size,
    parse_stops,
    parse_temperature_tenth_c,
)
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.printing import Burn, Exposure, OwnTime, Printing, Step
from provenance.model.process import ProcessSheet, Question
from provenance.model.proof import Test
from provenance.studio.daysheet.context import Context, Item, Skipped
from provenance.studio.daysheet.forms import ExposureForm, PrintingForm, StepForm, TreatmentForm
from provenance.studio.printing import (
    Work,
    Written,
    follow_plan,
    record_printing,
    record_work,
)
from provenance.studio.processes import use_process

_TIME_OF_DAY = re.compile(r"([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?")
_AREAL = re.compile(r"(?P<number>.+?)\s*(?:µ|μ|u)g\s*/\s*cm(?:2|²)")


@dataclass(frozen=True)
class _Sheets:
    """The sheets in hand: their ids, and what the sheet's writer calls each."""

    names: dict[str, int]
    edition: str = ""

    @property
    def ids(self) -> tuple[int, ...]:
        return tuple(self.names.values())


def enter_printing(context: Context, place: int, form: PrintingForm) -> None:
    """Enter one printing: its exposure, its new sheets, its steps and tests."""
    called = tuple(f"{form.edition} {mark}" for mark in form.sheets)
    with context.item("printing", place, names=called) as item:
        done_on = item.day("date", form.date)
        image = item.read("image", parse_size, form.image)
        sheet = item.read("sheet", parse_size, form.sheet)
        exposure = _exposure(item, form.exposure)
        edition = item.known(Edition, form.edition, "edition")
        paper = item.known(Paper, form.paper, "paper").id if form.paper else None
        process = use_process(context.act, context.folder, form.process) if form.process else None
        item.check()
        printing = Printing(
            negative=edition.body.negative,
            done_on=done_on,
            printer=form.printer,
            paper=paper,
            process=process[0] if process else None,
            exposure=exposure,
            source=context.source,
            note=form.note,
        )
        prints = record_printing(
            context.act, edition, printing, form.sheets, image=image, sheet=sheet
        )
        context.entered.append(f"printing {done_on}  {form.edition} {', '.join(form.sheets)}")
        sheets = _Sheets(dict(zip(form.sheets, prints, strict=True)), form.edition)
        _enter_steps(item, form, sheets, done_on, process[1] if process else None)


def enter_treatment(context: Context, place: int, form: TreatmentForm) -> None:
    """Enter what sheets that exist already went through."""
    with context.item("treatment", place) as item:
        done_on = item.day("date", form.date)
        sheets = _Sheets({text: item.print(text, "sheets").id for text in form.sheets})
        process = use_process(context.act, context.folder, form.process) if form.process else None
        item.check()
        context.entered.append(f"treatment {done_on}  {', '.join(form.sheets)}")
        _enter_steps(item, form, sheets, done_on, process[1] if process else None)


def _enter_steps(
    item: Item,
    form: PrintingForm | TreatmentForm,
    sheets: _Sheets,
    done_on: str,
    plan: ProcessSheet | None,
) -> None:
    baths = {name: item.known(Bath, code, "baths").id for name, code in form.baths.items()}
    written: list[Written] = []
    for place, step in enumerate(form.step):
        with item.context.item(*item.place, "step", place) as inner:
            written.append(_written(inner, step, sheets, done_on))
        item.follow(inner)
    item.check()
    work: list[Work]
    if form.as_planned:
        if plan is None:
            raise Refused(
                Problem(
                    what="no plan says what was done as planned",
                    field="as_planned",
                    mend="name the process sheet: process = ...",
                )
            )
        _all_named(baths, plan)
        work = follow_plan(
            plan,
            written,
            sheets=sheets.ids,
            done_on=done_on,
            source=item.context.source,
            baths=baths,
        )
    else:
        work = [one.work for one in written]
    record_work(item.context.act, work)
    tests = sum(isinstance(one, Test) for one in work)
    item.context.entered.append(f"  {len(work) - tests} steps, {tests} tests")


def _all_named(baths: dict[str, int], plan: ProcessSheet) -> None:
    names = [step.name for step in plan.steps if step.role]
    for name in baths.keys() - set(names):
        raise Refused(
            Problem(
                what=f"the process sheet has no step {name!r}",
                field=f"baths.{name}",
                mend=f"its steps are: {', '.join(names)}",
            )
        )


def _written(item: Item, form: StepForm, sheets: _Sheets, done_on: str) -> Written:
    if (form.do is None) == (form.test is None):
        raise Refused(
            Problem(
                what="says neither or both of `do` and `test`",
                mend='write do = "fix" for a bath, test = "silver" for a test',
            )
        )
    chosen = _chosen(item, form, sheets)
    day = item.date("date", form.date) or done_on
    work: Work
    if form.test is not None:
        work = _test(item, form, form.test, chosen, day)
    elif form.do is not None:
        work = _step(item, form, form.do, sheets, chosen, day)
    return Written(work, name=form.name, after=form.after)


def _chosen(item: Item, form: StepForm, sheets: _Sheets) -> tuple[int, ...]:
    if form.sheets is None:
        return sheets.ids
    return tuple(_sheet(item, name, sheets, "sheets") for name in form.sheets)


def _sheet(item: Item, name: str, sheets: _Sheets, field: str) -> int:
    if name in sheets.names:
        return sheets.names[name]
    raise Refused(
        Problem(
            what=f"{name} is not among the sheets in hand",
            field=field,
            mend=f"they are: {', '.join(sheets.names)}",
        )
    )


def _step(
    item: Item, form: StepForm, role: Role, sheets: _Sheets, chosen: tuple[int, ...], day: str
) -> Step:
    _unused(item, form, "method specimen contact read reading measured criterion verdict", "test")
    bath = item.known(Bath, form.bath, "bath").id if form.bath else None
    duration = item.read("time", parse_duration_ms, form.time)
    warmth = item.read("temperature", parse_temperature_tenth_c, form.temperature)
    own = tuple(
        OwnTime(sheet=_sheet(item, name, sheets, "own"), duration_ms=time)
        for name, text in form.own.items()
        if (time := item.read("own", parse_duration_ms, text)) is not None
    )
    if form.start is not None and not _TIME_OF_DAY.fullmatch(form.start):
        raise Refused(
            Problem(what=f"{form.start!r} is not a time of day", field="start", mend="as 10:41:07")
        )
    item.check()
    return Step(
        role=role,
        name=form.name,
        sheets=chosen,
        bath=bath,
        agent=form.agent,
        done_on=day,
        place=0,
        started=form.start,
        duration_ms=duration,
        own=own,
        temperature_tenth_c=warmth,
        source=item.context.source,
        note=form.note,
    )


def _test(
    item: Item, form: StepForm, question: Question, covers: tuple[int, ...], day: str
) -> Test:
    _unused(item, form, "bath agent time own temperature start", "do")
    for name in ("method", "specimen", "verdict"):
        if getattr(form, name) is None:
            item.note(Refused(Problem(what="is missing", field=name, mend="a test needs it")))
    contact = item.read("contact", parse_duration_ms, form.contact)
    read = item.read("read", parse_duration_ms, form.read)
    measured = item.read("measured", _ng_per_cm2, form.measured)
    item.check()
    if form.method is None or form.specimen is None or form.verdict is None:
        raise Skipped  # `check` went no further
    return Test(
        question=question,
        method=form.method,
        specimen=form.specimen,
        covers=covers,
        done_on=day,
        place=0,
        contact_ms=contact,
        read_ms=read,
        reading=form.reading,
        measured_ng_per_cm2=measured,
        criterion=form.criterion,
        criterion_source=form.criterion_source,
        verdict=form.verdict,
        source=item.context.source,
        note=form.note,
    )


def _unused(item: Item, form: StepForm, fields: str, belongs_to: str) -> None:
    for name in fields.split():
        if getattr(form, name) not in (None, "", {}):
            item.note(
                Refused(
                    Problem(
                        what=f"belongs to a step with `{belongs_to}`", field=name, mend="move it"
                    )
                )
            )


def _ng_per_cm2(text: str, *, field: str) -> int:
    match = _AREAL.fullmatch(text.strip())
    if match is None:
        raise Refused(
            Problem(what=f"“{text}” is not an amount per area", field=field, mend="as 0.9 µg/cm²")
        )
    amount = read_number(match["number"], field=field) * 1000
    if amount < 0 or amount.denominator != 1:
        raise Refused(
            Problem(
                what=f"“{text}” is negative or finer than 0.001 µg/cm²",
                field=field,
                mend="give the figure of the report",
            )
        )
    return int(amount)


def _exposure(item: Item, form: ExposureForm | None) -> Exposure | None:
    if form is None:
        return None
    base = item.read("exposure.base", parse_duration_ms, form.base)
    aperture = item.read("exposure.aperture", _f_number_tenth, form.aperture)
    burns: list[Burn] = []
    for place, burn in enumerate(form.burns):
        stops = item.read(f"exposure.burns.{place}.stops", parse_stops, burn.stops)
        if stops is not None:
            burns.append(Burn(area=burn.area, milli_stop=stops, grade=burn.grade))
    return Exposure(
        base_ms=base,
        grade=form.grade,
        aperture_tenth=aperture,
        enlarger=form.enlarger,
        lens=form.lens,
        burns=tuple(burns),
    )


def _f_number_tenth(text: str, *, field: str) -> int:
    """An f-number as it is engraved: ``f/5.6`` or ``5.6``, in tenths."""
    number: Fraction = read_number(text.lower().removeprefix("f/").strip(), field=field) * 10
    if not 5 <= number <= 1280 or number.denominator != 1:
        raise Refused(
            Problem(what=f"“{text}” is not an f-number", field=field, mend="write it as f/8")
        )
    return int(number)
