"""Printings and treatments of a day sheet, with their steps and tests."""

from provenance.craft.units import parse_size
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.process import ProcessSheet
from provenance.model.proof import Test
from provenance.studio.daysheet.context import Context, Item
from provenance.studio.daysheet.exposed import read_exposure
from provenance.studio.daysheet.forms import PrintingForm, TreatmentForm
from provenance.studio.daysheet.found import warn_of_plan
from provenance.studio.daysheet.steps import Sheets, read_steps
from provenance.studio.printing import Written, follow_plan, placed, record_printing
from provenance.studio.processes import use_process
from provenance.studio.testing import as_repeat


def enter_printing(context: Context, place: int, form: PrintingForm) -> None:
    """Enter one printing: its exposure, its new sheets, its steps and tests."""
    called = tuple(f"{form.edition} {mark}" for mark in form.sheets)
    with context.item("printing", place, names=called) as item:
        done_on = item.day("date", form.date)
        image = item.read("image", parse_size, form.image)
        sheet = item.read("sheet", parse_size, form.sheet)
        exposure = read_exposure(item, form.exposure)
        process = _process(item, form)
        item.look_for(Edition, form.edition, "edition")
        item.look_for(Paper, form.paper, "paper")
        _look_ahead(item, form, done_on)
        edition = item.known(Edition, form.edition, "edition")
        paper = item.known(Paper, form.paper, "paper").id if form.paper else None
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
        sheets = Sheets(dict(zip(form.sheets, prints, strict=True)))
        _enter_steps(item, form, sheets, done_on, process[1] if process else None)


def enter_treatment(context: Context, place: int, form: TreatmentForm) -> None:
    """Enter what sheets that exist already went through."""
    with context.item("treatment", place) as item:
        done_on = item.day("date", form.date)
        process = _process(item, form)
        for text in form.sheets:
            item.look_for_print(text, "sheets")
        _look_ahead(item, form, done_on)
        sheets = Sheets({text: item.print(text, "sheets").id for text in form.sheets})
        context.entered.append(f"treatment {done_on}  {', '.join(form.sheets)}")
        _enter_steps(item, form, sheets, done_on, process[1] if process else None)


def _process(item: Item, form: PrintingForm | TreatmentForm) -> tuple[int, ProcessSheet] | None:
    code = form.process
    if code is None:
        return None
    used = item.attempt(lambda: use_process(item.context.act, item.context.folder, code))
    if used is not None:
        warn_of_plan(item, used[1])
    return used


def _look_ahead(item: Item, form: PrintingForm | TreatmentForm, done_on: str) -> None:
    """Go no further when something is wrong, and then tell what is wrong in the steps too."""
    for name, code in form.baths.items():
        item.look_for(Bath, code, f"baths.{name}")
    if not item.sound:
        # no sheet is on record yet; their names are enough to read by
        read_steps(item, form, Sheets(dict.fromkeys(form.sheets, 0)), done_on)
    item.check()


def _enter_steps(
    item: Item,
    form: PrintingForm | TreatmentForm,
    sheets: Sheets,
    done_on: str,
    plan: ProcessSheet | None,
) -> None:
    baths = {name: item.known(Bath, code, f"baths.{name}").id for name, code in form.baths.items()}
    written = read_steps(item, form, sheets, done_on)
    item.check()
    if form.as_planned:
        written = _as_planned(item, plan, written, sheets, done_on, baths)
    elif baths:
        raise Refused(
            Problem(
                what="says which bath stood for which planned step, but nothing was as planned",
                field="baths",
                mend="add as_planned = true, or name the bath in each step: bath = ...",
            )
        )
    work = placed(item.context.act, [one.work for one in written])
    for one, body in zip(written, work, strict=True):
        place = item.place if one.origin is None else (*item.place, "step", one.origin)
        with item.context.item(*place) as inner:
            if isinstance(body, Test):
                body = as_repeat(item.context.act, body)
            item.context.written[item.context.act.enter(body)] = place
        item.follow(inner)
        if isinstance(body, Step) and body.bath is not None:
            item.context.used[body.bath] = place
    tests = sum(isinstance(body, Test) for body in work)
    item.context.entered.append(f"  {len(work) - tests} steps, {tests} tests")


def _as_planned(
    item: Item,
    plan: ProcessSheet | None,
    written: list[Written],
    sheets: Sheets,
    done_on: str,
    baths: dict[str, int],
) -> list[Written]:
    if plan is None:
        raise Refused(
            Problem(
                what="no plan says what was done as planned",
                field="as_planned",
                mend="name the process sheet: process = ...",
            )
        )
    names = [step.name for step in plan.steps if step.role]
    for name in [name for name in baths if name not in names]:
        item.note(
            Refused(
                Problem(
                    what=f"the process sheet has no step {name!r} with a bath",
                    field=f"baths.{name}",
                    mend=f"its steps are: {', '.join(names)}",
                )
            )
        )
    item.check()
    return follow_plan(
        plan,
        written,
        sheets=sheets.ids,
        done_on=done_on,
        source=item.context.source,
        baths=baths,
    )
