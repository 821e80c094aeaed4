"""Imports a table of instrument readings: a row for each reading, all of it or nothing.

Instruments head their columns as they please; which column is taken for what is
told before anything is entered, and can be set.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.model.evidence import Source
from provenance.records.register import Register
from provenance.studio.daysheet.filled import Filled
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.record import Recorded, enter_sheet
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import by_row, read_table
from provenance.studio.settings import Settings
from provenance.studio.written.forms import fill_form

_HOW = ("instrument", "geometry", "backing", "filter", "state", "note")
_TONE = ("density", "lightness", "a", "b")
_PLACE = ("across", "down")
FIELDS = ("print", "spot", *_TONE, *_PLACE, "on", *_HOW)
"""What a column can be, or be set to for all rows."""
_ALIKE = {
    "spot": "spot name sample patch area sample_name sample_id",
    "density": "density d dv d_vis visual v vis",
    "lightness": "l l* lab_l cie_l lightness",
    "a": "a a* lab_a cie_a",
    "b": "b b* lab_b cie_b",
    "across": "across x_percent",
    "down": "down y_percent",
    "on": "on date measured created",
    "print": "print sheet",
}
"""Heads that are taken for a field unless told otherwise."""


@dataclass(frozen=True)
class Mapped:
    """Which field each column was taken for; an empty field is a column left out."""

    columns: tuple[tuple[str, str], ...]
    set: Mapping[str, str]

    @property
    def lines(self) -> tuple[str, ...]:
        """The mapping, a line each, for a person to check."""
        told = [f"column “{head}” is {field or 'left out'}" for head, field in self.columns]
        return (*told, *(f"every row: {field} = {text}" for field, text in self.set.items()))


def import_readings(
    register: Register,
    folder: StudioFolder,
    path: Path,
    *,
    mapping: Mapping[str, str],
    fixed: Mapping[str, str],
    source: Source,
    settings: Settings,
    rehearse: bool = False,
) -> Recorded:
    """Enter the readings in the table at `path` as one act, a record for each print and day.

    `mapping` says which column is which field, `fixed` what holds for every row.
    The mapping comes first in what is told.  Raises Refused with every problem,
    by row and column.
    """
    heads, rows = read_table(path)
    mapped = map_columns(path.name, heads, mapping, fixed)
    filled = Filled(str(register.clock().local_date()), source=source)
    problems: list[Problem] = []
    groups: dict[tuple[str, ...], int] = {}
    taken: dict[tuple[int, str, str], list[str]] = {}
    for number, cells in rows:
        if len(cells) > len(heads):
            problems.append(Problem("has more cells than columns", line=number, mend="mend it"))
            continue
        given = dict(fixed)
        columns = dict.fromkeys(fixed, "")
        for (head, field), cell in zip(mapped.columns, cells, strict=False):
            if field and cell:
                given[field], columns[field] = cell, head
        problems += _put(filled, number, given, columns, groups, taken)
    if problems:
        raise Refused(*problems)
    try:
        recorded = enter_sheet(
            register,
            folder,
            fill_form(filled.data, DaySheet, filled.lines),
            base=path.absolute().parent,
            lines=filled.lines,
            settings=settings,
            name=path.name,
            rehearse=rehearse,
        )
    except Refused as error:
        raise type(error)(*(by_row(filled, problem) for problem in error.problems)) from error
    return replace(recorded, entered=(*mapped.lines, *recorded.entered))


def map_columns(
    name: str, heads: list[str], mapping: Mapping[str, str], fixed: Mapping[str, str]
) -> Mapped:
    """Which column is which field.  Raises Refused for what does not fit together."""
    problems = [
        Problem(f"there is no column “{head}”", name, head, f"columns: {', '.join(heads)}", 1)
        for head in mapping
        if head not in heads
    ]
    for field in sorted({*mapping.values(), *fixed}):
        if field and field not in FIELDS:
            problems.append(
                Problem("is nothing that a reading has", name, field, ", ".join(FIELDS))
            )
    columns = [
        (head, mapping[head] if head in mapping else _guess(head, mapping, fixed)) for head in heads
    ]
    found = [field for _head, field in columns if field] + list(fixed)
    for field in sorted({field for field in found if found.count(field) > 1}):
        problems.append(Problem("is given twice", name, field, "map one column to it", 1))
    tone = "density" in found or {"lightness", "a", "b"} <= set(found)
    for field, there in (
        ("print", "print" in found),
        ("spot", "spot" in found),
        ("density", tone),
    ):
        if not there:
            mend = f'name its column, as --map "HEAD={field}", or --set {field}=... for all rows'
            problems.append(Problem("no column gives it", name, field, mend, 1))
    if problems:
        raise Refused(*problems)
    return Mapped(tuple(columns), fixed)


def _guess(head: str, mapping: Mapping[str, str], fixed: Mapping[str, str]) -> str:
    plain = "_".join(head.casefold().split())
    field = next((name for name, alike in _ALIKE.items() if plain in alike.split()), "")
    field = field or (plain if plain in FIELDS else "")
    return "" if field in mapping.values() or field in fixed else field


def _put(
    filled: Filled,
    number: int,
    given: dict[str, str],
    columns: dict[str, str],
    groups: dict[tuple[str, ...], int],
    taken: dict[tuple[int, str, str], list[str]],
) -> list[Problem]:
    """Put one row into the day sheet; rows of one print, day and instrument go together."""
    lab = all(given.get(one) for one in ("lightness", "a", "b"))
    missing = [field for field in ("print", "spot") if not given.get(field)]
    if missing or not (lab or given.get("density")):
        field = missing[0] if missing else "density"
        return [Problem(f"has no {field}", field=field, mend="fill it in", line=number)]
    if lab and given.get("density"):
        return [
            Problem(
                "has a density and a Lab colour",
                field="density",
                mend="leave one of them out, as the instrument showed only one",
                line=number,
            )
        ]
    common = ("print", "on", *_HOW)
    key = tuple(given.get(field, "") for field in common)
    place = groups.setdefault(key, len(groups))
    for field in common:
        filled.put(
            f"{number}|{columns.get(field, field)}", given.get(field), "reading", place, field
        )
    kind = "lab" if lab else "density"
    text = " ".join(given[one] for one in _TONE[1:]) if lab else given["density"]
    read = taken.setdefault((place, kind, given["spot"]), [])
    read.append(text)
    column = columns["lightness" if lab else "density"]
    at = ("reading", place, kind, given["spot"])
    filled.put(f"{number}|{column}", "; ".join(read), *at)
    if point := " ".join(given[one] for one in _PLACE if given.get(one)):
        where = ("reading", place, "at", given["spot"])
        filled.put(f"{number}|{columns.get('across', 'across')}", point, *where)
    return []
