"""Brings a table in: every row of it, or nothing; what is on record already is passed over."""

import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal, get_args

from provenance.errors import Conflict, Problem, Refused
from provenance.model.evidence import Source
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.process import ProcessSheet
from provenance.records.act import Act
from provenance.records.progress import Progress
from provenance.records.register import Register
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import Rows, import_notebook, read_table
from provenance.studio.settings import Settings
from provenance.studio.tables import coded, custody, printings, prints
from provenance.studio.tables.dates import DATED, DateOrder, read_day
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.mapping import Fields, Mapped, map_heads
from provenance.studio.tables.row import Row
from provenance.studio.tables.told import Came

Kind = Literal["negatives", "editions", "papers", "processes", "printings", "prints", "custody"]
KINDS: tuple[Kind, ...] = get_args(Kind)
"""In the order in which tables that refer to each other come in."""
_CALLED: dict[Kind, str] = {
    "negatives": "negative",
    "editions": "edition",
    "papers": "paper",
    "processes": "process sheet",
    "printings": "printing",
    "prints": "print",
    "custody": "move",
}
"""What one row is."""
_EVERY = 500
_Made = Callable[[Act, StudioFolder, Source], Entering]
_ENTERS: dict[Kind, tuple[Fields, _Made]] = {
    "negatives": (coded.NEGATIVES, lambda act, _, source: coded.Coded(act, Negative, source)),
    "editions": (coded.EDITIONS, lambda act, _, source: coded.Editions(act, source)),
    "papers": (coded.PAPERS, lambda act, _, source: coded.Coded(act, Paper, source)),
    "processes": (coded.PROCESSES, lambda act, _, source: coded.Coded(act, ProcessSheet, source)),
    "printings": (printings.FIELDS, lambda act, _, source: printings.Printings(act, source)),
    "prints": (prints.FIELDS, lambda act, _, source: prints.Prints(act, source)),
    "custody": (custody.FIELDS, custody.Moves),
}


def import_table(
    register: Register,
    folder: StudioFolder,
    path: Path,
    *,
    kind: Kind,
    mapping: Mapping[str, str],
    fixed: Mapping[str, str],
    source: Source,
    settings: Settings,
    rehearse: bool = False,
    dates: DateOrder | None = None,
    progress: Progress | None = None,
    told: Callable[[Sequence[str]], None] | None = None,
) -> Recorded:
    """Enter the rows of the table at `path` as one act.

    `mapping` says which column is which field, `fixed` what holds for every row,
    `dates` the order of dates that are in figures alone.  A row that is on record
    already, and says the same, enters nothing.  A table of printings may be a
    notebook, which has their sheets.  `told` is given what each column was taken
    for as soon as that is known.  Raises Refused with the problems, by row and
    column.
    """
    heads, rows = read_table(path)
    if kind == "printings" and is_notebook(heads, mapping, fixed):
        return import_notebook(
            register,
            folder,
            path,
            mapping=mapping,
            fixed=fixed,
            source=source,
            settings=settings,
            rehearse=rehearse,
            dates=dates,
            progress=progress,
            told=told,
        )
    fields, made = _ENTERS[kind]
    mapped = map_heads(path.name, heads, fields, mapping, fixed)
    if told is not None:
        told(mapped.lines)
    came = Came(mapped)
    fixed = _fixed(mapped, dates)
    if DATED & {name for _, name in mapped.columns}:
        rows = list(_dated(rows, came, dates))
    with register.act(settings.who, rehearse=rehearse) as act:
        came.began = act.number
        entering = made(act, folder, source)
        _take_all(entering, act, came, fixed, rows, progress)
        if not came.problems:
            _close(entering, act, came)
        if came.problems:
            more = [Problem(f"and {came.more} more problems")] if came.more else []
            raise Refused(*came.problems, *more)
        entries = act.head()[0] - act.number + 1
        warnings = tuple(act.warnings)
        if not rehearse:
            entering.finish(progress)
        number = act.number
    new = came.took["entered"]
    said = [f"{new} {_CALLED[kind]}{'' if new == 1 else 's'} entered"]
    said += [
        f"{came.took[one]} {one}" for one in ("added to", "on record already") if came.took[one]
    ]
    return Recorded(
        act=0 if rehearse or not entries else number,
        entered=(*mapped.lines, ", ".join(said)),
        entries=entries,
        warnings=warnings,
    )


def is_notebook(heads: Sequence[str], mapping: Mapping[str, str], fixed: Mapping[str, str]) -> bool:
    """Whether a table of printings names their sheets, and so is a notebook."""
    told = {one.casefold() for one in (*(mapping.get(head, head) for head in heads), *fixed)}
    return "negative" not in told or "sheets" in told


def _fixed(mapped: Mapped, dates: DateOrder | None) -> dict[str, str]:
    """What holds for every row, with its dates read."""
    fixed = {name: unicodedata.normalize("NFC", text) for name, text in mapped.fixed.items()}
    for name in DATED & fixed.keys():
        try:
            fixed[name] = read_day(fixed[name], dates)
        except Refused as error:
            (problem,) = error.problems
            raise Refused(replace(problem, field=f"--set {name}")) from error
    return fixed


def _dated(rows: Rows, came: Came, dates: DateOrder | None) -> Iterator[tuple[int, Sequence[str]]]:
    """The rows with their dates read; those that have another kind of date are told."""
    places = [place for place, (_, name) in enumerate(came.mapped.columns) if name in DATED]
    for number, cells in rows:
        read = list(cells)
        sound = True
        for place in places:
            try:
                if place < len(cells):
                    read[place] = read_day(cells[place], dates)
            except Refused as error:
                (problem,) = error.problems
                field = came.mapped.columns[place][1]
                came.refused(replace(problem, field=field), number)
                sound = False
        if sound:
            yield number, tuple(read)


def _take_all(
    entering: Entering,
    act: Act,
    came: Came,
    fixed: Mapping[str, str],
    rows: Rows,
    progress: Progress | None,
) -> None:
    columns = [(at, name) for at, (_, name) in enumerate(came.mapped.columns) if name]
    known: dict[Any, Any] = {}
    for done, (number, cells) in enumerate(entering.arrange(rows, came.mapped), start=1):
        if len(cells) > len(came.mapped.columns):
            came.refused(
                Problem("has more cells than there are columns", mend="mend the row"), number
            )
        else:
            texts = dict(fixed)
            for at, name in columns:
                if at < len(cells) and (text := cells[at]):
                    texts[name] = text if text.isascii() else unicodedata.normalize("NFC", text)
            _take(entering, act, came, Row(texts, known, number))
        if progress and (done % _EVERY == 0 or done == len(rows)):
            progress("rows", done, len(rows))


def _close(entering: Entering, act: Act, came: Came) -> None:
    warned = len(act.warnings)
    try:
        entering.close()
    except Refused as error:
        for problem in error.problems:
            came.refused(problem, problem.line)
    act.warnings[warned:] = [came.placed(one, one.line) for one in act.warnings[warned:]]


def _take(entering: Entering, act: Act, came: Came, row: Row) -> None:
    warned = len(act.warnings)
    problems: tuple[Problem, ...] = ()
    try:
        came.took[entering.take(row)] += 1
    except Conflict:
        raise
    except Refused as error:
        problems = error.problems
    came.made(act.head()[0], row.line)
    for problem in problems:
        came.refused(problem, row.line)
    if len(act.warnings) > warned:
        act.warnings[warned:] = [came.placed(one, row.line) for one in act.warnings[warned:]]
