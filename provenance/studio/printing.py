"""Recording work: a printing with its new sheets, and what sheets went through."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

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
    origin: int | None = None
    """Which of the steps that were written down it is; None when the plan alone says it."""


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


def placed(reader: Reader, work: Sequence[Work]) -> list[Work]:
    """`work` in the order in which it was done, ready to be entered.

    Each is placed after whatever the same sheets went through on the same day.
    """
    places: dict[str, int] = {}
    found: list[Work] = []
    for one in work:
        if one.done_on not in places:
            places[one.done_on] = _last_place(reader, work, one.done_on)
        places[one.done_on] += 1
        found.append(msgspec.structs.replace(one, place=places[one.done_on]))
    return found


def _last_place(reader: Reader, work: Sequence[Work], done_on: str) -> int:
    return _place_of_last(reader, {sheet for one in work for sheet in _sheets(one)}, done_on)


def place_after(reader: Reader, sheets: Iterable[int], done_on: str) -> int:
    """The place after whatever `sheets` went through on that day."""
    return _place_of_last(reader, sheets, done_on) + 1


def _place_of_last(reader: Reader, sheets: Iterable[int], done_on: str) -> int:
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
) -> list[Written]:
    """The whole plan as it was carried out: only exceptions and tests are `written`.

    Planned baths take their aim for the time; a test is never assumed.  A
    written step takes the place of the planned one it names, or of the only one
    of its kind, or stands after the one it says.  Raises Refused for each whose
    place cannot be told, with the field ``step.N.name`` or ``step.N.after``.
    """
    rest = list(written)
    order: list[Written] = []
    for planned in plan.steps:
        own = _take(rest, planned, plan)
        if own is not None:
            order.append(_named(own, planned.name, baths))
        elif planned.role is not None:
            order.append(
                Written(
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
            )
        for follower in [one for one in rest if one.after == planned.name]:
            rest.remove(follower)
            order.append(follower)
    if rest:
        raise Refused(*(_no_place(one, plan) for one in rest))
    return order


def _no_place(written: Written, plan: ProcessSheet) -> Problem:
    """Why a written step has no place in the plan, and what would give it one."""
    names = [step.name for step in plan.steps]
    step = f"step.{written.origin}" if written.origin is not None else "step"
    if written.name or written.after:
        said = written.after or written.name
        again = said in names
        return Problem(
            what=f"the plan's step {said!r} was written before"
            if again
            else f"the plan has no step {said!r}",
            field=f"{step}.{'after' if written.after else 'name'}",
            mend="leave one of the two out, or say after which step this came: after = ..."
            if again
            else f"its steps are: {', '.join(names)}",
        )
    work = written.work
    kind, field = (work.role, "do") if isinstance(work, Step) else (work.question, "test")
    alike = [step.name for step in plan.steps if kind in (step.role, step.test)]
    if not alike:
        return Problem(
            what=f"the plan has no step of {kind}",
            field=f"{step}.{field}",
            mend="say after which planned step it came: after = ...; they are: " + ", ".join(names),
        )
    choice = " or ".join(f'name = "{name}"' for name in alike)
    return Problem(
        what=f"the plan has more than one step of {kind}"
        if len(alike) > 1
        else f"the plan's step {alike[0]!r} was written before",
        field=f"{step}.{field}",
        mend=f"say which it was: {choice}; or after which it came: after = ...",
    )


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


def _named(written: Written, name: str, baths: dict[str, int]) -> Written:
    work = written.work
    if isinstance(work, Test):
        return written
    bath = work.bath if work.bath is not None else baths.get(name)
    return replace(written, work=msgspec.structs.replace(work, name=work.name or name, bath=bath))
