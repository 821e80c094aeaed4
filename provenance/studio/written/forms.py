"""Reads a TOML file into forms, with every mistake and its line.

A form is a struct of plain values; quantities in it are still text.
"""

import tomllib
import unicodedata
from datetime import date, datetime, time
from typing import Any, Literal, TypeVar, get_args, get_origin

import msgspec

from provenance.errors import Problem, Refused
from provenance.studio.written.lines import Path, find_lines, line_of


class Form(msgspec.Struct, kw_only=True, forbid_unknown_fields=True):
    """Base of all forms."""


F = TypeVar("F", bound=Form)

_MEND = {
    "Expected `str`": 'put the value in quotes: "2 min 30 s"',
    "Expected `array`": 'write a list: ["Q7", "Q8"]',
}


def read_form(text: str, form: type[F], *, name: str) -> tuple[F, dict[Path, int]]:
    """What `text` says, as a form, and the line of each of its parts.

    Raises Refused with every part that is unknown, missing or of the wrong kind.
    """
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n"))
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Refused(
            Problem(what=f"this is not TOML: {error}", record=name, mend="mend that line first")
        ) from error
    lines = find_lines(text)
    reading = _Reading(lines)
    read = reading.form(_dates_as_text(data), form, ())
    if reading.problems or read is None:
        raise Refused(*reading.problems)
    return read, lines


class _Reading:
    """One reading of a sheet; keeps what is wrong and goes on."""

    def __init__(self, lines: dict[Path, int]) -> None:
        self.problems: list[Problem] = []
        self._lines = lines

    def _note(self, what: str, path: Path, field: str = "", mend: str = "") -> None:
        at = (*path, field) if field else path
        record = " ".join(f"{p + 1}" if isinstance(p, int) else str(p) for p in path)
        self.problems.append(Problem(what, record, field, mend, line_of(self._lines, at)))

    def form(self, data: object, form: type[F], path: Path) -> F | None:
        """`data` as a form, or None after noting what is wrong with it."""
        if not isinstance(data, dict):
            self._note("is not a table", path, mend=f"write it as [{path[-1]}]" if path else "")
            return None
        before = len(self.problems)
        fields = {field.encode_name: field for field in msgspec.structs.fields(form)}
        for key in data.keys() - fields.keys():
            known = ", ".join(fields)
            self._note("is not known here", path, key, f"known are: {known}")
        values: dict[str, Any] = {}
        for key, field in fields.items():
            if key in data:
                values[field.name] = self._value(data[key], field.type, (*path, key), key)
            elif field.required:
                self._note("is missing", path, key, "add it")
        return form(**values) if len(self.problems) == before else None

    def _value(self, value: object, kind: Any, path: Path, key: str) -> Any:
        inner = _form_in(kind)
        if inner is None:
            try:
                return msgspec.convert(value, kind, strict=True)
            except msgspec.ValidationError as error:
                self._note(_plain(str(error)), path[:-1], key, _mend(str(error), kind))
                return None
        if get_origin(kind) is not list:
            return self.form(value, inner, path)
        if not isinstance(value, list):
            self._note("is not a list of tables", path, mend=f"write it as [[{key}]]")
            return None
        return [self.form(one, inner, (*path, place)) for place, one in enumerate(value)]


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


def _plain(error: str) -> str:
    what, _, _where = error.partition(" - at ")
    return what.replace("`", "'")[0].lower() + what.replace("`", "'")[1:]


def _mend(error: str, kind: Any) -> str:
    if "enum" in error:
        return f"write one of: {', '.join(_choices(kind))}"
    return next((mend for start, mend in _MEND.items() if error.startswith(start)), "")


def _choices(kind: Any) -> list[str]:
    """The words of a Literal, wherever it stands in `kind`."""
    if get_origin(kind) is Literal:
        return [str(one) for one in get_args(kind)]
    return [one for inner in get_args(kind) for one in _choices(inner)]
