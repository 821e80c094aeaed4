"""One reading of a day sheet into the register: what was refused, and where it stands."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import Self, TypeVar

from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.dates import parse_edtf
from provenance.model.evidence import Source
from provenance.model.formula import Formula
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.chemicals import Chemicals, load_chemicals
from provenance.studio.custody import People
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import known_formula
from provenance.studio.references import resolve_as, resolve_print
from provenance.studio.settings import Settings
from provenance.studio.written.lines import Path as Place
from provenance.studio.written.lines import line_of

T = TypeVar("T")
B = TypeVar("B", bound=Body)


_AS_WRITTEN = {
    "mark": "sheets",
    "done_on": "date",
    "made_on": "made",
    "mixed_on": "mixed",
    "drawn": "draw",
    "drawn_from": "draw",
    "retired_on": "on",
    "retired_why": "why",
    "state_since": "since",
    "designation": "first",
    "signed": "prints",
    "signed.on": "on",
    "gone_on": "on",
    "gone_evidence": "evidence",
    "approved.on": "on",
    "party": "to",
    "giver": "from",
    "given_on": "on",
    "disclosed": "other_editions",
    "event": "prints",
    "exposure_ms": "exposure",
    "patches": "density",
    "wedge": "readings",
    "covers": "sheets",
    "darker_md": "darker",
    "d_min_md": "paper_density",
    "attached": "photograph",
    "inscriptions": "inscription",
}
"""What the register calls a field, and where a person wrote it."""

_NAMELESS = frozenset(
    {
        "",
        "printing",
        "step",
        "test",
        "custody event",
        "scan",
        "custody",
        "wedge",
        "reading",
        "match",
        "finish",
    }
)
"""Names of records that say less than their place in the sheet."""


class Skipped(Exception):
    """The rest of an item cannot be read; why has been noted."""


@dataclass
class Context:
    """What the items of a sheet are entered with, and what came of them."""

    act: Act
    folder: StudioFolder
    settings: Settings
    base: Path
    """Paths in the sheet are relative to this folder."""
    date: str
    source: Source
    lines: dict[Place, int]
    problems: list[Problem] = field(default_factory=list)
    entered: list[str] = field(default_factory=list)
    """What was entered, one line each, for the person to read."""
    files: list[Callable[[], object]] = field(default_factory=list)
    """What has to be on disk before the register names it; done last of all."""
    warnings: list[Problem] = field(default_factory=list)
    """What is worth a thought and forbids nothing, each at its line."""
    written: dict[int, Place] = field(default_factory=dict)
    """The steps and tests that were entered, and where each was written."""
    used: dict[int, Place] = field(default_factory=dict)
    """The baths that sheets went through, and where that was written."""
    failed: set[str] = field(default_factory=set)
    """Names of what was refused, so that what depends on it is not reported again."""

    @cached_property
    def people(self) -> People:
        """Those whom the sheet names, each with a page of the contact book."""
        return People(self.folder, self.files)

    @cached_property
    def chemicals(self) -> Chemicals:
        """The tables of substances and hazards, the studio's own where it has them."""
        return load_chemicals(self.folder)

    def item(self, *place: str | int, names: tuple[str, ...] = ()) -> "Item":
        """The item at `place`; `names` are what later items would call it."""
        return Item(self, place, names)


class Item:
    """One table of the sheet: a problem inside it is noted, and reading goes on."""

    def __init__(self, context: Context, place: Place, names: tuple[str, ...]) -> None:
        self.context = context
        self.place = place
        self._names = names
        self._sound = True

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> bool:
        if isinstance(error, Refused):
            self.note(error)
        if error is not None or not self._sound:
            self.context.failed.update(name.casefold() for name in self._names)
        self.context.warnings += map(self.placed, self.context.act.warnings)
        self.context.act.warnings.clear()
        return isinstance(error, Refused | Skipped)

    def note(self, error: Refused, *inner: str | int) -> None:
        """Keep the problems of `error`, with their lines."""
        self._sound = False
        self.context.problems += (self.placed(problem, *inner) for problem in error.problems)

    def placed(self, problem: Problem, *inner: str | int) -> Problem:
        """A problem with the field that was written, and its line."""
        written = _AS_WRITTEN.get(problem.field, problem.field)
        parts = (int(p) if p.isdecimal() else p for p in written.split(".") if p)
        place = (*self.place, *inner, *parts)
        *table, last = place if len(place) > len(self.place) else (*place, "")
        record = " ".join(str(p + 1) if isinstance(p, int) else p for p in table)
        return replace(
            problem,
            record=record if problem.record in _NAMELESS else problem.record,
            field=str(last),
            line=line_of(self.context.lines, place),
        )

    def read(
        self, name: str, parse: Callable[..., T], text: str | None, **given: object
    ) -> T | None:
        """`text` of the field `name`, parsed; None when it is absent or was refused."""
        return None if text is None else self.attempt(lambda: parse(text, field=name, **given))

    def attempt(self, find: Callable[[], T], *inner: str) -> T | None:
        """What `find` gives; None when it was refused, which is noted of the field `inner`."""
        try:
            return find()
        except Refused as error:
            self.note(error, *inner)
            return None

    def date(self, name: str, text: str | None) -> str | None:
        """An EDTF date, as its own text."""
        read = self.read(name, parse_edtf, text)
        return read.text if read else None

    def day(self, name: str, text: str | None) -> str:
        """An EDTF date, the day of the sheet where none is given."""
        return self.date(name, text) or self.context.date

    def known(self, kind: type[B], code: str, name: str) -> Stored[B]:
        """The record of `kind` called `code`."""
        return self._named(name, code, lambda: resolve_as(self.context.act, kind, code))

    def formula(self, code: str, name: str) -> Stored[Formula]:
        """The formula called `code`: as it is on record, else its template, entered."""
        context = self.context
        return self._named(
            name,
            code,
            lambda: known_formula(context.act, context.folder, code, context.chemicals.substances),
        )

    def look_for(self, kind: type[Body], code: str | None, name: str) -> None:
        """Note it when a record that the item names is missing, and go on."""
        if code is not None:
            with suppress(Skipped):
                self.known(kind, code, name)

    def print(self, text: str, name: str, edition: str = "") -> Stored[Print]:
        """The print that `text` names, in `edition` where that is given apart."""
        whole = f"{edition} {text}".strip()
        return self._named(name, whole, lambda: resolve_print(self.context.act, text, edition))

    def look_for_print(self, text: str, name: str) -> None:
        """Note it when a print that the item names is missing, and go on."""
        with suppress(Skipped):
            self.print(text, name)

    def _named(self, name: str, called: str, find: Callable[[], T]) -> T:
        try:
            return find()
        except Refused as error:
            names = {called.casefold(), called.casefold().partition(" ")[0]}
            if not names & self.context.failed:
                problem = error.problems[0]
                what = f"{problem.what}: {called}" if problem.record else problem.what
                self.note(Refused(replace(problem, record="", field=name, what=what)))
            else:
                self._sound = False
            raise Skipped from error

    def follow(self, inner: "Item") -> None:
        """Count what was refused in a part of this item as refused here."""
        self._sound = self._sound and inner.sound

    @property
    def sound(self) -> bool:
        """Whether nothing in the item was refused so far."""
        return self._sound

    def check(self) -> None:
        """Go no further with this item when something in it was refused."""
        if not self._sound:
            raise Skipped

    def enter(self, body: Body, line: str) -> int:
        """Enter `body`, and keep `line` for the person to read."""
        record = self.context.act.enter(body)
        self.context.entered.append(line)
        return record
