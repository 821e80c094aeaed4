"""Rules for a print's way out and back."""

from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.custody import CustodyEvent
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.rules.case import Case, before


def custody(case: Case[CustodyEvent]) -> Iterator[Problem]:
    """A print leaves the studio only when it is there, and comes back only from outside."""
    body = case.body
    dated = list(case.edtf("on", body.on))
    yield from dated
    if dated:
        return
    held = case.act.get(Print, body.print).body
    made_on = case.act.get(Printing, held.printing).body.done_on
    if before(body.on, made_on):
        yield case.problem(f"{body.on} lies before it was printed on {made_on}", "on", "check both")
    if held.existence != "exists":
        yield case.problem(f"the print is {held.existence}", "print", "check the record")
    earlier = [
        event.body
        for event in case.act.linked(body.print, CustodyEvent, "print")
        if event.id != case.record and (case.record is None or event.id < case.record)
    ]
    away = bool(earlier) and earlier[-1].event == "released"
    if body.event == "released" and away:
        yield case.problem(f"it left the studio on {earlier[-1].on} already", "event", "check it")
    if body.event == "returned" and not away:
        yield case.problem("it has not left the studio", "event", "record its release first")
    if earlier and before(body.on, earlier[-1].on):
        yield case.problem(
            f"{body.on} lies before its last move on {earlier[-1].on}", "on", "check both dates"
        )
