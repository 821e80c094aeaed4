"""Which column of a table is taken for which field."""

from collections.abc import Mapping
from dataclasses import dataclass

from provenance.errors import Problem, Refused


@dataclass(frozen=True)
class Fields:
    """What a row of some kind can say: each field, with the heads that are taken for it."""

    alike: Mapping[str, str]
    """Field to further heads, apart from its own name, with spaces between them."""
    needed: tuple[str, ...]


@dataclass(frozen=True)
class Mapped:
    """Which field each column was taken for; an empty field is a column left out."""

    columns: tuple[tuple[str, str], ...]
    fixed: Mapping[str, str]

    @property
    def lines(self) -> tuple[str, ...]:
        """The mapping, a line each, for a person to check."""
        told = [
            f"{called(place, head)} is {field or 'left out'}"
            for place, (head, field) in enumerate(self.columns, start=1)
        ]
        return (*told, *(f"every row: {field} = {text}" for field, text in self.fixed.items()))

    def place(self, field: str) -> int | None:
        """Which column gives `field`, counted from 0; None where none does."""
        return next((at for at, (_, one) in enumerate(self.columns) if one == field), None)

    def head(self, field: str) -> str:
        """The head of the column that gives `field`; the field itself where none does."""
        return next((head for head, one in self.columns if one == field), field)


def called(place: int, head: str) -> str:
    """A column as it is told: by its head, by its place (counted from 1) where it has none."""
    return f"column “{head}”" if head else f"column {place}, which has no head,"


def map_heads(
    name: str,
    heads: list[str],
    fields: Fields,
    mapping: Mapping[str, str],
    fixed: Mapping[str, str],
) -> Mapped:
    """Which field each column of table `name` is.  Raises Refused for what does not fit."""
    known = ", ".join(fields.alike)
    problems = [
        Problem(f"there is no column “{head}”", name, head, f"columns: {', '.join(heads)}", 1)
        for head in mapping
        if head not in heads
    ]
    # what is known as a head is known as a field
    mapping = {head: _field(one, fields) or one for head, one in mapping.items()}
    fixed = {_field(one, fields) or one: text for one, text in fixed.items()}
    problems += [
        Problem("is no field of such a row", name, field, f"fields are: {known}")
        for field in sorted({*mapping.values(), *fixed} - {"", *fields.alike})
    ]
    taken = {*mapping.values(), *fixed}
    columns = [
        (head, mapping[head] if head in mapping else _guess(head, fields, taken)) for head in heads
    ]
    found = [field for _, field in columns if field] + list(fixed)
    problems += [
        _twice(name, field, [head for head, one in columns if one == field])
        for field in sorted({field for field in found if found.count(field) > 1})
    ]
    problems += [
        Problem("no column gives it", name, field, f'as --map "HEAD={field}" or --set {field}=…', 1)
        for field in fields.needed
        if field not in found
    ]
    if problems:
        raise Refused(*problems)
    return Mapped(tuple(columns), fixed)


def _twice(name: str, field: str, heads: list[str]) -> Problem:
    """A field that more than one column gives, or a column and a text for every row."""
    if len(set(heads)) < len(heads):
        mend = f"{len(heads)} columns are headed “{heads[0]}”: change one head in the table"
    else:
        mend = f'leave one out, as --map "{heads[-1]}="'
    return Problem("is given twice", name, field, mend, 1)


def _guess(head: str, fields: Fields, taken: set[str]) -> str:
    field = _field(head, fields)
    return "" if field in taken else field


def _field(head: str, fields: Fields) -> str:
    """The field that a head is taken for; empty where it is none."""
    plain = "_".join(head.casefold().split())
    for field, alike in fields.alike.items():
        if plain in (field, *alike.split()):
            return field
    return ""
