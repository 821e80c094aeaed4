"""One step or test of a day sheet: what a person wrote, as values."""

import re
from dataclasses import dataclass
from functools import partial
from typing import Literal

from provenance.craft.units import parse_duration_ms, parse_temperature_tenth_c
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.printing import OwnTime, Step
from provenance.model.process import Question
from provenance.model.proof import Attached, Test
from provenance.model.study import SpotCalibration
from provenance.studio.daysheet.context import Item, Skipped
from provenance.studio.daysheet.forms import PrintingForm, StepForm, TreatmentForm
from provenance.studio.daysheet.studied import density_md, ng_per_cm2
from provenance.studio.printing import Work, Written
from provenance.studio.testing import keep_attachment, read_attachment, with_limit

_TIME_OF_DAY = re.compile(r"([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?")


_OF_A_TEST = (
    "method specimen contact read reading measured reckoned_as darker calibration limit criterion"
    " criterion_source verdict kept_at photograph report"
)


@dataclass(frozen=True)
class Sheets:
    """The sheets in hand: their ids, and what the sheet's writer calls each."""

    names: dict[str, int]

    @property
    def ids(self) -> tuple[int, ...]:
        """The ids, in the order in which the sheets are named."""
        return tuple(self.names.values())


def read_steps(
    item: Item, form: PrintingForm | TreatmentForm, sheets: Sheets, done_on: str
) -> list[Written]:
    """The steps and tests of `form`; what is wrong with them is noted, each at its line."""
    written: list[Written] = []
    for place, step in enumerate(form.step):
        with item.context.item(*item.place, "step", place) as inner:
            written.append(_written(inner, step, sheets, done_on, place))
        item.follow(inner)
    return written


def _written(item: Item, form: StepForm, sheets: Sheets, done_on: str, origin: int) -> Written:
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
    return Written(work, name=form.name, after=form.after, origin=origin)


def _chosen(item: Item, form: StepForm, sheets: Sheets) -> tuple[int, ...]:
    if form.sheets is None:
        return sheets.ids
    return tuple(_sheet(item, name, sheets, "sheets") for name in form.sheets)


def _sheet(item: Item, name: str, sheets: Sheets, field: str) -> int:
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
    item: Item, form: StepForm, role: Role, sheets: Sheets, chosen: tuple[int, ...], day: str
) -> Step:
    _unused(item, form, _OF_A_TEST, "test")
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
    measured = item.read("measured", ng_per_cm2, form.measured)
    darker = item.read("darker", density_md, form.darker)
    scale = (
        item.known(SpotCalibration, form.calibration, "calibration") if form.calibration else None
    )
    files = (
        _attached(item, "photograph", form.photograph),
        _attached(item, "report", form.report),
    )
    item.check()
    if form.method is None or form.specimen is None or form.verdict is None:
        raise Skipped  # `check` went no further
    return with_limit(
        Test(
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
            reckoned_as=form.reckoned_as,
            darker_md=darker,
            calibration=scale.id if scale else None,
            criterion=form.criterion,
            criterion_source=form.criterion_source,
            verdict=form.verdict,
            kept_at=form.kept_at,
            attached=tuple(filter(None, files)),
            source=item.context.source,
            note=form.note,
        ),
        form.limit,
        item.context.settings,
    )


def _attached(
    item: Item, what: Literal["photograph", "report"], file: str | None
) -> Attached | None:
    if file is None:
        return None
    path = item.context.base / file
    kept = item.attempt(lambda: read_attachment(what, path), what)
    if kept is None:
        return None
    item.context.files.append(partial(keep_attachment, item.context.folder, kept))
    return kept.attached


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
