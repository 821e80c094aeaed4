"""Holds a row of a table of moves against the moves of its print that are on record."""

from collections.abc import Iterator
from dataclasses import replace

from provenance.errors import Problem, Refused
from provenance.model.custody import OUT, OWNED, CustodyEvent, CustodyKind
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.private import tidy
from provenance.records.reader import Stored
from provenance.studio.tables.pages import KnownPages
from provenance.studio.tables.row import Other, Row, on_record_otherwise

TERMS = ("price", "place", "conditions", "note")
"""What goes into a page of terms, a column each."""
ENDS: frozenset[CustodyKind] = frozenset({"lost", "destroyed"})
OF_AN_END = ("why", "evidence")
"""What is written into the print itself, while it is gone."""
OF_AN_EVENT = frozenset({"event", "until", "party", "giver", "rights", *OF_AN_END})
"""Where the door refuses what another event would allow."""
_ERASED = "was erased, is missing or was altered"

Moves = list[Stored[CustodyEvent]]


class Moved:
    """Compares rows with moves."""

    def __init__(self, act: Act, pages: KnownPages) -> None:
        self._act = act
        self._pages = pages

    def find(self, row: Row, moves: Moves) -> Stored[CustodyEvent] | None:
        """Of moves of the row's kind, the one of its day and person; of who may be, the first."""
        there = [one for one in moves if one.body.on == row.get("on")]
        agreed = [self._pages.agrees(one.body.party, row.get("party")) for one in there]
        for wanted in ("same", "silent", "cannot be told"):
            if wanted in agreed:
                return there[agreed.index(wanted)]
        return None

    def compare(self, row: Row, held: Stored[CustodyEvent], print_: Stored[Print]) -> None:
        """Warn of what cannot be compared.

        Raises Refused where the row says more or else than the move.
        """
        others = [
            *self._of_the_move(row, held.body),
            *self._of_persons(row, held.body),
            *self._of_terms(row, held.body),
            *self._of_the_end(row, held.body, print_),
        ]
        if others:
            raise on_record_otherwise(self._act, row, row.get("print"), held.id, others)

    def nearly(self, row: Row, moves: Moves) -> Refused | None:
        """What to tell of a row that one cell alone tells from a move of its kind.

        Of a print that was sold to another, or on another day, no return is missing.
        """
        for one in moves:
            body = one.body
            if body.on == row.get("on"):
                other = Other("party", self._pages.name(body.party), row.get("party"))
            elif self._pages.agrees(body.party, row.get("party")) in ("same", "cannot be told"):
                other = Other("on", body.on, row.get("on"))
            else:
                continue
            told = on_record_otherwise(self._act, row, row.get("print"), one.id, [other])
            return _or_again(told) if body.event in OUT else told
        return None

    def other_event(self, row: Row, event: CustodyKind, moves: Moves) -> Refused | None:
        """What to tell of a row whose event alone tells it from a move on record."""
        for one in self._of_the_day(row, event, moves):
            other = [Other("event", one.body.event, event)]
            told = on_record_otherwise(self._act, row, row.get("print"), one.id, other)
            return _or_again(told) if one.body.event in OUT else told
        return None

    def warn_of_another(self, row: Row, made: Stored[CustodyEvent], moves: Moves) -> None:
        """Warn of a move on record that the row may have meant, with another event."""
        for one in self._of_the_day(row, made.body.event, moves):
            if {one.body.event, made.body.event} <= OUT | OWNED:
                self._act.warnings.append(
                    Problem(
                        f"another move of that day, with the same person, is on record"
                        f" (#{one.id}): {one.body.event} there, {made.body.event} here;"
                        " this one is entered beside it",
                        row.get("print"),
                        "event",
                        "if it is the same move, take this import back (`provenance undo`)",
                        row.line,
                    )
                )

    def _of_the_day(self, row: Row, event: CustodyKind, moves: Moves) -> Moves:
        """Moves with another event, of the row's day and person."""
        return [
            one
            for one in moves
            if (one.body.on, one.body.event != event) == (row.get("on"), True)
            and self._pages.agrees(one.body.party, row.get("party")) in ("same", "cannot be told")
        ]

    def _of_the_move(self, row: Row, body: CustodyEvent) -> Iterator[Other]:
        for field in ("until", "rights", "source", "terms"):
            stands = getattr(body, field) or ""
            text = row.get(field) if field == "until" else row.get(field).lower()
            if text and text != stands:
                yield Other(field, stands, text)

    def _of_persons(self, row: Row, body: CustodyEvent) -> Iterator[Other]:
        for field in ("party", "giver"):
            key = getattr(body, field)
            agrees = self._pages.agrees(key, row.get(field))
            if agrees == "other":
                yield Other(field, self._pages.name(key), row.get(field))
            elif agrees == "cannot be told":
                self._warn(row, field, f"the page of that person {_ERASED}")

    def _of_terms(self, row: Row, body: CustodyEvent) -> Iterator[Other]:
        for field in TERMS:
            text = row.get(field)
            terms = self._pages.terms(body.terms) if text else None
            if text and terms is None:
                self._warn(row, field, f"its page of terms {_ERASED}")
            elif terms is not None and tidy(text) != getattr(terms, field):
                yield Other(field, getattr(terms, field), text)

    def _of_the_end(self, row: Row, body: CustodyEvent, print_: Stored[Print]) -> Iterator[Other]:
        said = [field for field in OF_AN_END if row.get(field)]
        gone = self._as_it_went(print_, body) if said else None
        for field in said:
            if gone is None:
                self._warn(row, field, "no version of the print says that it was gone then")
            elif row.get(field) != (stands := getattr(gone, f"gone_{field}")):
                yield Other(field, stands, row.get(field))

    def _as_it_went(self, print_: Stored[Print], body: CustodyEvent) -> Print | None:
        """The print as an end left it: as it stands, or a former version of one found again."""
        versions = [one.body for one in self._act.versions(print_.id)]
        for one in (print_.body, *reversed(versions)):
            if isinstance(one, Print) and (one.existence, one.gone_on) == (body.event, body.on):
                return one
        return None

    def _warn(self, row: Row, field: str, why: str) -> None:
        self._act.warnings.append(
            Problem(
                f"cannot be compared with what is on record: {why}",
                row.get("print"),
                field,
                "nothing was entered of this row",
            )
        )


def _or_again(told: Refused) -> Refused:
    """The refusal with what to do where the print was away, and went out a second time."""
    again = "; if it went out again, bring in first that it came back"
    return Refused(*(replace(one, mend=one.mend + again) for one in told.problems))
