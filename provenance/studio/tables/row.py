"""One row of a table, read field by field."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, get_args

from provenance.craft.units import parse_size
from provenance.errors import Problem, Refused
from provenance.model.dates import parse_edtf
from provenance.model.quantities import Size

T = TypeVar("T")


@dataclass(frozen=True)
class Row:
    """What a row says: the text of each field that it gives."""

    texts: Mapping[str, str]

    def get(self, field: str) -> str:
        """The text of a field; empty where the row is silent."""
        return self.texts.get(field, "")

    def needed(self, field: str) -> str:
        """The text of a field that every row has.  Raises Refused."""
        text = self.get(field)
        if not text:
            raise Refused(Problem("is empty", field=field, mend="fill it in"))
        return text

    def date(self, field: str) -> str:
        """A date (EDTF) that is needed.  Raises Refused."""
        return self.read(field, lambda text: parse_edtf(text, field=field).text)

    def choice(self, field: str, kind: Any) -> Any:
        """One of the words of a Literal.  Raises Refused with the words there are."""
        text, words = self.get(field), get_args(kind)
        if text not in words:
            raise Refused(
                Problem(f"“{text}” is none of its words", field=field, mend=", ".join(words))
            )
        return text

    def size(self, field: str) -> Size | None:
        """A size, as a text or as two columns of tenths of a millimetre.  Raises Refused."""
        if self.get(field):
            return self.read(field, parse_size)
        sides = {
            side: self.get(f"{field}_{side}") for side in ("height_tenth_mm", "width_tenth_mm")
        }
        if not any(sides.values()):
            return None
        return Size(**{side: self.whole(f"{field}_{side}") for side in sides})

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
