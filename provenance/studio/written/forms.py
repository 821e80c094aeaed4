"""Reads a TOML file into forms, with every mistake and its line.

A form is a struct of plain values; quantities in it are still text.
"""

import difflib
import re
import tomllib
import unicodedata
from datetime import date, datetime, time
from functools import lru_cache
from typing import Any, Literal, TypeVar, get_args, get_origin

import msgspec

from provenance.errors import Problem, Refused
from provenance.studio.written.lines import Path, find_lines, line_of
from provenance.toml import read_toml


class Form(msgspec.Struct, kw_only=True, forbid_unknown_fields=True):
    """Base of all forms."""


F = TypeVar("F", bound=Form)

_KINDS = {
    "str": ("text", 'put it in quotes: "{value}"'),
    "int": ("a whole number", "write it without quotes or a point: 25"),
    "bool": ("true or false", "write true or false, without quotes"),
    "array": ("a list", 'write it in brackets: ["{value}"]'),
    "object": ("a table", 'write it in braces: {{ name = "..." }}'),
}
"""What the library calls a kind of value, in plain words, and how it is written."""

_EXPECTED = re.compile(r"Expected `(?P<wanted>\w+)[^`]*`(?P<more>[^,]*)(?:, got `(?P<got>\w+)`)?")
_MONTH = re.compile(r"=\s*(\d{4}(?:-\d{2})?[~?%]?|\d{3}X)\s*(?:#.*)?$")
_AT = re.compile(r"\(at line (\d+), column \d+\)")


def read_form(text: str, form: type[F], *, name: str) -> tuple[F, dict[Path, int]]:
    """What `text` says, as a form, and the line of each of its parts.

    Raises Refused with every part that is unknown, missing or of the wrong kind.
    """
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n"))
    try:
        data = read_toml(text)
    except tomllib.TOMLDecodeError as error:
        raise Refused(_not_toml(error, text, name)) from error
    lines = find_lines(text)
    return fill_form(data, form, lines), lines


def fill_form(data: object, form: type[F], lines: dict[Path, int]) -> F:
    """Plain values as a form; `lines` says where each of them was written.

    Raises Refused with every part that is unknown, missing or of the wrong kind.
    """
    reading = _Reading(lines)
    read = reading.form(_dates_as_text(data), form, ())
    if reading.problems or read is None:
        raise Refused(*sorted(reading.problems, key=lambda problem: problem.line or 0))
    return read


def _not_toml(error: tomllib.TOMLDecodeError, text: str, name: str) -> Problem:
    at = _AT.search(str(error))
    line = int(at[1]) if at else None
    what = _AT.sub("", str(error)).strip()
    mend = "mend that line first; nothing after it was read"
    row = text.split("\n")[line - 1] if line else ""
    if month := _MONTH.search(row):
        mend = f'a date that is no whole day goes in quotes: "{month[1]}"'
    return Problem(
        what=f"this is not TOML: {what[:1].lower()}{what[1:]}", record=name, mend=mend, line=line
    )


class _Reading:
    """One reading of a sheet; keeps what is wrong and goes on."""

    def __init__(self, lines: dict[Path, int]) -> None:
        self.problems: list[Problem] = []
        self._lines = lines

    def _note(
        self, what: str, path: Path, field: str = "", mend: str = "", line: int | None = None
    ) -> None:
        line = line or line_of(self._lines, (*path, field))
        record = " ".join(f"{p + 1}" if isinstance(p, int) else str(p) for p in path)
        self.problems.append(Problem(what, record, field, mend, line))

    def form(self, data: object, form: type[F], path: Path) -> F | None:
        """`data` as a form, or None after noting what is wrong with it."""
        if not isinstance(data, dict):
            self._note("is not a table", path, mend=f"write it as [{path[-1]}]" if path else "")
            return None
        before = len(self.problems)
        fields = _fields(form)
        for key in data:
            if key not in fields:
                self._note("is not known here", path, key, _known(key, list(fields)))
        values: dict[str, Any] = {}
        for key, field in fields.items():
            if key in data:
                values[field.name] = self._value(data[key], field.type, (*path, key), key)
            elif field.required:
                inner = _form_in(field.type)
                self._note("is missing", path, key, f"add a [{key}] table" if inner else "add it")
        return form(**values) if len(self.problems) == before else None

    def _value(self, value: object, kind: Any, path: Path, key: str) -> Any:
        inner = _form_in(kind)
        if inner is None:
            try:
                return msgspec.convert(value, kind, strict=True)
            except msgspec.ValidationError as error:
                what, mend = _plain(str(error), value, kind)
                self._note(what, path[:-1], key, mend, line_of(self._lines, _at(error, path)))
                return None
        if get_origin(kind) is not list:
            return self.form(value, inner, path)
        if not isinstance(value, list):
            self._note("is not a list of tables", path, mend=f"write it as [[{key}]]")
            return None
        return [self.form(one, inner, (*path, place)) for place, one in enumerate(value)]


@lru_cache
def _fields(form: type[Form]) -> dict[str, msgspec.structs.FieldInfo]:
    return {field.encode_name: field for field in msgspec.structs.fields(form)}


def _dates_as_text(value: object) -> object:
    """TOML's own dates and times as the text that a person could have quoted."""
    if isinstance(value, dict):
        return {key: _dates_as_text(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_dates_as_text(inner) for inner in value]
    if isinstance(value, datetime):
        return value.isoformat(timespec="seconds")
    return value.isoformat() if isinstance(value, date | time) else value


def _form_in(kind: Any) -> type[Form] | None:
    """The form inside ``list[F]``, ``F | None`` or ``F``."""
    if isinstance(kind, type) and get_origin(kind) is None and issubclass(kind, Form):
        return kind
    for inner in get_args(kind):
        if isinstance(inner, type) and get_origin(inner) is None and issubclass(inner, Form):
            return inner
    return None


def _known(key: str, fields: list[str]) -> str:
    near = difflib.get_close_matches(key, fields, 1)
    return (f"perhaps {near[0]}; " if near else "") + f"known are: {', '.join(fields)}"


def _plain(error: str, value: object, kind: Any) -> tuple[str, str]:
    """The library's complaint about `value`, and what to do, in plain words."""
    what, _, where = error.partition(" - at ")
    if "enum" in what:
        return f"“{value}” is none of the words there are", (
            f"write one of: {', '.join(_choices(kind))}"
        )
    if "length >= 1" in what:
        return "is empty", "fill it in, or take it out"
    match = _EXPECTED.match(what)
    if match is None or match["wanted"] not in _KINDS:
        return what.replace("`", "'"), ""
    wanted, mend = _KINDS[match["wanted"]]
    if match["got"] is None:
        return f"is {value}, not {wanted}{match['more'].replace('>=', 'of at least')}", ""
    got = _KINDS.get(match["got"], ("a number",))[0]
    if where and isinstance(value, list):
        value = value[int(re.sub(r"\D", "", where) or 0)]
    return f"holds {got}, where {wanted} belongs", mend.format(value=value)


def _at(error: msgspec.ValidationError, path: Path) -> Path:
    """The path of what is wrong inside the value at `path`."""
    inner = re.search(r"\$\[(\d+)\]", str(error))
    return (*path, int(inner[1])) if inner else path


def _choices(kind: Any) -> list[str]:
    """The words of a Literal, wherever it stands in `kind`."""
    if get_origin(kind) is Literal:
        return [str(one) for one in get_args(kind)]
    return [one for inner in get_args(kind) for one in _choices(inner)]
