"""What each column of a notebook is: something of the printing, or a bath."""

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import get_args

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Role
from provenance.studio.notebook_table import Rows
from provenance.studio.tables.dates import DateOrder, read_day
from provenance.studio.tables.mapping import called

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


@dataclass(frozen=True)
class Column:
    """One column: of the printing (`place`), or a bath that sheets went through (`role`)."""

    head: str
    place: tuple[str, ...] = ()
    role: str = ""
    name: str = ""

    @property
    def told(self) -> str:
        """What it was taken for, in words."""
        if self.role:
            return f"the bath {self.role}{f', {self.name}' if self.name else ''}"
        return self.place[-1].replace("_", " ")


@dataclass(frozen=True)
class Notebook:
    """The columns that are taken and their rows, as far as these fit."""

    columns: list[Column]
    rows: Rows
    lines: tuple[str, ...]
    """What every column was taken for."""
    problems: list[Problem]
    """What is wrong with the rows that do not fit."""


def lay_out(
    name: str,
    heads: list[str],
    rows: Rows,
    mapping: Mapping[str, str],
    fixed: Mapping[str, str],
    dates: DateOrder | None,
) -> Notebook:
    """Which column of table `name` is which; `fixed` stand behind them in every row.

    `dates` is the order of dates in figures.  Raises Refused for what does not fit.
    """
    if unknown := [head for head in mapping if head not in heads]:
        raise Refused(
            Problem(f"there is no column “{unknown[0]}”", name, unknown[0], ", ".join(heads), 1)
        )
    given = [(head, mapping.get(head, head)) for head in heads]
    taken = [place for place, (_, told) in enumerate(given) if told]
    columns = _columns(name, [given[place] for place in taken] + [(one, one) for one in fixed])
    on = next(at for at, column in enumerate(columns) if column.place == ("date",))
    laid: Rows = []
    problems: list[Problem] = []
    for number, cells in rows:
        if len(cells) > len(heads):
            mend = "mend the row"
            problems.append(Problem("has more cells than there are columns", "", "", mend, number))
            continue
        given_cells = [*(cell_at(cells, place) for place in taken), *fixed.values()]
        row = [unicodedata.normalize("NFC", cell) for cell in given_cells]
        try:
            row[on] = read_day(row[on], dates)
        except Refused as error:
            (one,) = error.problems
            problems.append(Problem(one.what, "", columns[on].head, one.mend, number))
            continue
        if empty := _empty(columns, row):
            problems += [Problem("is empty", "", one, "fill it in", number) for one in empty]
        else:
            laid.append((number, row))
    by_place = dict(zip(taken, columns, strict=False))
    lines = [
        f"{called(place + 1, head)} is {by_place[place].told if place in by_place else 'left out'}"
        for place, head in enumerate(heads)
    ]
    lines += [f"every row: {field} = {text}" for field, text in fixed.items()]
    return Notebook(columns, laid, tuple(lines), problems)


def cell_at(cells: Sequence[str], place: int) -> str:
    """The cell at a place; empty where the row is shorter."""
    return cells[place] if place < len(cells) else ""


def _empty(columns: list[Column], row: Sequence[str]) -> list[str]:
    """The heads of columns that every row fills in, and this one does not.

    A day sheet takes an empty date for its own: a notebook has none.
    """
    needed = {(one,) for one in _NEEDED}
    return [
        column.head
        for column, cell in zip(columns, row, strict=True)
        if column.place in needed and not cell.strip()
    ]


def _columns(name: str, given: list[tuple[str, str]]) -> list[Column]:
    """The columns by their heads and by what each was said to be."""
    found = [_column(head, told) for head, told in given]
    problems = [
        Problem(
            "is not a column of a notebook",
            name,
            head,
            f'name it, as --map "{head}=column", or leave it out, as --map "{head}="',
            1,
        )
        for (head, _), column in zip(given, found, strict=True)
        if column is None
    ]
    if problems:
        problems.append(Problem(f"columns are: {', '.join([*PLAIN, *_ROLES])}", name))
    for one in _NEEDED:
        if (one,) not in {column.place for column in found if column is not None}:
            mend = f'add the column, or name it, as --map "HEAD={one}"'
            problems.append(Problem("is missing", name, one, mend, 1))
    told = [one for _, one in given]
    for one in sorted({one for one in told if told.count(one) > 1}):
        problems.append(Problem("stands there twice", name, one, "give each its own name", 1))
    if problems:
        raise Refused(*problems)
    return [column for column in found if column is not None]


def _column(head: str, told: str) -> Column | None:
    plain = " ".join(told.casefold().replace("_", " ").split())
    role, _, name = (part.strip() for part in plain.partition(":"))
    if plain in PLAIN:
        return Column(head, place=PLAIN[plain])
    return Column(head, role=role, name=name) if role in _ROLES else None
