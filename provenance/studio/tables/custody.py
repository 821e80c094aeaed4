"""A table of moves: which print went where, or came back, a move a row.

Names, prices and places go into pages beside the register, never into it.
"""

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import Literal

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.model.custody import CustodyEvent, CustodyKind
from provenance.model.evidence import Source
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.private import KEY, Contacts
from provenance.records.progress import Progress
from provenance.records.rules.case import before
from provenance.records.terms import Terms, TermsBook
from provenance.studio.custody import People, move_prints
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import Rows
from provenance.studio.references import resolve_print
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.mapping import Fields, Mapped
from provenance.studio.tables.row import Row, Took, on_record_otherwise

Rights = Literal["stay", "pass"]
_EVERY = 50
_TERMS = ("price", "place", "conditions")
FIELDS = Fields(
    alike={
        "print": "",
        "print_id": "",
        "event": "what",
        "on": "date",
        "party": "to buyer",
        "giver": "from",
        "until": "",
        **dict.fromkeys(_TERMS, ""),
        "terms": "",
        "rights": "",
        "why": "",
        "evidence": "",
        "source": "",
    },
    needed=("print", "event", "on"),
)


class Moves(Entering):
    """Enters moves."""

    def __init__(self, act: Act, folder: StudioFolder, source: Source) -> None:
        self._act = act
        self._folder = folder
        self._source = source
        self._keep: list[Callable[[], object]] = []
        self._people = People(folder, self._keep)
        self._terms: list[str] = []
        self._keys: dict[str, str] = {}
        self._before: dict[int, Print] = {}
        """Prints as they were before the table told how they went."""

    def arrange(self, rows: Rows, mapped: Mapped) -> Rows:
        """The moves of each print in the order of their days, whichever way a list runs."""
        print_, on = mapped.place("print"), mapped.place("on")
        if print_ is None or on is None:
            return rows
        groups: dict[str, list[int]] = {}
        for place, (_, cells) in enumerate(rows):
            groups.setdefault(cells[print_] if print_ < len(cells) else "", []).append(place)
        arranged = list(rows)
        for places in groups.values():
            for place, row in zip(places, _by_day([rows[at] for at in places], on), strict=True):
                arranged[place] = row
        return arranged

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        held = row.read("print", lambda text: resolve_print(self._act, text))
        event: CustodyKind = row.choice("event", CustodyKind)
        on = row.date("on")
        for move in self._act.linked(held.id, CustodyEvent, "print"):
            body = move.body
            if (body.event, body.on) == (event, on) and self._names(body.party, row.get("party")):
                self._same(row.get("print"), row, body)
                return "on record already"
        if row.get("print").startswith("#") and row.get("print_id"):
            raise Refused(
                Problem(
                    "the print is named by the id that it had elsewhere",
                    field="print",
                    mend="name it by its edition and number, or by its mark",
                )
            )
        terms = row.get("terms") if KEY.fullmatch(row.get("terms")) else None
        said = Terms(**{name: row.get(name) for name in _TERMS})
        if said != Terms():
            terms, keep = TermsBook(self._folder.path).prepare(said)
            self._keep.append(keep)
            self._terms.append(terms)
        was = self._before.setdefault(held.id, held.body)
        same_end = (was.existence, was.gone_on) == (event, on)
        move_prints(
            self._act,
            [held],
            event,
            on,
            why=row.get("why") or (was.gone_why if same_end else ""),
            evidence=row.get("evidence") or (was.gone_evidence if same_end else ""),
            source=row.choice("source", Source) if row.get("source") else self._source,
            party=self._person(row, "party"),
            giver=self._person(row, "giver"),
            until=row.date("until") if row.get("until") else None,
            terms=terms,
            rights=row.choice("rights", Rights) if row.get("rights") else None,
        )
        return "entered"

    def finish(self, progress: Progress | None) -> None:
        """Put the pages of persons and terms on disk: all of them, or none."""
        try:
            for done, keep in enumerate(self._keep, start=1):
                keep()
                if progress and (done % _EVERY == 0 or done == len(self._keep)):
                    progress("pages", done, len(self._keep))
        except BaseException:
            # nobody is to stay in the book for moves that are not on record
            for key in self._people.new:
                with suppress(NotFound):
                    Contacts(self._folder.path).erase(key)
            for key in self._terms:
                TermsBook(self._folder.path).erase(key)
            raise

    def _same(self, name: str, row: Row, held: CustodyEvent) -> None:
        """Raise Refused where the row says more or else than the move that is on record."""
        other = [
            field
            for field in ("until", "rights")
            if row.get(field) not in ("", getattr(held, field))
        ]
        if row.get("giver") and not self._names(held.giver, row.get("giver")):
            other.append("giver")
        if other:
            raise on_record_otherwise(name, other)

    def _person(self, row: Row, field: str) -> str | None:
        name = row.get(field)
        if not name:
            return None
        if name not in self._keys:
            self._keys[name] = self._people.key(name, field=field)
        return self._keys[name]

    def _names(self, key: str | None, text: str) -> bool:
        """Whether the page with that key is of the person called `text`."""
        if key is None or not text or key == text:
            return (key or "") == text
        try:
            return Contacts(self._folder.path).get(key).name.casefold() == text.casefold()
        except NotFound:
            # the page was erased: who it was cannot be told any more
            return True
        except Damaged:
            return False


def _by_day(rows: Rows, on: int) -> Rows:
    """Rows by their days; where dates overlap, as they came."""
    ordered: Rows = []
    for row in rows:
        place = len(ordered)
        while place and _ends_before(row, ordered[place - 1], on):
            place -= 1
        ordered.insert(place, row)
    return ordered


def _ends_before(row: tuple[int, Sequence[str]], other: tuple[int, Sequence[str]], on: int) -> bool:
    try:
        return before(row[1][on], other[1][on])
    except (Refused, IndexError):
        # what is no date is told when its row is taken
        return False
