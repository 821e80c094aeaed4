"""Tables of records: a table for each kind, a row for each record as it stands.

The columns are taken from the records' own forms, so that none is forgotten.
Lengths and times are whole numbers of the unit in the column's name; what has
parts of its own is JSON; a record that is referred to is named as a person
names it, and by its id in a column beside.
"""

import types
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec

from provenance.errors import NotFound
from provenance.model.body import Body
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.quantities import Size
from provenance.records.exchange.cells import NO_TEXT, Cell
from provenance.records.forms import KINDS
from provenance.records.reader import Reader, Stored
from provenance.studio.browsing import name_of, plural
from provenance.studio.handover.levels import PUBLIC, Level
from provenance.studio.references import resolve_print

Datatype = Literal["string", "integer", "boolean", "json"]
Scope = frozenset[int] | None
"""The records that are wanted; None for all."""

_UNITS = {
    "_tenth_mm": "in tenths of a millimetre",
    "_hundredth_ml": "in hundredths of a millilitre",
    "_tenth_c": "in tenths of a degree Celsius",
    "_ng_per_cm2": "in nanograms to the square centimetre",
    "_e00_hundredth": "in hundredths of ΔE00",
    "_hundredth": "in hundredths of L*",
    "_md": "in thousandths of a density",
    "_ms": "in milliseconds",
    "_px": "in pixels",
    "_mg": "in milligrams",
    "_sha256": "SHA-256, hexadecimal",
}


@dataclass(frozen=True)
class Column:
    """One column of a table, and how a record gives its cell."""

    name: str
    datatype: Datatype
    about: str
    cell: Callable[[Reader, Stored[Any]], Cell]
    names: str = ""
    """The field that refers to the record which the cell names; empty where it names none."""


@dataclass(frozen=True)
class Table:
    """The table of one kind of record."""

    kind: type[Body]
    columns: tuple[Column, ...]

    @property
    def name(self) -> str:
        """What its file is called, without the ending."""
        return plural(self.kind.KIND)

    def rows(self, reader: Reader, level: Level, scope: Scope) -> Iterator[list[Cell]]:
        """A row for each record that is wanted."""
        for stored in wanted(reader, self.kind, level, scope):
            yield [_within(scope, column, reader, stored) for column in self.columns]


def _within(scope: Scope, column: Column, reader: Reader, stored: Stored[Any]) -> Cell:
    """A cell; of a record that is not wanted it has the id and not the name."""
    to = getattr(stored.body, column.names) if scope is not None and column.names else None
    if to is not None and scope is not None and to not in scope:
        return f"#{to}"
    return column.cell(reader, stored)


def tables(level: Level) -> tuple[Table, ...]:
    """The tables of that level."""
    if level != "public":
        return tuple(Table(kind, _columns(kind, None)) for kind in KINDS.values())
    return tuple(Table(KINDS[kind], _columns(KINDS[kind], keep)) for kind, keep in PUBLIC.items())


def wanted(reader: Reader, kind: type[Body], level: Level, scope: Scope) -> Iterator[Stored[Any]]:
    """The live records of a kind that a level shows, one at a time, in order of entry."""
    ids = reader.connection.execute(
        "SELECT id FROM record WHERE kind = ? AND live ORDER BY id", (kind.KIND,)
    ).fetchall()
    for (record,) in ids:
        if scope is not None and record not in scope:
            continue
        stored = reader.get(kind, record)
        if level == "public" and isinstance(stored.body, Print) and not stored.body.designation:
            continue
        yield stored


def _columns(kind: type[Body], keep: tuple[str, ...] | None) -> tuple[Column, ...]:
    hints = get_type_hints(kind)
    columns = [Column("id", "integer", "the record's id", lambda _, stored: stored.id)]
    if keep is None:
        columns += [
            Column("version", "integer", "the entry that holds it", lambda _, one: one.version),
            Column("entered", "string", "when it was entered (UTC)", lambda _, one: one.entered.at),
            Column("who", "string", "who entered it: a role or initials", lambda _, one: one.who),
        ]
    for field in msgspec.structs.fields(kind):
        if keep is None or field.name in keep:
            columns += _of_field(kind, field.name, hints[field.name], exact=keep is None)
    if kind is Print:
        columns += [
            Column("printed_on", "string", "the date of its printing (EDTF)", _printed_on),
            Column("paper", "string", "the paper it was printed on", _paper),
        ]
    if kind is Print and keep is None:
        about = "which printing of its negative on that date it came from, in the order of entry"
        columns += [
            Column("printer", "string", "who printed it: a role or initials", _printer),
            Column("printing_place", "integer", about, _Places()),
        ]
    return tuple(columns)


def _of_field(kind: type[Body], name: str, hint: Any, *, exact: bool) -> list[Column]:
    inner = inner_type(hint)
    if name in kind.LINKS and get_origin(inner) is not tuple:
        about = f"the {kind.LINKS[name]}"
        return [
            Column(name, "string", f"{about} it refers to", _named(name, exact=exact), name),
            Column(f"{name}_id", "integer", f"{about}'s id", _plain(name)),
        ]
    if inner is Size:
        sides = ("height_tenth_mm", "width_tenth_mm")
        return [
            Column(f"{name}_{side}", "integer", _about(kind, side), _side(name, side))
            for side in sides
        ]
    if inner is bool:
        return [Column(name, "boolean", _about(kind, name), _truth(name))]
    if inner is int:
        return [Column(name, "integer", _about(kind, name), _plain(name))]
    if inner is str and inner is not hint:
        return [Column(name, "string", _about(kind, name), _optional(name))]
    if inner is str or get_origin(inner) is Literal:
        return [Column(name, "string", _about(kind, name), _plain(name))]
    return [Column(name, "json", _about(kind, name), _json(name))]


def inner_type(hint: Any) -> Any:
    """The type of a field without the None that may stand for it."""
    if get_origin(hint) in (Union, types.UnionType):
        (hint,) = (one for one in get_args(hint) if one is not type(None))
    return hint


def _about(kind: type[Body], name: str) -> str:
    unit = next((unit for ending, unit in _UNITS.items() if name.endswith(ending)), "")
    words = name.replace("_", " ")
    return f"{words} of the {kind.KIND}{f', {unit}' if unit else ''}"


def _plain(name: str) -> Callable[[Reader, Stored[Any]], Cell]:
    def cell(_: Reader, stored: Stored[Any]) -> Cell:
        value: Cell = getattr(stored.body, name)
        return value

    return cell


def _optional(name: str) -> Callable[[Reader, Stored[Any]], Cell]:
    def cell(_: Reader, stored: Stored[Any]) -> Cell:
        value: Cell = getattr(stored.body, name)
        return NO_TEXT if value == "" else value

    return cell


def _truth(name: str) -> Callable[[Reader, Stored[Any]], Cell]:
    return lambda _, stored: {True: "true", False: "false", None: None}[getattr(stored.body, name)]


def _side(name: str, side: str) -> Callable[[Reader, Stored[Any]], Cell]:
    return lambda _, stored: getattr(getattr(stored.body, name), side, None)


def _json(name: str) -> Callable[[Reader, Stored[Any]], Cell]:
    def cell(_: Reader, stored: Stored[Any]) -> Cell:
        value = getattr(stored.body, name)
        return None if value in (None, ()) else msgspec.json.encode(value).decode()

    return cell


def _named(name: str, *, exact: bool) -> Callable[[Reader, Stored[Any]], Cell]:
    """Names what a field refers to; `exact` may take a print's mark, which not anybody may see."""

    def cell(reader: Reader, stored: Stored[Any]) -> Cell:
        record = getattr(stored.body, name)
        held = reader.find(record) if record is not None else None
        if held is None:
            return None
        by_mark = exact and isinstance(held.body, Print)
        return _print_name(reader, held) if by_mark else name_of(reader, held)

    return cell


def _print_name(reader: Reader, held: Stored[Any]) -> str:
    """A name that leads to this print alone: a replacement bears the number of another."""
    code = reader.get(Edition, held.body.edition).body.code
    for name in filter(None, (held.body.designation, held.body.mark)):
        with suppress(NotFound):
            if resolve_print(reader, f"{code} {name}").id == held.id:
                return f"{code} {name}"
    return f"#{held.id}"


def _printed_on(reader: Reader, stored: Stored[Any]) -> Cell:
    return reader.get(Printing, stored.body.printing).body.done_on


def _paper(reader: Reader, stored: Stored[Any]) -> Cell:
    paper = reader.get(Printing, stored.body.printing).body.paper
    return reader.get(Paper, paper).body.code if paper else None


def _printer(reader: Reader, stored: Stored[Any]) -> Cell:
    return reader.get(Printing, stored.body.printing).body.printer


class _Places:
    """Tells the printings of one negative and date apart, as nothing else about them need do."""

    def __init__(self) -> None:
        self._places: dict[int, int] = {}

    def __call__(self, reader: Reader, stored: Stored[Any]) -> Cell:
        printing = stored.body.printing
        if printing not in self._places:
            negative = reader.get(Printing, printing).body.negative
            dates: Counter[str] = Counter()
            for held in reader.linked(negative, Printing, "negative"):
                dates[held.body.done_on] += 1
                self._places[held.id] = dates[held.body.done_on]
        return self._places[printing]
