"""Rows of a notebook whose sheets are on record: the same, more, or something else.

A notebook only adds.  What is on record the same is passed over, what is on
record otherwise is refused, and what is not on record is added where it can be
said of these sheets alone, in an order of work that is known.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from msgspec.structs import replace

from provenance.craft.units import parse_duration_ms
from provenance.errors import Problem, Refused
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.paper import Paper
from provenance.model.printing import Exposure, Printing, Step
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.quantity_text import format_duration
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.daysheet.exposed import f_number_tenth
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook_columns import Column, cell_at
from provenance.studio.processes import use_process
from provenance.studio.references import resolve_as
from provenance.studio.tables.row import Other, Row, on_record_otherwise

_YES = ("yes", "y")


@dataclass
class Known:
    """A row whose sheets are on record, and what it adds."""

    sheets: tuple[str, ...]
    """As ``QUAY Q1``."""
    printings: dict[int, Printing] = field(default_factory=dict)
    """What the printings say with what the row adds, where it adds anything."""
    added: list[str] = field(default_factory=list)
    """The heads of what is added to them."""
    baths: list[tuple[Column, str]] = field(default_factory=list)
    """Baths that are new, each with its time, in the order of work."""


class Held:
    """Looks rows up among what is on record."""

    def __init__(
        self, act: Act, folder: StudioFolder, columns: Sequence[Column], source: Source
    ) -> None:
        self._act = act
        self._folder = folder
        self._columns = columns
        self._source = source
        self._places = {column.place: at for at, column in enumerate(columns) if column.place}
        self._added: dict[int, Printing] = {}
        """Printings with what earlier rows add to them."""

    def look(self, number: int, cells: Sequence[str]) -> Known | None:
        """What the row of line `number` adds; None where its sheets are new.  Raises Refused."""
        edition = self._act.by_code(Edition, self._cell(cells, "edition"))
        marks = self._cell(cells, "sheets").replace(",", " ").split()
        if edition is None:
            return None
        found = {mark: self._print(edition.id, mark) for mark in marks}
        prints = [one for one in found.values() if one is not None]
        if not prints:
            return None
        code = edition.body.code
        problems = list(self._others(code, found, self._cell(cells, "date")))
        known = Known(tuple(f"{code} {mark}" for mark in found))
        if not problems:
            problems += self._printings(known, prints, cells)
            problems += self._baths(known, prints, cells)
        if problems:
            # sheets of one row mostly are on record alike: each column is told once
            raise Refused(*{(one.field, one.what): one for one in reversed(problems)}.values())
        self._added |= known.printings
        return known

    def _cell(self, cells: Sequence[str], name: str) -> str:
        return cell_at(cells, self._places[(name,)])

    def _head(self, name: str) -> str:
        return self._columns[self._places[(name,)]].head

    def _print(self, edition: int, mark: str) -> Stored[Print] | None:
        row = self._act.connection.execute(
            "SELECT id FROM print_key WHERE edition = ? AND mark = ?", (edition, mark)
        ).fetchone()
        return self._act.get(Print, row[0]) if row else None

    def _others(
        self, code: str, found: dict[str, Stored[Print] | None], date: str
    ) -> Iterator[Problem]:
        """Sheets of another day, or that are not all on record."""
        new = [mark for mark, one in found.items() if one is None]
        old = [mark for mark, one in found.items() if one is not None]
        if new:
            yield Problem(
                f"{', '.join(old)} {'are' if len(old) > 1 else 'is'} on record,"
                f" and {', '.join(new)} {'are' if len(new) > 1 else 'is'} not",
                code,
                self._head("sheets"),
                f"give {', '.join(new)} a row apart: it becomes a printing of its own",
            )
            return
        for mark, one in found.items():
            printed = self._printing(one).body.done_on if one else ""
            if one is not None and printed != date:
                yield from self._otherwise(
                    f"{code} {mark}", one.id, Other(self._head("date"), printed, date)
                )

    def _printing(self, print_: Stored[Print]) -> Stored[Printing]:
        return self._act.get(Printing, print_.body.printing)

    def _otherwise(self, name: str, record: int, other: Other) -> tuple[Problem, ...]:
        return on_record_otherwise(self._act, Row({}), name, record, [other]).problems

    def _printings(
        self, known: Known, prints: list[Stored[Print]], cells: Sequence[str]
    ) -> Iterator[Problem]:
        """Hold what is said of the printing against each that the sheets came from."""
        ids = {one.id for one in prints}
        for held in {one.id: one for one in map(self._printing, prints)}.values():
            body = self._added.get(held.id, held.body)
            new: list[str] = []
            for column, cell in zip(self._columns, cells, strict=False):
                if not cell or column.place not in _READ:
                    continue
                try:
                    said = self._read(column.place, cell)
                except Refused as error:
                    yield from (
                        Problem(one.what, "", column.head, one.mend) for one in error.problems
                    )
                    continue
                stands = _stands(body, column.place)
                if stands in (None, ""):
                    new.append(column.head)
                    body = _with(body, column.place, said)
                elif stands != said:
                    words = _words(self._act, column.place, stands)
                    yield from self._otherwise(
                        known.sheets[0], held.id, Other(column.head, words, cell)
                    )
            yield from self._as_planned(known, body, prints, cells)
            if new:
                yield from self._may_add(known, held, ids, new)
                known.printings[held.id] = body
                known.added += [head for head in new if head not in known.added]

    def _read(self, place: tuple[str, ...], cell: str) -> Any:
        """What a cell says of the printing.  Raises Refused.

        A process sheet that is a template only comes on record, as it does with new sheets.
        """
        if place == ("process",) and self._act.by_code(ProcessSheet, cell) is None:
            return use_process(self._act, self._folder, cell)[0]
        return _READ[place](self._act, cell)

    def _may_add(
        self, known: Known, held: Stored[Printing], ids: set[int], new: list[str]
    ) -> Iterator[Problem]:
        """Whether more may be said of a printing: of no other sheets, and no better known."""
        others = [
            one.body.mark
            for one in self._act.linked(held.id, Print, "printing")
            if one.id not in ids
        ]
        if others:
            yield Problem(
                f"is not on record, and would be said of {', '.join(others[:6])} too,"
                f" which came from the same printing (#{held.id})",
                known.sheets[0],
                new[0],
                "give all sheets of the printing in one row, or leave the cell empty",
            )
        elif held.body.source != self._source:
            yield Problem(
                f"is not on record, and the printing (#{held.id}) is known from another source"
                f" ({held.body.source}, not {self._source})",
                known.sheets[0],
                new[0],
                "leave the cell empty",
            )

    def _as_planned(
        self, known: Known, body: Printing, prints: list[Stored[Print]], cells: Sequence[str]
    ) -> Iterator[Problem]:
        """That everything went as planned is a matter of baths on record."""
        at = self._places.get(("as_planned",))
        if at is None or cell_at(cells, at).casefold() not in _YES:
            return
        plan = self._act.get(ProcessSheet, body.process).body if body.process else None
        wanted = {step.role for step in plan.steps if step.role} if plan else set()
        there = [{step.body.role for step in self._steps(one)} for one in prints]
        if not plan or not all(wanted <= roles for roles in there):
            yield Problem(
                "the baths of a plan are not on record for these sheets",
                known.sheets[0],
                self._columns[at].head,
                "leave the cell empty, and give each bath a column",
            )

    def _steps(self, print_: Stored[Print]) -> list[Stored[Step]]:
        return self._act.linked(print_.id, Step, "sheets")

    def _baths(
        self, known: Known, prints: list[Stored[Print]], cells: Sequence[str]
    ) -> Iterator[Problem]:
        """Hold the baths against those of each sheet; new ones come behind all on record."""
        given = [
            (column, cell)
            for column, cell in zip(self._columns, cells, strict=False)
            if column.role and cell
        ]
        for name, print_ in zip(known.sheets, prints, strict=True):
            left = self._steps(print_)
            new: list[tuple[Column, str]] = []
            for column, cell in given:
                try:
                    said = parse_duration_ms(cell, field=column.head)
                except Refused as error:
                    yield from error.problems
                    continue
                held = _same_bath(left, column)
                if held is None:
                    new.append((column, cell))
                    continue
                left.remove(held)
                stands = held.body.duration_for(print_.id)
                if stands != said:
                    words = "" if stands is None else format_duration(stands)
                    yield from self._otherwise(name, held.id, Other(column.head, words, cell))
                elif new:
                    yield _out_of_order(name, new[0][0])
            if new and left:
                yield _out_of_order(name, new[0][0])
            if name != known.sheets[0] and new != known.baths:
                yield Problem(
                    f"the baths on record differ between {known.sheets[0]} and {name}",
                    name,
                    (new or known.baths)[0][0].head,
                    "give each of them a row of its own",
                )
            known.baths = new


def _same_bath(left: list[Stored[Step]], column: Column) -> Stored[Step] | None:
    """The bath on record that a column speaks of: by its name, or the only one of its role."""
    alike = [one for one in left if one.body.role == column.role]
    named = [one for one in alike if one.body.name.casefold() == column.name]
    if named:
        return named[0]
    return alike[0] if len(alike) == 1 and not column.name else None


def _out_of_order(name: str, column: Column) -> Problem:
    return Problem(
        "is not on record, and other baths are that may come after it",
        name,
        column.head,
        "record it in a day sheet, as a treatment of its own day, or leave the cell empty",
    )


_READ: dict[tuple[str, ...], Callable[[Act, str], Any]] = {
    ("paper",): lambda act, cell: resolve_as(act, Paper, cell).id,
    ("process",): lambda act, cell: resolve_as(act, ProcessSheet, cell).id,
    ("printer",): lambda _, cell: cell,
    ("note",): lambda _, cell: cell,
    ("exposure", "base"): lambda _, cell: parse_duration_ms(cell),
    ("exposure", "aperture"): lambda _, cell: f_number_tenth(cell),
    ("exposure", "grade"): lambda _, cell: cell,
}
"""How the cell of each column that speaks of the printing is read."""
_CALLED = {"base": "base_ms", "aperture": "aperture_tenth"}
"""Parts of an exposure that are called otherwise in its record."""


def _stands(body: Printing, place: tuple[str, ...]) -> Any:
    """What a printing says of a column."""
    if len(place) == 1:
        return getattr(body, place[0])
    part = _CALLED.get(place[1], place[1])
    return getattr(body.exposure, part) if body.exposure else None


def _with(body: Printing, place: tuple[str, ...], said: Any) -> Printing:
    if len(place) == 1:
        return replace(body, **{place[0]: said})
    part = _CALLED.get(place[1], place[1])
    return replace(body, exposure=replace(body.exposure or Exposure(), **{part: said}))


def _words(act: Act, place: tuple[str, ...], stands: Any) -> str:
    if place == ("paper",):
        return act.get(Paper, stands).body.code
    if place == ("process",):
        return act.get(ProcessSheet, stands).body.code
    if place == ("exposure", "base"):
        return format_duration(stands)
    return f"f/{stands / 10:g}" if place == ("exposure", "aperture") else str(stands)
