"""The fields of a record, read from columns as the export of tables writes them.

What a column holds follows from the record's own form, as it does when the
table is written, so that no field is forgotten on the way back.
"""

import json
from collections.abc import Callable, Collection
from functools import partial
from typing import Any, Literal, get_origin, get_type_hints

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.quantities import Size
from provenance.records.exchange.cells import NO_TEXT
from provenance.studio.handover.tables import inner_type
from provenance.studio.tables.mapping import Fields
from provenance.studio.tables.row import SIDES, Row

_YES_NO = {"true": True, "yes": True, "false": False, "no": False}


class Form:
    """Reads the fields of one kind of record, apart from those that are `apart`.

    A row may be silent about what has a default, or is `given` by something else.
    """

    def __init__(
        self, kind: type[Body], *, apart: Collection[str] = (), given: Collection[str] = ()
    ) -> None:
        hints = get_type_hints(kind)
        self._readers: dict[str, tuple[str, Callable[[Row], Any]]] = {}
        self._needed: list[str] = []
        for field in msgspec.structs.fields(kind):
            if field.name in kind.LINKS or field.name in apart:
                continue
            read = _reader(field.name, hints[field.name])
            self._readers[field.name] = (field.name, read)
            if inner_type(hints[field.name]) is Size:
                for side in SIDES:
                    self._readers[f"{field.name}_{side}"] = (field.name, read)
            if field.required and field.name not in given:
                self._needed.append(field.name)

    def fields(self, needed: tuple[str, ...], **alike: str) -> Fields:
        """The columns there may be; `alike` gives further heads of some, or further columns."""
        return Fields(alike={**dict.fromkeys(self._readers, ""), **alike}, needed=needed)

    def given(self, row: Row) -> dict[str, Any]:
        """The fields that a row gives.  Raises Refused."""
        found: dict[str, Any] = {}
        for column in row.texts:
            name, read = self._readers.get(column, ("", None))
            if read is not None and name not in found:
                found[name] = read(row)
        for name in self._needed:
            if name not in found:
                row.needed(name)
        return found


def _reader(name: str, hint: Any) -> Callable[[Row], Any]:
    """What reads a field whose type is `hint`."""
    inner = inner_type(hint)
    if inner is Size:
        return lambda row: row.size(name)
    if get_origin(inner) is Literal:
        return lambda row: row.choice(name, inner)
    if inner is bool:
        return lambda row: row.once(name, _truth)
    if inner is int:
        return lambda row: row.whole(name)
    if inner is str and inner is hint:
        return lambda row: row.texts[name]
    if inner is str:
        # an optional text may be there and empty, which says something else than nothing
        return lambda row: "" if row.texts[name] == NO_TEXT else row.texts[name]
    return lambda row: row.once(name, partial(_parts, hint))


def _truth(text: str) -> bool:
    if text.casefold() not in _YES_NO:
        raise Refused(
            Problem(f"“{text[:40]}” is neither true nor false", mend="write true or false")
        )
    return _YES_NO[text.casefold()]


def _parts(kind: Any, text: str) -> Any:
    try:
        return msgspec.convert(json.loads(text, object_pairs_hook=_once), kind)
    except (msgspec.MsgspecError, ValueError, RecursionError) as error:
        raise Refused(
            Problem(
                f"is not written as the export writes it: {error}",
                mend="leave it out, or copy it from a table that was exported",
            )
        ) from error


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """An object whose names are each there once: of two, readers take different ones."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a name stands there twice")
    return found
