"""Recording work: a printing with its new sheets, and what sheets went through."""

from collections.abc import Sequence
from dataclasses import dataclass

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.dates import earliest
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.proof import Test
from provenance.model.quantities import Size
from provenance.records.act import Act
from provenance.records.reader import Reader, Stored

Work = Step | Test


@dataclass(frozen=True)
class Written:
    """A step or test as it was written down: `after` names the planned step before it."""

    work: Work
    name: str = ""
    after: str = ""


def record_printing(
    act: Act,
    edition: Stored[Edition],
    printing: Printing,
    marks: Sequence[str],
    *,
    image: Size | None = None,
    sheet: Size | None = None,
) -> list[int]:
    """Enter a printing and one print for each pencil mark; returns the prints' ids.

    The sizes are the edition's unless given.
    """
    held = act.enter(printing)
    return [
        act.enter(
            Print(
                edition=edition.id,
                printing=held,
                mark=mark,
                image=image or edition.body.image,
                sheet=sheet or edition.body.sheet,
                source=printing.source,
            )
        )
        for mark in marks
    ]


def record_work(act: Act, work: Sequence[Work]) -> list[int]:
    """Enter steps and tests in the order in which they were done; returns their ids.

    They are placed after whatever the same sheets went through on the same day.
    """
    entered: list[int] = []
    places: dict[str, int] = {}
    for one in work:
        if one.done_on not in places:
            places[one.done_on] = _last_place(act, work, one.done_on)
        places[one.done_on] += 1
        entered.append(act.enter(msgspec.structs.replace(one, place=places[one.done_on])))
    return entered


def _last_place(reader: Reader, work: Sequence[Work], done_on: str) -> int:
    sheets = {sheet for one in work for sheet in _sheets(one)}
    day = earliest(done_on)
    held: list[Work] = []
    for sheet in sheets:
        held += [stored.body for stored in reader.linked(sheet, Step, "sheets")]
        held += [stored.body for stored in reader.linked(sheet, Test, "covers")]
    return max((one.place for one in held if earliest(one.done_on) == day), default=0)


def _sheets(work: Work) -> tuple[int, ...]:
    return work.sheets if isinstance(work, Step) else work.covers


def follow_plan(
    plan: ProcessSheet,
    written: Sequence[Written],
    *,
    sheets: tuple[int, ...],
    done_on: str,
    source: Source,
    baths: dict[str, int],
) -> list[Work]:
    """The whole plan as it was carried out: only exceptions and tests are `written`.

    Planned baths take their aim for the time; a test is never assumed.  A
    written step takes the place of the planned one it names, or of the only one
    of its kind, or stands after the one it says.  Raises Refused when its place
    cannot be told.
    """
    rest = list(written)
    order: list[Work] = []
    for planned in plan.steps:
        own = _take(rest, planned, plan)
        if own is not None:
            order.append(_named(own, planned.name, baths))
        elif planned.role is not None:
            order.append(
                Step(
                    role=planned.role,
                    name=planned.name,
                    sheets=sheets,
                    bath=baths.get(planned.name),
                    agent=planned.agent,
                    done_on=done_on,
                    place=0,
                    duration_ms=planned.aim.time_ms if planned.aim else None,
                    temperature_tenth_c=planned.temperature_tenth_c,
                    source=source,
                )
            )
        for follower in [one for one in rest if one.after == planned.name]:
            rest.remove(follower)
            order.append(follower.work)
    if rest:
        names = ", ".join(step.name for step in plan.steps)
        raise Refused(
            *(
                Problem(
                    what=f"the plan has no single place for {_what(one)}",
                    field="name" if one.name else "after",
                    mend=f"name the planned step it was, or after which it came: {names}",
                )
                for one in rest
            )
        )
    return order


def _what(written: Written) -> str:
    if written.name or written.after:
        return repr(written.name or written.after)
    work = written.work
    return work.role if isinstance(work, Step) else f"the {work.question} test"


def _take(rest: list[Written], planned: PlannedStep, plan: ProcessSheet) -> Written | None:
    for one in rest:
        if one.after:
            continue
        if one.name:
            meant = one.name == planned.name
        elif isinstance(one.work, Step):
            alike = [step for step in plan.steps if step.role == one.work.role]
            meant = alike == [planned]
        else:
            meant = planned.test == one.work.question
        if meant:
            rest.remove(one)
            return one
    return None


def _named(written: Written, name: str, baths: dict[str, int]) -> Work:
    work = written.work
    if isinstance(work, Test):
        return work
    return msgspec.structs.replace(
        work, name=work.name or name, bath=work.bath if work.bath is not None else baths.get(name)
    )
