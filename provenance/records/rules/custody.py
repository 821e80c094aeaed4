"""Rules for a print's way out and back."""

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from provenance.errors import Problem
from provenance.model.custody import CustodyEvent
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.rules.case import Case, before
from provenance.records.rules.paperwork import SHA256

if TYPE_CHECKING:
    from provenance.records.act import Act


def custody(case: Case[CustodyEvent]) -> Iterator[Problem]:
    """A print leaves the studio only when it is there, and comes back only from outside."""
    body = case.body
    if body.party is not None and not SHA256.fullmatch(body.party):
        yield case.problem(
            "the register never holds a person",
            "party",
            "enter the person in the contact book and give the key of that page",
        )
    dated = list(case.edtf("on", body.on))
    yield from dated
    if dated:
        return
    held = case.act.get(Print, body.print).body
    made_on = case.act.get(Printing, held.printing).body.done_on
    if before(body.on, made_on):
        yield case.problem(f"{body.on} lies before it was printed on {made_on}", "on", "check both")
    if held.gone_on is not None and before(held.gone_on, body.on):
        yield case.problem(
            f"the print was {held.existence} on {held.gone_on}", "on", "check both dates"
        )
    former = case.before
    if (
        former is not None
        and case.record is not None
        and former.print != body.print
        and not stays_whole(case.act, case.record, former)
    ):
        yield case.problem(
            "a later move of the other print rests on it", "print", "retire that move first"
        )
    moves = dict(_moves(case.act, body.print))
    key = case.record or case.act.head()[0] + 1
    yield from _sequence(case, [move for _, move in sorted({**moves, key: body}.items())])


def stays_whole(act: "Act", record: int, body: CustodyEvent) -> bool:
    """Whether the moves of a print still follow each other without event `record`."""
    rest = [move for other, move in _moves(act, body.print) if other != record]
    return not list(_breaks(rest))


def _moves(act: "Act", print_: int) -> list[tuple[int, CustodyEvent]]:
    return [(event.id, event.body) for event in act.linked(print_, CustodyEvent, "print")]


def _breaks(moves: list[CustodyEvent]) -> Iterator[tuple[CustodyEvent | None, CustodyEvent]]:
    """Neighbours that do not fit: out twice, back twice, or back before out."""
    if moves and moves[0].event == "returned":
        yield None, moves[0]
    for earlier, later in pairwise(moves):
        if earlier.event == later.event or before(later.on, earlier.on):
            yield earlier, later


def _sequence(case: Case[CustodyEvent], moves: list[CustodyEvent]) -> Iterator[Problem]:
    for earlier, later in _breaks(moves):
        if earlier is None:
            yield case.problem("it has not left the studio", "event", "record its release first")
        elif before(later.on, earlier.on):
            yield case.problem(
                f"{later.on} lies before its last move on {earlier.on}", "on", "check both dates"
            )
        elif later.event == "released":
            yield case.problem(
                f"it left the studio on {earlier.on} already", "event", "record its return first"
            )
        else:
            yield case.problem(
                f"it came back on {earlier.on} already", "event", "record its release first"
            )
