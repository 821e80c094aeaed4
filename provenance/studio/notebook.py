"""Imports an old notebook: a table with a row for each printing, all of it or nothing."""

import csv
import io
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import get_args

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Role
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.exchange.cells import text_of
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.studio.daysheet.filled import Filled
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.record import Recorded, enter_sheet
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings
from provenance.studio.written.forms import fill_form

PLAIN = {
    "date": ("date",),
    "edition": ("edition",),
    "sheets": ("sheets",),
    "paper": ("paper",),
    "printer": ("printer",),
    "process": ("process",),
    "as planned": ("as_planned",),
    "base": ("exposure", "base"),
    "aperture": ("exposure", "aperture"),
    "grade": ("exposure", "grade"),
    "note": ("note",),
}
"""Columns that say something of the printing, and where a day sheet has it."""
_NEEDED = ("date", "edition", "sheets")
_ROLES = get_args(Role)
_YES = {"yes": True, "y": True, "no": False, "n": False, "": False}
MOST_BYTES = 50_000_000
"""A notebook larger than this is not one."""


@dataclass(frozen=True)
class _Column:
    """One column: of the printing (`place`), or a bath that sheets went through (`role`)."""

    head: str
    place: tuple[str, ...] = ()
    role: str = ""
    name: str = ""


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
    progress: Callable[[str, int, int], None] | None = None,
) -> Recorded:
    """Enter every printing in the table at `path` as one act.

    The first row names the columns: those of `PLAIN`, and for each bath a column
    called by its role (``fix``), or by role and name where there are two
    (``fix: fix two``), holding the time; an empty cell is a bath not noted.
    `mapping` says which column is which, with nothing for one that is left out;
    `fixed` what holds for every row.  A printing whose sheets are all on record,
    with its date, is passed over.  With `rehearse` everything is checked and
    nothing written.  Raises Refused with every problem, by row and column.
    """
    columns, rows = _read(path, mapping or {}, fixed or {})
    rows, known = _new_rows(register.read, columns, rows)
    if known and not rows:
        return Recorded(act=0, entered=(f"{known} printings on record already",), entries=0)
    filled = Filled(str(register.clock().local_date()), source=source)
    problems: list[Problem] = []
    for place, (number, cells) in enumerate(rows):
        problems += _put(filled, place, number, columns, cells)
    if problems:
        raise Refused(*problems)
    try:
        sheet = fill_form(filled.data, DaySheet, filled.lines)
        recorded = enter_sheet(
            register,
            folder,
            sheet,
            base=path.absolute().parent,
            lines=filled.lines,
            settings=settings,
            name=path.name,
            rehearse=rehearse,
            progress=progress,
        )
    except Refused as error:
        raise type(error)(*(by_row(filled, problem) for problem in error.problems)) from error
    told = (f"{known} printings on record already",) if known else ()
    return replace(recorded, entered=(*recorded.entered, *told))


def by_row(filled: Filled, problem: Problem) -> Problem:
    """`problem` at its row and column, instead of its place in a day sheet."""
    found = filled.at_field(problem)
    row, _, column = found.field.partition("|")
    return replace(found, field=column, line=int(row)) if row.isdecimal() else found


Rows = list[tuple[int, Sequence[str]]]
"""The rows of a table, each with its line in the file."""


def _read(
    path: Path, mapping: Mapping[str, str], fixed: Mapping[str, str]
) -> tuple[list[_Column], Rows]:
    heads, rows = read_table(path)
    if unknown := [head for head in mapping if head not in heads]:
        raise Refused(
            Problem(
                f"there is no column “{unknown[0]}”", path.name, unknown[0], ", ".join(heads), 1
            )
        )
    taken = [place for place, head in enumerate(heads) if mapping.get(head, head)]
    told = [*(mapping.get(heads[place], heads[place]) for place in taken), *fixed]
    texts = list(fixed.values())
    return _columns(path.name, told), [
        (number, cells)
        if len(cells) > len(heads)
        else (number, [*(_cell(cells, place) for place in taken), *texts])
        for number, cells in rows
    ]


def _cell(cells: Sequence[str], place: int) -> str:
    return cells[place] if place < len(cells) else ""


def _new_rows(reader: Reader, columns: list[_Column], rows: Rows) -> tuple[Rows, int]:
    """The rows that are not on record, and how many are: all their sheets, of that date."""
    places = {column.place: place for place, column in enumerate(columns)}
    new: Rows = []
    for number, cells in rows:
        code, marks, date = (
            _cell(cells, places[(name,)]) if (name,) in places else ""
            for name in ("edition", "sheets", "date")
        )
        edition = reader.by_code(Edition, code)
        sheets = marks.replace(",", " ").split()
        dates = {_printed_on(reader, edition.id, mark) for mark in sheets} if edition else set()
        if dates != {date}:
            new.append((number, cells))
    return new, len(rows) - len(new)


def _printed_on(reader: Reader, edition: int, mark: str) -> str | None:
    """When the sheet with that mark was printed; None where there is none."""
    row = reader.connection.execute(
        "SELECT id FROM print_key WHERE edition = ? AND mark = ?", (edition, mark)
    ).fetchone()
    if row is None:
        return None
    return reader.get(Printing, reader.get(Print, row[0]).body.printing).body.done_on


def read_table(path: Path) -> tuple[list[str], Rows]:
    """The heads, and each row that holds anything with its line in the file.  Raises Refused."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refused(Problem("is larger than any notebook", str(path), mend="split it"))
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise Refused(Problem(f"cannot be read: {why}", str(path))) from error
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        # a cell may have line breaks: a row is where it begins; of tuples of texts the collector
        # of garbage keeps no account, so that a long table does not slow it down
        begins = 1
        table: Rows = []
        for row in reader:
            table.append((begins, tuple(map(text_of, row))))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise Refused(
            Problem(
                f"is not a table: {error}", path.name, line=reader.line_num, mend="mend the row"
            )
        ) from error
    if not table:
        raise Refused(Problem("is empty", path.name, mend="name the columns in the first row"))
    return list(table[0][1]), [row for row in table[1:] if any(row[1])]


def _delimiter(text: str) -> str:
    """What stands between cells: of comma, semicolon and tab the one the first row has most of."""
    first = text.partition("\n")[0]
    return max(",;\t", key=first.count)


def _columns(name: str, heads: list[str]) -> list[_Column]:
    problems: list[Problem] = []
    found: list[_Column] = []
    for head in heads:
        plain = head.casefold().replace("_", " ")
        role, _, step = (part.strip() for part in plain.partition(":"))
        if plain in PLAIN:
            found.append(_Column(head, place=PLAIN[plain]))
        elif role in _ROLES:
            found.append(_Column(head, role=role, name=step or ""))
        else:
            known = ", ".join([*PLAIN, *_ROLES])
            problems.append(
                Problem("is not a column of a notebook", name, head, f"columns are: {known}", 1)
            )
    for one in _NEEDED:
        if (one,) not in {column.place for column in found}:
            problems.append(Problem("is missing", name, one, "add the column", 1))
    for head in {head for head in heads if heads.count(head) > 1}:
        problems.append(Problem("stands there twice", name, head, "give each its own name", 1))
    if problems:
        raise Refused(*problems)
    return found


def _put(
    filled: Filled, place: int, number: int, columns: list[_Column], cells: Sequence[str]
) -> Iterator[Problem]:
    """Put one row into the day sheet; what cannot even be put there is a problem."""
    if len(cells) > len(columns):
        yield Problem("has more cells than there are columns", mend="mend the row", line=number)
        return
    steps = 0
    filled.put(f"{number}|", {}, "printing", place)
    for column, cell in zip(columns, cells, strict=False):
        field = f"{number}|{column.head}"
        if column.role:
            if cell:
                at = ("printing", place, "step", steps)
                filled.put(field, column.role, *at, "do")
                filled.put(field, column.name, *at, "name")
                filled.put(field, cell, *at, "time")
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
