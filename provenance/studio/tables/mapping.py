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
        told = [f"column “{head}” is {field or 'left out'}" for head, field in self.columns]
        return (*told, *(f"every row: {field} = {text}" for field, text in self.fixed.items()))

    def place(self, field: str) -> int | None:
        """Which column gives `field`, counted from 0; None where none does."""
        return next((at for at, (_, one) in enumerate(self.columns) if one == field), None)

    def head(self, field: str) -> str:
        """The head of the column that gives `field`; the field itself where none does."""
        return next((head for head, one in self.columns if one == field), field)


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
        Problem("is given twice", name, field, "leave one out, as --map HEAD=", 1)
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


def _guess(head: str, fields: Fields, taken: set[str]) -> str:
    plain = "_".join(head.casefold().split())
    for field, alike in fields.alike.items():
        if field not in taken and plain in (field, *alike.split()):
            return field
    return ""
