"""One row of a table, read field by field."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeVar, get_args

from provenance.craft.units import parse_size
from provenance.errors import Problem, Refused
from provenance.model.dates import parse_edtf
from provenance.model.quantities import Size

T = TypeVar("T")

Took = Literal["entered", "added to", "on record already"]
"""What came of a row."""

SIDES = ("height_tenth_mm", "width_tenth_mm")
"""The two columns of a size, behind the name of its field."""


@dataclass(frozen=True)
class Row:
    """What a row says: the text of each field that it gives."""

    texts: Mapping[str, str]
    known: dict[tuple[str, str], Any] = field(default_factory=dict)
    """What the texts of a table were read as: most of them stand in many rows."""

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
                Problem(f"“{text[:40]}” is not a whole number", field=field, mend="as 2400")
            )
        return int(text)

    def read(self, field: str, how: Callable[[str], T]) -> T:
        """What `how` makes of a field that is needed.  Raises Refused, naming the field."""
        text = self.needed(field)
        try:
            return how(text)
        except Refused as error:
            raise Refused(
                *(Problem(one.what, field=field, mend=one.mend) for one in error.problems)
            ) from error

    def once(self, field: str, how: Callable[[str], T]) -> T:
        """As `read`, for what the text alone decides: it is read once in a table."""
        key = (field, self.texts.get(field, ""))
        if key in self.known:
            value: T = self.known[key]
            return value
        self.known[key] = value = self.read(field, how)
        return value


def _word(text: str, words: tuple[str, ...]) -> str:
    if text not in words:
        raise Refused(Problem(f"“{text}” is none of its words", mend=", ".join(words)))
    return text


def differing(given: Mapping[str, object], held: object) -> list[str]:
    """The fields that a row gives otherwise than the record that is there already."""
    return [field for field, value in given.items() if getattr(held, field) != value]


def on_record_otherwise(name: str, fields: list[str]) -> Refused:
    """Refuses a row that says something else than what is on record."""
    return Refused(
        *(
            Problem(
                "is on record otherwise",
                name,
                field,
                "correct the record, or take the row out: a table only adds",
            )
            for field in fields
        )
    )
