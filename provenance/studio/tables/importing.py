"""Brings a table in: every row of it, or nothing; what is on record already is passed over."""

import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Literal, Protocol, get_args

from provenance.errors import Conflict, Problem, Refused
from provenance.model.evidence import Source
from provenance.records.act import Act
from provenance.records.register import Register
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import read_table
from provenance.studio.settings import Settings
from provenance.studio.tables import custody, papers, prints
from provenance.studio.tables.mapping import Fields, Mapped, map_heads
from provenance.studio.tables.row import Row

Kind = Literal["papers", "prints", "custody"]
KINDS: tuple[Kind, ...] = get_args(Kind)
Progress = Callable[[str, int, int], None]
MOST_PROBLEMS = 100
"""How many are told; the rest are counted."""
_EVERY = 500
_FIELDS: dict[Kind, Fields] = {
    "papers": papers.FIELDS,
    "prints": prints.FIELDS,
    "custody": custody.FIELDS,
}


_CALLED = {"done_on": "printed_on", "signed": "signature"}
"""Fields of records that a table calls otherwise."""


class Enters(Protocol):
    """Enters rows of one kind."""

    def take(self, row: Row) -> bool:
        """Enter one row; whether it was new.  Raises Refused."""


@dataclass
class _Came:
    """What has come of the rows so far."""

    new: int = 0
    known: int = 0
    problems: list[Problem] = field(default_factory=list)
    more: int = 0

    def refused(self, problem: Problem) -> None:
        """Keep a problem, or count it."""
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(problem)
        else:
            self.more += 1


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
    progress: Progress | None = None,
) -> Recorded:
    """Enter the rows of the table at `path` as one act.

    `mapping` says which column is which field, `fixed` what holds for every row.
    A row that is on record already, and says the same, enters nothing.  Raises
    Refused with the problems, by row and column.
    """
    heads, rows = read_table(path)
    mapped = map_heads(path.name, heads, _FIELDS[kind], mapping, fixed)
    came, keep = _Came(), list[Callable[[], object]]()
    with register.act(settings.who, rehearse=rehearse) as act:
        enters = _entering(kind, act, folder, source, keep)
        for done, (number, cells) in enumerate(rows, start=1):
            _take(enters, came, mapped, number, cells)
            if progress and (done % _EVERY == 0 or done == len(rows)):
                progress("rows", done, len(rows))
        if came.problems:
            more = [Problem(f"and {came.more} more problems")] if came.more else []
            raise Refused(*came.problems, *more)
        entries = act.head()[0] - act.number + 1
        warnings = tuple(act.warnings)
        if not rehearse:
            for one in keep:
                one()
        number = act.number
    said = f"{came.new} {kind} entered"
    known = f", {came.known} on record already" if came.known else ""
    return Recorded(
        act=0 if rehearse or not entries else number,
        entered=(*mapped.lines, said + known),
        entries=entries,
        warnings=warnings,
    )


def _entering(
    kind: Kind,
    act: Act,
    folder: StudioFolder,
    source: Source,
    keep: list[Callable[[], object]],
) -> Enters:
    if kind == "papers":
        return papers.Papers(act, source)
    if kind == "prints":
        return prints.Prints(act, source)
    return custody.Moves(act, folder, source, keep)


def _take(enters: Enters, came: _Came, mapped: Mapped, number: int, cells: list[str]) -> None:
    if len(cells) > len(mapped.columns):
        came.refused(
            Problem("has more cells than there are columns", mend="mend the row", line=number)
        )
        return
    texts = dict(mapped.fixed)
    for (_, name), cell in zip(mapped.columns, cells, strict=False):
        if name and cell:
            texts[name] = cell
    row = Row({name: unicodedata.normalize("NFC", text) for name, text in texts.items()})
    try:
        new = enters.take(row)
    except Conflict:
        raise
    except Refused as error:
        for problem in error.problems:
            name = _CALLED.get(problem.field, problem.field)
            came.refused(replace(problem, field=mapped.head(name), line=number))
        return
    came.new += new
    came.known += not new
