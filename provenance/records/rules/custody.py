"""Rules for where a print goes, and for what is said to come after."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from provenance.craft.custody import Break, Move, follow
from provenance.errors import Problem
from provenance.model.custody import OWNED, CustodyEvent
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.rules.case import Case, before, label
from provenance.records.rules.paperwork import SHA256

if TYPE_CHECKING:
    from provenance.records.act import Act

_ENDS = ("lost", "destroyed")


def custody(case: Case[CustodyEvent]) -> Iterator[Problem]:
    """An event fits between what was before it and what came after it."""
    body = case.body
    for field in ("party", "giver", "terms"):
        key = getattr(body, field)
        if key is not None and not SHA256.fullmatch(key):
            yield case.problem(
                "the register never holds a person",
                field,
                "enter the person in the contact book and give the key of that page",
            )
    dated = [*case.edtf("on", body.on), *case.edtf("until", body.until, ahead=True)]
    yield from dated
    if dated:
        return
    yield from _said_where_it_fits(case)
    held = case.act.get(Print, body.print).body
    name = label(case.act, body.print, held)
    made_on = case.act.get(Printing, held.printing).body.done_on
    if before(body.on, made_on):
        yield Problem(
            f"{body.on} lies before it was printed on {made_on}", name, "on", "check both"
        )
    if held.gone_on is not None and before(held.gone_on, body.on):
        yield Problem(
            f"the print was {held.existence} on {held.gone_on} (#{body.print})",
            name,
            "on",
            "check both dates",
        )
    if case.verb == "enter" and body.event in _ENDS and held.existence != body.event:
        yield Problem(
            f"the print is not on record as {body.event}", name, "event", "record what became of it"
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
    key = case.record or case.act.head()[0] + 1
    moves = {move.id: move for move in _moves(case.act, body.print)} | {key: Move(key, body)}
    broken = _break(list(moves.values()), held)
    if broken is not None:
        yield _told(broken, key, name)


def stays_whole(act: "Act", record: int, body: CustodyEvent) -> bool:
    """Whether the events of a print still follow each other without event `record`."""
    held = act.get(Print, body.print).body
    return _break([move for move in _moves(act, body.print) if move.id != record], held) is None


def _said_where_it_fits(case: Case[CustodyEvent]) -> Iterator[Problem]:
    body = case.body
    if body.until is not None and body.event not in ("lent", "consigned"):
        yield case.problem(
            f"what was {body.event} has no end", "until", "give it of a loan or a consignment"
        )
    elif body.until is not None and before(body.until, body.on):
        yield case.problem(f"{body.until} lies before {body.on}", "until", "check both dates")
    if body.party is not None and body.event in ("returned", *_ENDS):
        yield case.problem(
            f"what was {body.event} went to nobody", "party", "say from whom it came instead"
        )
    if body.giver is not None and body.event not in ("returned", *OWNED):
        yield case.problem(
            "from whom it came is said of a return, a sale or a gift", "giver", "leave it out"
        )
    if body.rights is not None and body.event not in OWNED:
        yield case.problem(
            "rights are said to stay or to pass when a print is sold or given", "rights", ""
        )


def _moves(act: "Act", print_: int) -> list[Move]:
    return [Move(event.id, event.body) for event in act.linked(print_, CustodyEvent, "print")]


def _break(moves: list[Move], held: Print) -> Break | None:
    reached = list(follow(moves, opening=held.opening))
    last = reached[-1] if reached else None
    return last if isinstance(last, Break) else None


def _told(broken: Break, key: int, name: str) -> Problem:
    move = broken.move
    if move.id == key:
        return Problem(broken.why, name, "event", broken.mend)
    # what was written earlier comes after it, and would not follow any more
    later = f"{move.body.event} of {move.body.on} (#{move.id})"
    what = f"then what is on record after it cannot be: {later}: {broken.why}"
    return Problem(what, name, "event", "correct that record first, or check this date")
