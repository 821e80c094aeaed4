"""Enters a day sheet: everything in it together, or nothing."""

import secrets
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from provenance.errors import NotFound, Problem, Refused
from provenance.model.dates import earliest, parse_edtf
from provenance.model.studio import Studio
from provenance.records.act import Act
from provenance.records.clock import Clock
from provenance.records.connection import FILE
from provenance.records.register import Register
from provenance.studio.daysheet.after_wash import enter_finishes
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.finished import enter_finished, enter_gone
from provenance.studio.daysheet.forms import DaySheet, StudioForm
from provenance.studio.daysheet.found import warn_of_findings
from provenance.studio.daysheet.held import (
    enter_held,
    enter_openings,
    enter_people,
    enter_replaced,
)
from provenance.studio.daysheet.measured import enter_matches, enter_readings, enter_wedges
from provenance.studio.daysheet.planned import change_negative_state, enter_planned
from provenance.studio.daysheet.promised import enter_closed, enter_promised
from provenance.studio.daysheet.shelved import enter_retired, warn_of_spent
from provenance.studio.daysheet.studied import enter_studies
from provenance.studio.daysheet.worked import enter_printing, enter_treatment
from provenance.studio.folder import StudioFolder, make_folders
from provenance.studio.settings import Settings, read_settings
from provenance.studio.written.forms import read_form
from provenance.studio.written.lines import Path as Place
from provenance.studio.written.lines import line_of

_EVERY = 50
"""After how many printings it is told how far the work has come."""


@dataclass(frozen=True)
class Recorded:
    """What came of a day sheet."""

    act: int
    """The number of the act, for `history` and `undo`; 0 when it was rehearsed."""
    entered: tuple[str, ...]
    """What was entered, a line each."""
    entries: int
    warnings: tuple[Problem, ...] = ()
    """What is worth a thought and forbade nothing, each with its line."""


def record_day_sheet(
    folder: StudioFolder, path: Path, *, rehearse: bool = False, clock: Clock | None = None
) -> Recorded:
    """Enter the day sheet at `path` into the studio in `folder`.

    A sheet with a [studio] table founds the studio where there is none.  With
    `rehearse` everything is checked and nothing is written.  Raises Refused
    with every problem and its line.
    """
    sheet, lines = _read(path)
    settings = read_settings(folder)
    founded = not (folder.path / FILE).exists()
    if founded:
        if sheet.studio is None:
            raise NotFound(
                Problem(
                    what="there is no studio here yet",
                    record=str(folder.path),
                    mend="add a [studio] table to the day sheet, or name the folder of a studio",
                )
            )
        return _found(folder, path, sheet, lines, settings, rehearse=rehearse, clock=clock)
    with folder.open(clock) as register:
        if sheet.studio is not None and not _only_founded(register, sheet.studio):
            raise Refused(
                Problem(
                    what="there is a studio here already",
                    record="studio",
                    line=line_of(lines, ("studio",)),
                    mend="take the [studio] table out",
                )
            )
        return _enter_file(register, folder, path, sheet, lines, settings, rehearse=rehearse)


def _only_founded(register: Register, form: StudioForm) -> bool:
    """Whether the studio was founded by this sheet and the rest was cut off."""
    studio = register.read.get(Studio, 1).body
    same = (studio.name, studio.mark) == (form.name, form.mark)
    return same and register.read.head()[0] == 1


def _read(path: Path) -> tuple[DaySheet, dict[Place, int]]:
    try:
        # some editors begin a file with a mark of its encoding
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        mend = "see where it lies" if isinstance(error, OSError) else "save it as UTF-8"
        raise Refused(
            Problem(what=f"cannot be read: {why}", record=str(path), mend=mend)
        ) from error
    sheet, lines = read_form(text, DaySheet, name=path.name)
    try:
        parse_edtf(sheet.day.date, field="date")
    except Refused as error:
        problem = error.problems[0]
        raise Refused(
            Problem(
                problem.what, "day", problem.field, problem.mend, line_of(lines, ("day", "date"))
            )
        ) from error
    return sheet, lines


def _found(
    folder: StudioFolder,
    path: Path,
    sheet: DaySheet,
    lines: dict[Place, int],
    settings: Settings,
    *,
    rehearse: bool,
    clock: Clock | None,
) -> Recorded:
    """Found the studio and enter the sheet, so that neither stays without the other."""
    import tempfile

    assert sheet.studio is not None  # noqa: S101 - the caller looked
    with tempfile.TemporaryDirectory() as rehearsal:
        # the whole sheet is tried in a studio that is thrown away
        trial = StudioFolder(Path(rehearsal))
        try:
            register = found_studio(trial, sheet.studio, clock=clock, who=sheet.day.who)
        except Refused as error:
            raise Refused(*(_in_head(problem, lines) for problem in error.problems)) from error
        with register:
            tried = _enter_file(register, folder, path, sheet, lines, settings, rehearse=True)
    if rehearse:
        return tried
    with found_studio(folder, sheet.studio, clock=clock, who=sheet.day.who) as register:
        return _enter_file(register, folder, path, sheet, lines, settings, rehearse=False)


def _in_head(problem: Problem, lines: dict[Place, int]) -> Problem:
    """A problem of the [day] or the [studio] table, with its line."""
    table = "day" if problem.field == "who" else "studio"
    return replace(problem, record=table, line=line_of(lines, (table, problem.field)))


def found_studio(
    folder: StudioFolder, form: StudioForm, *, clock: Clock | None = None, who: str | None = None
) -> Register:
    """Make a studio in `folder` and open its register.  Raises Refused."""
    studio = Studio(
        studio_id=secrets.token_hex(16),
        name=form.name,
        artist=form.artist,
        place=form.place,
        mark=form.mark,
    )
    register = Register.create(folder.path, studio, clock=clock, who=who or "studio")
    make_folders(folder)
    return register


def _enter_file(
    register: Register,
    folder: StudioFolder,
    path: Path,
    sheet: DaySheet,
    lines: dict[Place, int],
    settings: Settings,
    *,
    rehearse: bool,
) -> Recorded:
    return enter_sheet(
        register,
        folder,
        sheet,
        base=path.absolute().parent,
        lines=lines,
        settings=settings,
        name=path.name,
        rehearse=rehearse,
    )


def enter_sheet(
    register: Register,
    folder: StudioFolder,
    sheet: DaySheet,
    *,
    base: Path,
    lines: dict[Place, int],
    settings: Settings,
    name: str = "",
    unchanged: Mapping[int, int] | None = None,
    rehearse: bool = False,
    progress: Callable[[str, int, int], None] | None = None,
) -> Recorded:
    """Enter `sheet` into an open register as one act: all of it, or nothing.

    `base` is the folder that paths in the sheet are relative to, `lines` where
    each part of it was written, `name` what it is called.  `unchanged` holds the
    version of each record that the writer had before them.  `progress` is told
    how many printings are entered; what it raises breaks the act off.  Raises Conflict when
    one of those is no longer as it was, Refused with every problem and its line.
    """
    founded = sheet.studio is not None
    with _act(register, sheet, lines, settings, rehearse=rehearse) as act:
        for record, version in (unchanged or {}).items():
            act.at_base(record, version)
        if earliest(sheet.day.date) > act.moment.local_date():
            raise Refused(
                Problem(
                    what=f"{sheet.day.date} is still to come (today is {act.moment.local_date()})",
                    record="day",
                    field="date",
                    mend="check the date",
                    line=line_of(lines, ("day", "date")),
                )
            )
        context = Context(
            act=act,
            folder=folder,
            settings=settings,
            base=base,
            date=sheet.day.date,
            source=sheet.day.source,
            lines=lines,
        )
        enter_people(context, sheet)
        enter_planned(context, sheet)
        enter_promised(context, sheet)
        enter_openings(context, sheet)
        enter_wedges(context, sheet)
        enter_studies(context, sheet)
        for place, printing in enumerate(sheet.printing):
            enter_printing(context, place, printing)
            if progress and (place % _EVERY == 0 or place + 1 == len(sheet.printing)):
                progress("printings", place + 1, len(sheet.printing))
        for place, treatment in enumerate(sheet.treatment):
            enter_treatment(context, place, treatment)
        enter_retired(context, sheet)
        enter_finishes(context, sheet)
        enter_gone(context, sheet)
        enter_replaced(context, sheet)
        enter_finished(context, sheet)
        enter_held(context, sheet)
        enter_readings(context, sheet)
        enter_matches(context, sheet)
        for place, state in enumerate(sheet.negative_state):
            change_negative_state(context, place, state)
        enter_closed(context, sheet)
        if context.problems:
            raise Refused(*sorted(context.problems, key=lambda problem: problem.line or 0))
        if not act.wrote and not founded:
            raise Refused(
                Problem(
                    what="the sheet enters nothing",
                    record=name,
                    mend="write down what was done: [[printing]], [[number]], [[sign]] ...",
                )
            )
        warn_of_spent(context)
        warn_of_findings(context)
        if not rehearse:
            act.keep(context.files)
        entered = [f"studio {sheet.studio.name}"] if sheet.studio is not None else []
        entries = act.head()[0] - act.number + 1 + len(entered)
        number = act.number if act.wrote else 1
        return Recorded(
            act=0 if rehearse else number,
            entered=(*entered, *context.entered),
            entries=entries,
            warnings=tuple(sorted(context.warnings, key=lambda problem: problem.line or 0)),
        )


@contextmanager
def _act(
    register: Register,
    sheet: DaySheet,
    lines: dict[Place, int],
    settings: Settings,
    *,
    rehearse: bool,
) -> Iterator[Act]:
    """The act of the sheet; a name that cannot be told as such is refused at its line."""
    with ExitStack() as stack:
        try:
            act = stack.enter_context(
                register.act(sheet.day.who or settings.who, rehearse=rehearse)
            )
        except Refused as error:
            raise Refused(*(_in_head(problem, lines) for problem in error.problems)) from error
        yield act
