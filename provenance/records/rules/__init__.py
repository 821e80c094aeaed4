"""The rules at the door: what may be written, given what is on record.

`check` gathers every problem of a body before it refuses, so that a person is
told once.  Projecting an accepted entry never fails because of these rules.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.custody import CustodyEvent
from provenance.records.rules import (
    custody,
    finishing,
    paperwork,
    plan,
    prints,
    promises,
    readings,
    shelf,
    studies,
    testing,
    work,
)
from provenance.records.rules import run as running
from provenance.records.rules.case import Case, label

if TYPE_CHECKING:
    from provenance.records.act import Act
    from provenance.records.entry import Verb

RULES: dict[str, Callable[[Any], Iterator[Problem]]] = {
    "studio": plan.studio,
    "negative": plan.negative,
    "edition": plan.edition,
    "paper": plan.paper,
    "formula": shelf.formula,
    "stock": shelf.stock,
    "bath": shelf.bath,
    "process": plan.process,
    "printing": work.printing,
    "run": running.run,
    "step": work.step,
    "test": testing.test,
    "print": prints.print_rules,
    "scan": paperwork.scan,
    "certificate": paperwork.certificate,
    "custody": custody.custody,
    "wedge": readings.wedge,
    "reading": readings.reading,
    "match": readings.match,
    "finish": finishing.finish,
    "wash-study": studies.wash_study,
    "toning-study": studies.toning_study,
    "spot-calibration": studies.spot_calibration,
    "disclosure": promises.disclosure,
    "instruction": promises.instruction,
}


CAUTIONS: dict[str, Callable[[Any], Iterator[Problem]]] = {
    "edition": promises.edition_cautions,
    "stock": shelf.stock_cautions,
    "bath": shelf.bath_cautions,
    "run": running.run_cautions,
    "step": work.step_cautions,
    "wedge": readings.wedge_warnings,
}
"""What is worth saying and forbids nothing."""


def check(
    act: "Act",
    verb: "Verb",
    record: int | None,
    body: Body,
    links: Sequence[tuple[str, int]],
    before: Body | None,
) -> list[Problem]:
    """What to warn of before writing `body`, which refers to `links`.

    Raises Refused with every problem that forbids writing it.
    """
    case = Case(act, verb, record, body, before)
    problems = list(_links(case, links))
    if not problems:
        problems = [*_code(case), *RULES[body.KIND](case)]
    if problems:
        raise Refused(*problems)
    # what is taken back was warned of when it was written
    caution = CAUTIONS.get(body.KIND) if verb != "undo" else None
    return list(caution(case)) if caution else []


def check_retiring(act: "Act", record: int, body: Body) -> None:
    """Raise Refused when live records still refer to `record`, or its kind is permanent."""
    if body.KIND in ("studio", "certificate"):
        raise Refused(
            Problem(
                what=f"a {body.KIND} is never retired",
                record=label(act, record, body),
                mend="withdraw the certificate instead" if body.KIND == "certificate" else "",
            )
        )
    if isinstance(body, CustodyEvent) and not custody.stays_whole(act, record, body):
        raise Refused(
            Problem(
                what="a later move of the print rests on it",
                record=label(act, record, body),
                mend="retire the later move first, or correct this one",
            )
        )
    users = [(source, kind) for source, kind in act.links_to(record) if source != record]
    if users:
        named = ", ".join(f"{kind} #{source}" for source, kind in users[:5])
        more = f" and {len(users) - 5} more" if len(users) > 5 else ""
        raise Refused(
            Problem(
                what=f"other records refer to it: {named}{more}",
                record=label(act, record, body),
                mend="retire or change those first",
            )
        )


def _links(case: Case[Body], links: Sequence[tuple[str, int]]) -> Iterator[Problem]:
    for field, target in links:
        wanted = case.body.LINKS[field]
        found = case.act.kind_of(target)
        if found != wanted:
            yield case.problem(
                f"#{target} is {'a ' + found if found else 'not on record'}, not a {wanted}",
                field,
                f"name a {wanted} that is on record",
            )


def _code(case: Case[Body]) -> Iterator[Problem]:
    code = getattr(case.body, "code", None)
    if code is None:
        return
    if not plan.CODE.fullmatch(code):
        yield case.problem(
            f"{code!r} cannot serve as a code",
            "code",
            "use up to 24 letters, digits, dots, dashes or underscores, a letter first",
        )
        return
    row = case.act.connection.execute(
        "SELECT id FROM record WHERE kind = ? AND code = ? AND live AND id IS NOT ?",
        (case.body.KIND, code, case.record),
    ).fetchone()
    if row:
        yield case.problem(
            f"the code is taken by #{row[0]}", "code", "choose another, or name that record"
        )
