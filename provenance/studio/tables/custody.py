"""A table of moves: which print went where, or came back, a move a row.

Names, prices and places go into pages beside the register, never into it.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Literal

from provenance.errors import Problem, Refused
from provenance.model.custody import CustodyEvent, CustodyKind
from provenance.model.evidence import Source
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.private import KEY
from provenance.records.progress import Progress
from provenance.records.reader import Stored
from provenance.records.terms import Terms, TermsBook
from provenance.studio.custody import People, move_prints
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import Rows
from provenance.studio.references import resolve_print
from provenance.studio.tables.answered import Answered
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.mapping import Fields, Mapped
from provenance.studio.tables.moved import ENDS, OF_AN_END, OF_AN_EVENT, TERMS, Moved
from provenance.studio.tables.ordering import by_day, span
from provenance.studio.tables.pages import KnownPages
from provenance.studio.tables.price import read_price
from provenance.studio.tables.row import Other, Row, Took, cell_at, on_record_otherwise
from provenance.studio.tables.spoilt import is_a_date, not_a_number

Rights = Literal["stay", "pass"]
_EVERY = 50
FIELDS = Fields(
    alike={
        "print": "",
        "print_id": "",
        "event": "what",
        "on": "date",
        "party": "to buyer",
        "giver": "from",
        "until": "",
        **dict.fromkeys(TERMS, ""),
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
        self._pages = KnownPages(folder)
        self._moved = Moved(act, self._pages)
        self._answered = Answered()
        self._entered: list[tuple[Row, Stored[CustodyEvent]]] = []
        self._ended: dict[int, Row] = {}
        """Of each print the last row that says how it went."""
        self._moves: dict[int, list[Stored[CustodyEvent]]] = {}
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
            # a row that names no print is refused wherever it stands
            if name := cell_at(cells, print_):
                groups.setdefault(name, []).append(place)
        arranged = list(rows)
        for places in groups.values():
            spans = [span(cell_at(rows[at][1], on)) for at in places]
            for place, which in zip(places, by_day(spans), strict=True):
                arranged[place] = rows[places[which]]
        return arranged

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        held = row.read("print", self._print)
        event: CustodyKind = row.choice("event", CustodyKind)
        row.date("on")
        there = self._linked(held.id)
        alike = [one for one in there if one.body.event == event]
        if (same := self._moved.find(row, self._answered.left(alike))) is not None:
            _fits(row, event)
            self._moved.compare(row, same, held)
            self._answered.note(row, same)
            return "on record already"
        again = self._moved.find(row, self._answered.spoken_of(alike))
        if again is not None and self._answered.is_last(again):
            _fits(row, event)
            self._moved.compare(row, again, held)
            raise self._answered.repeated(row, again)
        try:
            _fits(row, event)
            self._enter(row, held, event)
        except Refused as error:
            if (told := self._because(row, held, event, again, error)) is not None:
                raise told from error
            raise
        made = self._act.get(CustodyEvent, self._act.head()[0])
        there.append(made)
        self._answered.note(row, made)
        self._entered.append((row, made))
        return "entered"

    def _because(
        self,
        row: Row,
        held: Stored[Print],
        event: CustodyKind,
        again: Stored[CustodyEvent] | None,
        error: Refused,
    ) -> Refused | None:
        """Why a row cannot be, told by what is on record; None where that does not tell."""
        about = {problem.field for problem in error.problems}
        # a print cannot make a move most often since it has made it
        cannot = "event" in about
        if cannot and again is not None:
            self._moved.compare(row, again, held)
            return self._answered.repeated(row, again)
        there = self._linked(held.id)
        if about & OF_AN_EVENT:
            other = self._moved.other_event(row, event, self._answered.left(there))
            if other is not None:
                return other
        alike = [one for one in there if one.body.event == event]
        return self._moved.nearly(row, alike) if cannot else None

    def _linked(self, print_: int) -> list[Stored[CustodyEvent]]:
        """The moves of a print, read once; those of the table are added as they are entered."""
        if print_ not in self._moves:
            self._moves[print_] = list(self._act.linked(print_, CustodyEvent, "print"))
        return self._moves[print_]

    def _print(self, text: str) -> Stored[Print]:
        try:
            return resolve_print(self._act, text)
        except Refused as error:
            if is_a_date(text.partition(" ")[2]):
                raise not_a_number(text, error) from error
            raise

    def _enter(self, row: Row, held: Stored[Print], event: CustodyKind) -> None:
        was = self._before.setdefault(held.id, held.body)
        same_end = (was.existence, was.gone_on) == (event, row.get("on"))
        said = {field: row.get(field) for field in OF_AN_END}
        for field, text in said.items():
            stands = getattr(was, f"gone_{field}") if same_end else ""
            if text and stands and text != stands:
                other = [Other(field, stands, text)]
                raise on_record_otherwise(self._act, row, row.get("print"), held.id, other)
            said[field] = text or stands
        if event in ENDS:
            self._ended[held.id] = row
        move_prints(
            self._act,
            [held],
            event,
            row.get("on"),
            **said,
            source=row.choice("source", Source) if row.get("source") else self._source,
            party=self._person(row, "party"),
            giver=self._person(row, "giver"),
            until=row.date("until") if row.get("until") else None,
            terms=self._terms_of(row),
            rights=row.choice("rights", Rights) if row.get("rights") else None,
        )

    def close(self) -> None:
        """Refuse an end that would take the place of another one on record.

        Warn of moves entered beside others that the table does not have.
        """
        for row, made in self._entered:
            there = [one for one in self._linked(made.body.print) if one.id < self._act.number]
            self._moved.warn_of_another(row, made, self._answered.left(there))
        for record, row in self._ended.items():
            was = self._before[record]
            # once the end on record is among the moves, others may come before and after it
            moves = self._linked(record)
            ends = {("exists", None), *((one.body.event, one.body.on) for one in moves)}
            if (was.existence, was.gone_on) in ends:
                continue
            field = "on" if was.existence == row.get("event").lower() else "event"
            stands = f"{was.gone_on}" if field == "on" else f"{was.existence}"
            other = [Other(field, stands, row.get(field))]
            told = on_record_otherwise(self._act, row, row.get("print"), record, other)
            raise Refused(*(replace(one, line=row.line) for one in told.problems))

    def _terms_of(self, row: Row) -> str | None:
        """The key of a page of terms; a new one is put on disk once all rows are sound."""
        said = Terms(**{name: row.get(name) for name in TERMS})
        if said == Terms():
            return row.get("terms") or None
        if said.price:
            row.read("price", read_price)
        terms, keep = TermsBook(self._folder.path).prepare(said)
        self._pages.note_terms(terms, said)
        self._keep.append(keep)
        return terms

    def finish(self, progress: Progress | None) -> None:
        """Put the pages of persons and terms on disk: all of them, or none."""

        def told(done: int) -> None:
            if progress and (done % _EVERY == 0 or done == len(self._keep)):
                progress("pages", done, len(self._keep))

        self._act.keep(self._keep, told)

    def _person(self, row: Row, field: str) -> str | None:
        name = row.get(field)
        if not name:
            return None
        if name not in self._keys:
            self._keys[name] = self._people.key(name, field=field)
            self._pages.note(self._keys[name], name)
        return self._keys[name]


def _fits(row: Row, event: CustodyKind) -> None:
    """Refuse what has no place where it is said.  Raises Refused."""
    if row.get("print").startswith("#") and row.get("print_id"):
        raise Refused(
            Problem(
                "the print is named by the id that it had elsewhere",
                field="print",
                mend="name it by its edition and number, or by its mark",
            )
        )
    for field in OF_AN_END:
        if row.get(field) and event not in ENDS:
            raise Refused(
                Problem(
                    f"is kept of a print that was lost or destroyed, not of one that was {event}",
                    field=field,
                    mend="put it into note, which is kept with the price and the place",
                )
            )
    if not row.get("terms"):
        return
    if not KEY.fullmatch(row.get("terms")):
        raise Refused(
            Problem(
                "is not the key of a page of terms",
                field="terms",
                mend=f"say what was agreed in {', '.join(TERMS)}",
            )
        )
    if said := [field for field in TERMS if row.get(field)]:
        raise Refused(
            Problem("stands beside the key of a page of terms", "", said[0], "leave one out")
        )
