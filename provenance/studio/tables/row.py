"""One row of a table, read field by field."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, TypeVar, get_args

import msgspec

from provenance.craft.units import parse_size
from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.dates import parse_edtf
from provenance.model.quantities import Size
from provenance.model.quantity_text import format_size
from provenance.records.act import Act

T = TypeVar("T")

Took = Literal["entered", "added to", "on record already"]
"""What came of a row."""

_OTHERWISE, _NOT = "is on record otherwise", "is not on record for it"
_SHOWN = 40
"""How much of a text is told."""

SIDES = ("height_tenth_mm", "width_tenth_mm")
"""The two columns of a size, behind the name of its field."""


@dataclass(frozen=True)
class Row:
    """What a row says: the text of each field that it gives."""

    texts: Mapping[str, str]
    known: dict[tuple[str, str], Any] = field(default_factory=dict)
    """What the texts of a table were read as: most of them stand in many rows."""
    line: int = 0
    """Where it begins in the file."""

    def get(self, field: str) -> str:
        """The text of a field; empty where the row is silent."""
        return self.texts.get(field, "")

    def needed(self, field: str) -> str:
        """The text of a field that every row has.  Raises Refused."""
        text = self.texts.get(field, "")
        if not text:
            raise Refused(Problem("is empty", field=field, mend="fill it in"))
        return text

    def date(self, field: str) -> str:
        """A date (EDTF) that is needed.  Raises Refused."""
        return self.once(field, lambda text: parse_edtf(text, field=field).text)

    def choice(self, field: str, kind: Any) -> Any:
        """One of the words of a Literal.  Raises Refused with the words there are."""
        return self.once(field, lambda text: _word(text, get_args(kind)))

    def size(self, field: str) -> Size | None:
        """A size, as a text or as two columns of tenths of a millimetre.  Raises Refused."""
        if self.get(field):
            return self.once(field, parse_size)
        height, width = (f"{field}_{side}" for side in SIDES)
        both = (self.get(height), self.get(width))
        if both == ("", ""):
            return None
        if both not in self.known:
            self.known[both] = Size(
                height_tenth_mm=self.whole(height), width_tenth_mm=self.whole(width)
            )
        size: Size = self.known[both]
        return size

    def whole(self, field: str) -> int:
        """A whole number of at most nine digits.  Raises Refused."""
        text = self.get(field)
        if not (text.isascii() and text.isdecimal() and len(text) <= 9):
            raise Refused(
                Problem(
                    f"“{text[:_SHOWN]}” is not a whole number",
                    field=field,
                    mend="write it in figures alone, from 0 to 999999999",
                )
            )
        return int(text)

    def read(self, field: str, how: Callable[[str], T]) -> T:
        """What `how` makes of a field that is needed.  Raises Refused, naming the field."""
        text = self.needed(field)
        try:
            return how(text)
        except Refused as error:
            raise Refused(
                *(Problem(one.what, one.record, field, one.mend) for one in error.problems)
            ) from error

    def once(self, field: str, how: Callable[[str], T]) -> T:
        """As `read`, for what the text alone decides: it is read once in a table."""
        key = (field, self.texts.get(field, ""))
        if key in self.known:
            value: T = self.known[key]
            return value
        self.known[key] = value = self.read(field, how)
        return value


def cell_at(cells: Sequence[str], place: int) -> str:
    """The cell at a place; empty where the row is shorter."""
    return cells[place] if place < len(cells) else ""


def _word(text: str, words: tuple[str, ...]) -> str:
    if text.lower() not in words:
        mend = f"write one of {', '.join(words)}"
        raise Refused(Problem(f"“{text[:_SHOWN]}” is none of its words", mend=mend))
    return text.lower()


@dataclass(frozen=True)
class Other:
    """A field that a row gives otherwise than the record that is there already."""

    field: str
    stands: str
    """What is on record, in words; empty where nothing is."""
    said: str
    """What the row says."""


def differing(given: Mapping[str, object], held: Body) -> list[Other]:
    """The fields that a row gives otherwise than `held` does."""
    return [
        Other(field, *(_shown(one, held, field) for one in (getattr(held, field), value)))
        for field, value in given.items()
        if getattr(held, field) != value
    ]


def _shown(value: object, held: Body, field: str) -> str:
    """A value as it is told; empty for nothing."""
    if isinstance(value, Size):
        return format_size(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if value in (None, "", ()):
        return ""
    if field in held.LINKS:
        return f"#{value}"
    return str(value) if isinstance(value, str | int) else msgspec.json.encode(value).decode()


def on_record_otherwise(act: Act, row: Row, name: str, record: int, others: list[Other]) -> Refused:
    """Refuses a row that says more or else than what is on record, or in an earlier row."""
    if record >= act.number:
        # the table made the record: whoever tells this puts the line in place of the id
        what = f"#{record} says otherwise"
        mend = "make the two rows agree, or take one out"
    else:
        what = f"{_OTHERWISE} (#{record})"
        mend = (
            "a table only adds: take the row out, or take the act back that entered the record"
            f" (`provenance history #{record}`, `provenance undo`)"
        )
    return Refused(*(_told(row, name, one, what, mend) for one in others))


def _told(row: Row, name: str, other: Other, what: str, mend: str) -> Problem:
    said = other.said or row.get(other.field)
    if not other.stands:
        told = f"{what.replace(_OTHERWISE, _NOT)}: “{said[:_SHOWN]}” here"
    else:
        there, here = _where_they_differ(other.stands, said)
        told = f"{what}: “{there}” there, “{here}” here"
    return Problem(told, name, other.field, mend)


def _where_they_differ(one: str, other: str) -> tuple[str, str]:
    """Two texts as they are told: long ones from a little before they part."""
    if max(len(one), len(other)) <= _SHOWN:
        return one, other
    same = next(
        (at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b),
        min(len(one), len(other)),
    )
    start = max(0, same - _SHOWN // 4)
    front = "…" if start else ""
    return front + one[start : start + _SHOWN], front + other[start : start + _SHOWN]
