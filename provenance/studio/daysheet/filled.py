"""A day sheet that is filled in field by field; what is wrong goes back to its field."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from provenance.errors import Conflict, Problem, Refused
from provenance.model.evidence import Source
from provenance.records.register import Register
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.record import Recorded, enter_sheet
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings
from provenance.studio.written.forms import fill_form
from provenance.studio.written.lines import Path as Place

_TABLE = re.compile(r"[a-z_]+( \d+)?( [a-z_]+( \d+)?)*")
"""A place in a sheet, such as ``printing 1 step 2``: tells nothing beside its field."""


class Filled:
    """Values put into the places of a day sheet, each from a named field of a form."""

    def __init__(self, date: str, *, source: Source = "notes", field: str = "date") -> None:
        self.data: dict[str, Any] = {}
        self.lines: dict[Place, int] = {}
        """Of each place the number of its field, where a file would have a line."""
        self._fields: list[tuple[str, str]] = []
        self._numbers: dict[tuple[str, str], int] = {}
        self.put(field, date, "day", "date")
        self.put("from", source, "day", "from")

    def put(
        self, field: str, value: object, *place: str | int, called: str = "", empty: bool = False
    ) -> None:
        """Write `value` of `field` at `place`; an empty one is left out, unless it may be `empty`.

        `called` says which part of the field it is, such as ``line 2``.
        """
        if (field, called) not in self._numbers:
            self._fields.append((field, called))
            self._numbers[field, called] = len(self._fields)
        self.lines[place] = self._numbers[field, called]
        if empty or value not in (None, "", [], {}):
            _write(self.data, place, _composed(value))

    def at_field(self, problem: Problem) -> Problem:
        """`problem` with the field of the form in place of the place in the sheet."""
        if problem.line is None:
            return replace(problem, field="")
        field, called = self._fields[problem.line - 1]
        record = called if _TABLE.fullmatch(problem.record) else problem.record
        return replace(problem, record=record, field=field, line=None)


def _composed(value: object) -> object:
    if isinstance(value, str):
        return unicodedata.normalize("NFC", value).strip()
    if isinstance(value, dict):
        return {_composed(name): _composed(one) for name, one in value.items()}
    return [_composed(one) for one in value] if isinstance(value, list) else value


def _write(data: dict[str, Any], place: Place, value: object) -> None:
    """Put `value` at `place`, making the tables and lists on the way."""
    held: Any = data
    for step, following in zip(place, [*place[1:], None], strict=True):
        inner: Any = value if following is None else [] if isinstance(following, int) else {}
        if isinstance(step, int):
            held.extend({} for _ in range(step + 1 - len(held)))
            if following is None or held[step] == {}:
                held[step] = inner
        elif following is None or step not in held:
            held[step] = inner
        held = held[step]


def read_count(text: str, *, field: str = "") -> int:
    """How many: a whole number, nought or more.  Raises Refused."""
    if not re.fullmatch(r"[0-9]{1,9}", text.strip()):
        raise Refused(
            Problem(what=f"“{text.strip()}” is not a whole number", field=field, mend="as 25")
        )
    return int(text)


def enter_filled(
    register: Register,
    folder: StudioFolder,
    filled: Filled,
    *,
    settings: Settings,
    unchanged: Mapping[int, int] | None = None,
) -> Recorded:
    """Enter what was filled in as one act; warnings name the field that they came from.

    Raises Refused with every problem at the field that it came from (without a
    field where it concerns the whole), and Conflict as `enter_sheet` does.
    """
    try:
        recorded = enter_sheet(
            register,
            folder,
            fill_form(filled.data, DaySheet, filled.lines),
            base=Path.cwd(),
            lines=filled.lines,
            settings=settings,
            name="the form",
            unchanged=unchanged,
        )
    except Conflict:
        raise
    except Refused as error:
        raise Refused(*(filled.at_field(problem) for problem in error.problems)) from error
    return replace(recorded, warnings=tuple(map(filled.at_field, recorded.warnings)))
