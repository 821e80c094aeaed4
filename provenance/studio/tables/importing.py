"""Brings a table in: every row of it, or nothing; what is on record already is passed over."""

import unicodedata
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
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
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.mapping import Fields, Mapped, map_heads
from provenance.studio.tables.row import Row, Took

Kind = Literal["negatives", "editions", "papers", "processes", "printings", "prints", "custody"]
KINDS: tuple[Kind, ...] = get_args(Kind)
"""In the order in which tables that refer to each other come in."""
MOST_PROBLEMS = 100
"""How many are told; the rest are counted."""
_EVERY = 500
_CALLED = {"done_on": "printed_on", "signed": "signature"}
"""Fields of records that a table calls otherwise."""


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


@dataclass
class _Came:
    """What has come of the rows so far."""

    took: Counter[Took] = field(default_factory=Counter)
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
    A row that is on record already, and says the same, enters nothing.  A table
    of printings may be a notebook, which has their sheets.  Raises Refused with
    the problems, by row and column.
    """
    heads, rows = read_table(path)
    told = {one.casefold() for one in (*(mapping.get(head, head) for head in heads), *fixed)}
    if kind == "printings" and ("negative" not in told or "sheets" in told):
        notebook = partial(import_notebook, register, folder, path, mapping=mapping, fixed=fixed)
        return notebook(source=source, settings=settings, rehearse=rehearse, progress=progress)
    fields, made = _ENTERS[kind]
    mapped = map_heads(path.name, heads, fields, mapping, fixed)
    came = _Came()
    with register.act(settings.who, rehearse=rehearse) as act:
        entering = made(act, folder, source)
        _take_all(entering, came, mapped, rows, progress)
        if came.problems:
            more = [Problem(f"and {came.more} more problems")] if came.more else []
            raise Refused(*came.problems, *more)
        entries = act.head()[0] - act.number + 1
        warnings = tuple(act.warnings)
        if not rehearse:
            entering.finish(progress)
        number = act.number
    said = [f"{came.took['entered']} {kind} entered"]
    said += [
        f"{came.took[one]} {one}" for one in ("added to", "on record already") if came.took[one]
    ]
    return Recorded(
        act=0 if rehearse or not entries else number,
        entered=(*mapped.lines, ", ".join(said)),
        entries=entries,
        warnings=warnings,
    )


def _take_all(
    entering: Entering, came: _Came, mapped: Mapped, rows: Rows, progress: Progress | None
) -> None:
    columns = [(at, name) for at, (_, name) in enumerate(mapped.columns) if name]
    fixed = {name: unicodedata.normalize("NFC", text) for name, text in mapped.fixed.items()}
    known: dict[Any, Any] = {}
    for done, (number, cells) in enumerate(entering.arrange(rows, mapped), start=1):
        if len(cells) > len(mapped.columns):
            came.refused(
                Problem("has more cells than there are columns", mend="mend the row", line=number)
            )
        else:
            texts = dict(fixed)
            for at, name in columns:
                if at < len(cells) and (text := cells[at]):
                    texts[name] = text if text.isascii() else unicodedata.normalize("NFC", text)
            _take(entering, came, mapped, number, Row(texts, known))
        if progress and (done % _EVERY == 0 or done == len(rows)):
            progress("rows", done, len(rows))


def _take(entering: Entering, came: _Came, mapped: Mapped, number: int, row: Row) -> None:
    try:
        came.took[entering.take(row)] += 1
    except Conflict:
        raise
    except Refused as error:
        for problem in error.problems:
            head = _head(mapped, problem.field)
            came.refused(replace(problem, field=head, line=number))


def _head(mapped: Mapped, field: str) -> str:
    """The head of the column that a problem is about; the field where it is about none."""
    bare = field.partition(".")[0]
    for name in (field, bare, _CALLED.get(bare, bare)):
        if mapped.place(name) is not None:
            return mapped.head(name)
    return _CALLED.get(field, field)
