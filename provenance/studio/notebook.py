"""Imports an old notebook: a table with a row for each printing, all of it or nothing."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.model.evidence import Source
from provenance.records.act import Act
from provenance.records.register import Register
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.filled import Filled
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.found import warn_of_findings
from provenance.studio.daysheet.record import Recorded
from provenance.studio.daysheet.shelved import warn_of_spent
from provenance.studio.daysheet.worked import enter_printing, enter_treatment
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook_columns import PLAIN, Column, Notebook, lay_out
from provenance.studio.notebook_held import Held, Known
from provenance.studio.notebook_table import Rows, read_table
from provenance.studio.settings import Settings
from provenance.studio.tables.dates import DateOrder
from provenance.studio.written.forms import fill_form

__all__ = ["PLAIN", "Rows", "by_row", "import_notebook", "read_table"]

_YES = {"yes": True, "y": True, "no": False, "n": False, "": False}
_EVERY = 50


@dataclass
class _Sorted:
    """The rows of a notebook: those that are new, put into a day sheet, and those on record."""

    filled: Filled
    new: int = 0
    treated: int = 0
    known: dict[int, Known] = field(default_factory=dict)
    """By their lines."""


def import_notebook(
    register: Register,
    folder: StudioFolder,
    path: Path,
    *,
    source: Source,
    settings: Settings,
    mapping: Mapping[str, str] | None = None,
    fixed: Mapping[str, str] | None = None,
    rehearse: bool = False,
    dates: DateOrder | None = None,
    progress: Callable[[str, int, int], None] | None = None,
    told: Callable[[Sequence[str]], None] | None = None,
) -> Recorded:
    """Enter every printing in the table at `path` as one act.

    The first row names the columns: those of `PLAIN`, and for each bath a column
    called by its role (``fix``), or by role and name where there are two
    (``fix: fix two``), holding the time; an empty cell is a bath not noted.
    `mapping` says which column is which, with nothing for one that is left out;
    `fixed` what holds for every row; `dates` how dates in figures run.  A row whose
    sheets are all on record, with its date, adds what it says more.  `told` is
    given what each column was taken for.  With `rehearse` everything is checked
    and nothing written.  Raises Refused with every problem, by row and column.
    """
    heads, rows = read_table(path)
    notebook = lay_out(path.name, heads, rows, mapping or {}, fixed or {}, dates)
    if told is not None:
        told(notebook.lines)
    with register.act(settings.who, rehearse=rehearse) as act:
        sorted_ = _sort(act, folder, notebook, source)
        context, entered = _enter(act, folder, settings, path, sorted_, progress)
        if not rehearse:
            act.keep(context.files)
        entries = act.head()[0] - act.number + 1
        number = act.number
    warnings = [by_row(sorted_.filled, one) for one in context.warnings]
    return Recorded(
        act=0 if rehearse or not entries else number,
        entered=(*notebook.lines, *entered),
        entries=entries,
        warnings=tuple(sorted(warnings, key=lambda problem: problem.line or 0)),
    )


def by_row(filled: Filled, problem: Problem) -> Problem:
    """`problem` at its row and column, instead of its place in a day sheet."""
    found = filled.at_field(problem)
    row, _, column = found.field.partition("|")
    return replace(found, field=column, line=int(row)) if row.isdecimal() else found


def _sort(act: Act, folder: StudioFolder, notebook: Notebook, source: Source) -> _Sorted:
    """Tell the rows that are on record from those that are new.  Raises Refused."""
    sorted_ = _Sorted(Filled(str(act.moment.local_date()), source=source))
    held = Held(act, folder, notebook.columns, source)
    problems = list(notebook.problems)
    marks: dict[tuple[str, str], int] = {}
    for number, cells in notebook.rows:
        if repeated := list(_repeated(number, notebook.columns, cells)):
            problems += repeated
            continue
        try:
            known = held.look(number, cells)
        except Refused as error:
            problems += [replace(one, line=number) for one in error.problems]
            continue
        if known is None:
            problems += _twice(marks, number, notebook.columns, cells)
            problems += _put(sorted_.filled, sorted_.new, number, notebook.columns, cells)
            sorted_.new += 1
        else:
            sorted_.known[number] = known
            if known.baths:
                _treat(sorted_.filled, sorted_.treated, number, notebook.columns, cells, known)
                sorted_.treated += 1
    if problems:
        raise Refused(*problems)
    return sorted_


def _enter(
    act: Act,
    folder: StudioFolder,
    settings: Settings,
    path: Path,
    sorted_: _Sorted,
    progress: Callable[[str, int, int], None] | None,
) -> tuple[Context, list[str]]:
    """Enter what is new and what is added, and say what came of it.  Raises Refused."""
    filled = sorted_.filled
    try:
        sheet = fill_form(filled.data, DaySheet, filled.lines)
        context = Context(
            act=act,
            folder=folder,
            settings=settings,
            base=path.absolute().parent,
            date=sheet.day.date,
            source=sheet.day.source,
            lines=filled.lines,
        )
        for place, printing in enumerate(sheet.printing):
            enter_printing(context, place, printing)
            if progress and (place % _EVERY == 0 or place + 1 == len(sheet.printing)):
                progress("printings", place + 1, len(sheet.printing))
        for place, treatment in enumerate(sheet.treatment):
            enter_treatment(context, place, treatment)
        if context.problems:
            raise Refused(*sorted(context.problems, key=lambda problem: problem.line or 0))
    except Refused as error:
        raise type(error)(*(by_row(filled, problem) for problem in error.problems)) from error
    told = list(context.entered)
    came: Counter[bool] = Counter()
    for number, known in sorted_.known.items():
        _add(act, number, known)
        if known.added:
            told.append(f"added to {', '.join(known.sheets)}: {', '.join(known.added)}")
        came[bool(known.added or known.baths)] += 1
    for more, count in sorted(came.items(), reverse=True):
        printings = f"{count} printing{'' if count == 1 else 's'}"
        told.append(f"added to {printings}" if more else f"{printings} on record already")
    warn_of_spent(context)
    warn_of_findings(context)
    return context, told


def _add(act: Act, number: int, known: Known) -> None:
    """Write what a row says more of the printings of its sheets.  Raises Refused."""
    for record, body in known.printings.items():
        try:
            act.change(record, act.get(type(body), record).version, body)
        except Refused as error:
            raise type(error)(*(replace(one, line=number) for one in error.problems)) from error


def _repeated(number: int, columns: list[Column], cells: Sequence[str]) -> Iterator[Problem]:
    """Sheets that the row itself has already."""
    for column, cell in zip(columns, cells, strict=True):
        if column.place != ("sheets",):
            continue
        told = Counter(mark.casefold() for mark in cell.replace(",", " ").split())
        for mark, times in told.items():
            if times > 1:
                what = f"{mark} stands {'twice' if times == 2 else f'{times} times'} in the row"
                yield Problem(what, "", column.head, "write each sheet once", number)


def _twice(
    marks: dict[tuple[str, str], int], number: int, columns: list[Column], cells: Sequence[str]
) -> Iterator[Problem]:
    """Sheets that an earlier row has already."""
    given = {column.place: (column, cell) for column, cell in zip(columns, cells, strict=True)}
    sheets, text = given[("sheets",)]
    code = given[("edition",)][1].casefold()
    for mark in dict.fromkeys(text.replace(",", " ").split()):
        first = marks.setdefault((code, mark.casefold()), number)
        if first != number:
            yield Problem(
                f"{mark} stands in line {first} already",
                given[("edition",)][1],
                sheets.head,
                "a sheet has one printing: take it out of one of the two",
                number,
            )


def _put(
    filled: Filled, place: int, number: int, columns: list[Column], cells: Sequence[str]
) -> Iterator[Problem]:
    """Put one row into the day sheet; what cannot even be put there is a problem."""
    steps = 0
    filled.put(f"{number}|", {}, "printing", place)
    for column, cell in zip(columns, cells, strict=True):
        field = f"{number}|{column.head}"
        if column.role:
            if cell:
                _put_bath(filled, field, column, cell, ("printing", place, "step", steps))
                steps += 1
        elif column.place == ("sheets",):
            filled.put(field, cell.replace(",", " ").split(), "printing", place, "sheets")
        elif column.place == ("as_planned",):
            if cell.casefold() not in _YES:
                yield Problem(
                    f"{cell!r} is neither yes nor no", "", column.head, "write yes or no", number
                )
            elif _YES[cell.casefold()]:
                filled.put(field, True, "printing", place, "as_planned")
        else:
            filled.put(field, cell, "printing", place, *column.place)


def _treat(
    filled: Filled,
    place: int,
    number: int,
    columns: list[Column],
    cells: Sequence[str],
    known: Known,
) -> None:
    """Put the baths that a row adds to sheets on record into the day sheet."""
    for column, cell in zip(columns, cells, strict=True):
        field = f"{number}|{column.head}"
        if column.place == ("sheets",):
            filled.put(field, list(known.sheets), "treatment", place, "sheets")
        elif column.place == ("date",):
            filled.put(field, cell, "treatment", place, "date")
    for step, (column, cell) in enumerate(known.baths):
        field = f"{number}|{column.head}"
        _put_bath(filled, field, column, cell, ("treatment", place, "step", step))


def _put_bath(
    filled: Filled, field: str, column: Column, cell: str, at: tuple[str | int, ...]
) -> None:
    filled.put(field, column.role, *at, "do")
    filled.put(field, column.name, *at, "name")
    filled.put(field, cell, *at, "time")
