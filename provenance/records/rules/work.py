"""Rules for the work itself: printings and steps."""

from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.dates import earliest, latest
from provenance.model.finish import Finish
from provenance.model.negative import Negative
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.proof import Test
from provenance.records.rules.case import Case, before

_LONGEST_STEP_MS = 7 * 24 * 3_600_000
_COLDEST_TENTH_C, _HOTTEST_TENTH_C = 0, 600


def printing(case: Case[Printing]) -> Iterator[Problem]:
    """A printing has a date that is past, and not earlier than its negative."""
    body = case.body
    dated = list(case.edtf("done_on", body.done_on))
    yield from dated
    made = case.act.get(Negative, body.negative).body.made
    if not dated and made is not None and before(body.done_on, made):
        yield case.problem(
            f"printed on {body.done_on} from a negative made {made}", "done_on", "check both dates"
        )
    if not dated and case.record is not None:
        yield from _sheets_agree(case, case.record)


def _sheets_agree(case: Case[Printing], record: int) -> Iterator[Problem]:
    """What is on record about the sheets lies after the printing, and is of its negative."""
    sheets = case.act.linked(record, Print, "printing")
    if sheets and case.before is not None and case.before.negative != case.body.negative:
        yield case.problem(
            f"sheet {sheets[0].body.mark} is of an edition of another negative",
            "negative",
            "enter a printing of its own for the other negative",
        )
    for sheet in sheets:
        signed = sheet.body.signature
        later = [(date, sheet.id) for date in (signed and signed.on, sheet.body.gone_on) if date]
        later += [(s.body.done_on, s.id) for s in case.act.linked(sheet.id, Step, "sheets")]
        later += [(t.body.done_on, t.id) for t in case.act.linked(sheet.id, Test, "covers")]
        later += [(f.body.done_on, f.id) for f in case.act.linked(sheet.id, Finish, "prints")]
        later += [(e.body.on, e.id) for e in case.act.linked(sheet.id, CustodyEvent, "print")]
        for date, other in later:
            if before(date, case.body.done_on):
                yield case.problem(
                    f"#{other} has {date} for sheet {sheet.body.mark}, before it was printed",
                    "done_on",
                    "check both dates",
                )
                return


def sheets_met(
    case: Case[Step] | Case[Test] | Case[Finish], field: str, sheets: tuple[int, ...]
) -> Iterator[Problem]:
    """Problems of the sheets that work was done on: none, doubled, not there on that day."""
    if not sheets:
        yield case.problem("names no sheets", field, "say which")
    if len(set(sheets)) != len(sheets):
        yield case.problem("names a sheet twice", field, "name each once")
    if list(case.edtf("done_on", case.body.done_on)):
        yield from case.edtf("done_on", case.body.done_on)
        return
    for sheet in sheets:
        held = case.act.get(Print, sheet).body
        made_on = case.act.get(Printing, held.printing).body.done_on
        if before(case.body.done_on, made_on):
            yield case.problem(
                f"{case.body.done_on} lies before sheet {held.mark} was printed on {made_on}",
                "done_on",
                "check both dates",
            )
        if held.gone_on is not None and before(held.gone_on, case.body.done_on):
            yield case.problem(
                f"sheet {held.mark} was {held.existence} on {held.gone_on}",
                field,
                "check the dates, or leave the sheet out",
            )


def step(case: Case[Step]) -> Iterator[Problem]:
    """A step concerns sheets that exist, in a bath of its own kind that is in use."""
    body = case.body
    yield from sheets_met(case, "sheets", body.sheets)
    strangers = {own.sheet for own in body.own} - set(body.sheets)
    if strangers:
        yield case.problem(
            f"gives an own time to #{min(strangers)}, which is not in the step", "own", "check it"
        )
    for duration in (body.duration_ms, *(own.duration_ms for own in body.own)):
        if duration is not None and not 0 < duration <= _LONGEST_STEP_MS:
            yield case.problem("the time is not between 1 ms and 7 days", "time", "check it")
    warmth = body.temperature_tenth_c
    if warmth is not None and not _COLDEST_TENTH_C <= warmth <= _HOTTEST_TENTH_C:
        yield case.problem("the temperature is not between 0 and 60 °C", "temperature", "check it")
    if body.bath is not None:
        yield from _bath_serves(case, case.act.get(Bath, body.bath).body)


def _bath_serves(case: Case[Step], bath: Bath) -> Iterator[Problem]:
    if bath.role != case.body.role:
        yield case.problem(
            f"bath {bath.code} is for {bath.role}, the step is {case.body.role}",
            "bath",
            "name a bath of that kind",
        )
    if bath.retired_on is not None and before(bath.retired_on, case.body.done_on):
        yield case.problem(
            f"bath {bath.code} was retired on {bath.retired_on}", "bath", "name the bath in use"
        )
    if bath.made_on is not None and before(case.body.done_on, bath.made_on):
        yield case.problem(
            f"bath {bath.code} was made on {bath.made_on}, after the step", "bath", "check both"
        )


def step_cautions(case: Case[Step]) -> Iterator[Problem]:
    """A bath for one use that sheets had gone through before, on another day or of another work."""
    body = case.body
    if body.bath is None:
        return
    bath = case.act.get(Bath, body.bath).body
    if not bath.one_shot:
        return
    for other in case.act.linked(body.bath, Step, "bath"):
        if other.id == case.record:
            continue
        earlier = case.record is None or other.id < case.record
        if before(other.body.done_on, body.done_on) or (earlier and _apart(case, other.body)):
            yield case.problem(
                f"bath {bath.code} is for one use, and was used on {other.body.done_on}"
                f" (step #{other.id})",
                "bath",
                "mix a fresh one; if it was one, give it a code of its own",
            )
            return


def _apart(case: Case[Step], other: Step) -> bool:
    """Whether the sheets of `other` were of another printing, or were washed before this."""
    if set(other.sheets) & set(case.body.sheets):
        return False
    printings = [
        {case.act.get(Print, sheet).body.printing for sheet in sheets}
        for sheets in (case.body.sheets, other.sheets)
    ]
    return not printings[0] & printings[1] or all(
        _washed_after(case, other, sheet) for sheet in other.sheets
    )


def _washed_after(case: Case[Step], other: Step, sheet: int) -> bool:
    return any(
        wash.body.role == "wash"
        and wash.id != case.record
        and (case.record is None or wash.id < case.record)
        and wash.body.done_on == other.done_on
        and wash.body.place > other.place
        for wash in case.act.linked(sheet, Step, "sheets")
    )


def exact_day(text: str) -> bool:
    """Whether an EDTF date names one day."""
    return earliest(text) == latest(text)
