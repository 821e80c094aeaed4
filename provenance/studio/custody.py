"""What becomes of prints: custody events with the people and terms behind them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from msgspec.structs import replace

from provenance.craft.custody import Move, Whereabouts, in_order, whereabouts
from provenance.craft.provenance_line import Holder, provenance_line
from provenance.errors import Problem, Refused
from provenance.model.custody import CustodyEvent, CustodyKind
from provenance.model.evidence import Source
from provenance.model.finish import Condition, Finish, Occasion
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.private import Contacts
from provenance.records.private_pages import KEY, Standing, tidy
from provenance.records.reader import Reader, Stored
from provenance.records.terms import Terms, TermsBook
from provenance.studio.folder import StudioFolder
from provenance.studio.printing import place_after

OCCASIONS: dict[CustodyKind, Occasion] = {
    "released": "released",
    "sold": "released",
    "given": "released",
    "consigned": "going out",
    "lent": "going out",
    "returned": "coming back",
    "found": "coming back",
}
"""On which occasion a condition is looked at, by what happens to the print."""
UNREAD: dict[Standing, str] = {
    "not legible": "not legible",
    "erased": "erased",
    "absent": "erased, or left out of this copy",
}
"""What is said in place of a page that cannot be read, by how it stands with it."""


@dataclass
class People:
    """The people that one piece of work names, each with one page of the contact book.

    New pages are put on disk by `keep`, once the work is to be written.
    """

    folder: StudioFolder
    keep: list[Callable[[], object]]
    _new: dict[str, str] = field(default_factory=dict)
    _book: dict[str, list[str]] | None = None

    def enter(self, *, name: str, dealer: bool = False, **other: str) -> str:
        """The key of a new page."""
        key, keep = Contacts(self.folder.path).prepare(name=name, dealer=dealer, **other)
        self.keep.append(keep)
        self._new[name.strip().casefold()] = key
        return key

    def key(self, name: str, *, field: str = "") -> str:
        """The key of the person called `name`, or of a new page for them.

        Raises Refused when more than one page has that name: give its key instead.
        """
        if new := self._new.get(name.strip().casefold()):
            return new
        if KEY.fullmatch(name.strip()):
            return name.strip()
        held = self._named(name)
        if len(held) > 1:
            raise Refused(
                Problem(
                    what=f"{len(held)} pages of the contact book bear that name",
                    field=field,
                    mend="give the key of the page that is meant; see `provenance contacts`",
                )
            )
        return held[0] if held else self.enter(name=name)

    def _named(self, name: str) -> list[str]:
        """The keys of the pages with that name; the book is opened once."""
        if self._book is None:
            self._book = {}
            for key, page in Contacts(self.folder.path).list():
                self._book.setdefault(page.name.casefold(), []).append(key)
        return self._book.get(tidy(name).casefold(), [])


def move_prints(
    act: Act,
    prints: Sequence[Stored[Print]],
    event: CustodyKind,
    on: str,
    *,
    condition: str = "",
    why: str = "",
    evidence: str = "",
    source: Source = "notes",
    **said: Any,
) -> None:
    """Record that prints changed hands, were lost, found or destroyed.

    `said` are the further fields of a CustodyEvent.  A loss, an end or a find
    is written into the print itself too: of one that was found it no longer says
    how it was lost, which its former versions do.  Raises Refused.
    """
    for held in prints:
        present = act.get(Print, held.id)
        if event in ("lost", "destroyed"):
            end: dict[str, Any] = {"existence": event, "gone_on": on, "gone_why": why}
            gone = replace(present.body, **end, gone_evidence=evidence)
            if gone != present.body:
                act.change(present.id, present.version, gone)
        elif event == "found" and present.body.existence == "lost":
            back = replace(
                present.body, existence="exists", gone_on=None, gone_why="", gone_evidence=""
            )
            act.change(present.id, present.version, back)
        act.enter(CustodyEvent(print=held.id, event=event, on=on, source=source, **said))
    if condition:
        record_condition(act, prints, OCCASIONS[event], condition, on, source)


def record_condition(
    act: Act,
    prints: Sequence[Stored[Print]],
    occasion: Occasion,
    text: str,
    on: str,
    source: Source,
) -> None:
    """Record how prints looked on an occasion.  Raises Refused."""
    ids = tuple(held.id for held in prints)
    act.enter(
        Finish(
            prints=ids,
            done_on=on,
            place=place_after(act, ids, on),
            condition=Condition(occasion=occasion, text=text),
            source=source,
        )
    )


@dataclass(frozen=True)
class Step:
    """One event with the people behind it; empty where nobody is named."""

    id: int
    event: CustodyKind
    on: str
    party: str
    giver: str
    until: str
    terms: str


@dataclass(frozen=True)
class Custody:
    """Where a print is, how it got there, and its line of provenance."""

    where: Whereabouts
    holder: str
    steps: tuple[Step, ...]
    line: str


def custody_of(reader: Reader, folder: StudioFolder, record: int, *, private: bool) -> Custody:
    """The custody of one print; nobody is named unless `private`.  Raises NotFound."""
    body = reader.get(Print, record).body
    moves = [Move(one.id, one.body) for one in reader.linked(record, CustodyEvent, "print")]
    who = _Who(folder, private=private)
    where = whereabouts(moves, opening=body.opening)
    return Custody(
        where=where,
        holder=who.name(where.holder),
        steps=tuple(
            Step(
                id=move.id,
                event=move.body.event,
                on=move.body.on,
                party=who.name(move.body.party),
                giver=who.name(move.body.giver),
                until=move.body.until or "",
                terms=who.terms(move.body.terms),
            )
            for move in in_order(moves)
        ),
        line=provenance_line(moves, who.holder, opening=body.opening),
    )


class _Who:
    """People and terms by their keys."""

    def __init__(self, folder: StudioFolder, *, private: bool) -> None:
        self._contacts, self._terms = Contacts(folder.path), TermsBook(folder.path)
        self._private = private

    def name(self, key: str | None) -> str:
        return self._named(key).name if key is not None and self._private else ""

    def holder(self, event: CustodyEvent) -> Holder:
        if event.party is not None and self._private:
            return self._named(event.party)
        if event.event == "consigned":
            return Holder("a dealer", dealer=True)
        return Holder("a private owner")

    def _named(self, key: str) -> Holder:
        standing = self._contacts.standing(key)
        if standing != "whole":
            return Holder(f"name {UNREAD[standing]}")
        page = self._contacts.get(key)
        return Holder(page.name, page.place, page.life, page.dealer)

    def terms(self, key: str | None) -> str:
        if key is None or not self._private:
            return ""
        standing = self._terms.standing(key)
        return self._terms.get(key).said if standing == "whole" else f"terms {UNREAD[standing]}"


def terms_key(folder: StudioFolder, keep: list[Callable[[], object]], **said: str) -> str | None:
    """The key of a page with these terms, put on disk by `keep`; None where nothing is said."""
    terms = Terms(**said)
    if terms == Terms():
        return None
    key, write = TermsBook(folder.path).prepare(terms)
    keep.append(write)
    return key
