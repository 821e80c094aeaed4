"""Rules for a print: it exists, fits, and bears a number of its own."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from provenance.craft.counting import count
from provenance.errors import Problem, Refused
from provenance.model.dates import earliest, latest
from provenance.model.designation import Designation, parse_designation
from provenance.model.edition import Edition
from provenance.model.negative import UNPRINTABLE, Negative
from provenance.model.printing import Printing
from provenance.model.prints import Existence, Print
from provenance.records.rules import signing
from provenance.records.rules.case import Case, before
from provenance.records.rules.plan import image_on_sheet

if TYPE_CHECKING:
    from provenance.records.act import Act

_GONE_FOR_GOOD: frozenset[Existence] = frozenset({"spoiled", "destroyed"})
"""What cannot come back with its number; a lost print may."""


def print_rules(case: Case[Print]) -> Iterator[Problem]:
    """Everything that must hold of a print."""
    body = case.body
    edition = case.act.get(Edition, body.edition).body
    printing = case.act.get(Printing, body.printing).body
    if edition.negative != printing.negative:
        yield case.problem(
            "the printing is of another negative than the edition", "printing", "check both"
        )
    yield from image_on_sheet(case)
    yield from _mark(case)
    if case.before is None:
        yield from _may_be_made(case, edition, printing)
    yield from _replaces(case)
    yield from _designation(case, edition)
    yield from signing.signature(case, printing)
    yield from signing.approval(case, printing)
    yield from _existence(case, printing)
    yield from _beginnings(case, edition)


def _mark(case: Case[Print]) -> Iterator[Problem]:
    body = case.body
    if body.opening and not body.mark:
        return
    if not body.mark.strip():
        yield case.problem("is empty", "mark", "mark the back in pencil before exposure")
        return
    row = case.act.connection.execute(
        "SELECT id FROM print_key WHERE edition = ? AND mark = ? AND id IS NOT ?",
        (body.edition, body.mark, case.record),
    ).fetchone()
    if row:
        yield case.problem(
            f"the mark {body.mark} is on the back of print #{row[0]} of this edition",
            "mark",
            "give this sheet a mark of its own",
        )


def _may_be_made(case: Case[Print], edition: Edition, printing: Printing) -> Iterator[Problem]:
    negative = case.act.get(Negative, edition.negative).body
    since = negative.state_since
    if negative.state in UNPRINTABLE and not (
        since is not None and earliest(printing.done_on) <= latest(since)
    ):
        yield case.problem(
            f"negative {negative.code} is {negative.state}; no new print can be recorded from it",
            "edition",
            "check the negative's state, or the date of the printing",
        )
    if edition.closed is not None and before(edition.closed, printing.done_on):
        yield case.problem(
            f"edition {edition.code} was closed on {edition.closed}", "edition", "check the dates"
        )


def _replaces(case: Case[Print]) -> Iterator[Problem]:
    """A replacement stands for a print of the same edition that is gone for good."""
    body = case.body
    if body.replaces is None or (case.before and case.before.replaces == body.replaces):
        return
    former = case.act.get(Print, body.replaces).body
    if body.replaces == case.record or former.edition != body.edition:
        yield case.problem(
            f"#{body.replaces} is not another print of this edition", "replaces", "check it"
        )
    elif former.existence not in _GONE_FOR_GOOD:
        yield case.problem(
            f"print {_named(former)} (#{body.replaces}) is not on record as destroyed",
            "replaces",
            "record what became of it first; a lost print may come back with its number",
        )
    elif not former.gone_evidence:
        yield case.problem(
            f"nothing on record shows that print {_named(former)} (#{body.replaces})"
            f" is {former.existence}",
            "replaces",
            "record the evidence of it: who saw it, a photograph of the pieces",
        )


def _beginnings(case: Case[Print], edition: Edition) -> Iterator[Problem]:
    """The opening balance is no way around the rules; only a proof is said to count or not."""
    body = case.body
    if case.before is not None and case.before.opening != body.opening and case.verb == "change":
        yield case.problem(
            "whether it was there before the records is only corrected", "opening", "correct it"
        )
    if body.counted is None:
        return
    series = parse_designation(body.designation).series if body.designation else None
    if series not in ("BAT", "EX"):
        yield case.problem(
            "only a bon à tirer or an exhibition print is said to be inside or outside the total",
            "counted",
            "leave it out; numbers and proofs count, trial proofs do not",
        )
    elif body.counted == "inside" and (case.before is None or case.before.counted != "inside"):
        held = [(one.id, one.body) for one in case.act.linked(body.edition, Print, "edition")]
        given = count(edition, [one for one in held if one[0] != case.record]).given
        if given >= edition.declared:
            yield case.problem(
                f"{edition.declared} are declared and {given} are on record",
                "counted",
                "say that it is outside the total, or correct the promise",
            )


def _designation(case: Case[Print], edition: Edition) -> Iterator[Problem]:
    body = case.body
    same = (
        case.before is not None
        and case.before.edition == body.edition
        and case.before.designation == body.designation
    )
    if not same:
        yield from _may_be_renumbered(case)
    if body.designation is None:
        return
    try:
        given = parse_designation(body.designation)
    except Refused as error:
        yield case.problem(error.problems[0].what, "designation", error.problems[0].mend)
        return
    if str(given) != body.designation:
        yield case.problem(f"is written {given}", "designation", "use that form")
        return
    if not same:
        # what was given under an earlier promise stays as it was given
        yield from _within_promise(case, edition, given)
    if given.number is not None:
        yield from _taken(case, given.place)


def _within_promise(case: Case[Print], edition: Edition, given: Designation) -> Iterator[Problem]:
    """A number lies within what was declared, and says how many were."""
    limit = edition.maximum(given.series)
    if limit is None:
        return
    if limit == 0 or (given.number or 0) > limit:
        yield case.problem(
            f"{given} is outside the edition, which declares {limit or 'none of that kind'}",
            "designation",
            "choose a number within what was declared",
        )
    elif given.number is not None and given.total != limit:
        yield case.problem(
            f"{given} does not say that {limit} are declared",
            "designation",
            f"write it as one of {limit}",
        )
    elif given.series != "numbered" and _made(case, given.series) >= limit:
        yield case.problem(f"{limit} are declared and exist", "designation", "check the edition")


def _made(case: Case[Print], series: str) -> int:
    """How many other prints of the series there are, not counting those that were replaced."""
    # "AP II/III" lies between "AP " and "AP!", so that an index answers
    (made,) = case.act.connection.execute(
        "SELECT count(*) FROM print_key WHERE edition = ? AND id IS NOT ? AND id IS NOT ?"
        " AND (designation = ? OR (designation > ? AND designation < ?))"
        " AND NOT EXISTS (SELECT 1 FROM link WHERE target = print_key.id AND field = 'replaces')",
        (
            case.body.edition,
            case.record,
            case.body.replaces,
            series,
            f"{series} ",
            f"{series}!",
        ),
    ).fetchone()
    return int(made)


def _taken(case: Case[Print], place: str) -> Iterator[Problem]:
    """A place is given once, also where the total beside it has changed since."""
    body = case.body
    # "1" and "1/25" lie between "1" and "10", so that an index answers
    for (other,) in case.act.connection.execute(
        "SELECT id FROM print_key WHERE edition = ? AND designation >= ? AND designation < ?"
        " AND id IS NOT ?",
        (body.edition, place, f"{place}0", case.record),
    ).fetchall():
        holder = case.act.get(Print, other).body
        if _follows(case.act, body, other):
            continue
        if body.existence in _GONE_FOR_GOOD and _follows(case.act, holder, case.record):
            continue
        yield case.problem(
            f"{holder.designation} is taken by the print marked {_named(holder)} (#{other})"
            + ("" if holder.existence == "exists" else f", which is {holder.existence}"),
            "designation",
            "choose a free number; a destroyed print's number passes only to its replacement",
        )


def _follows(act: "Act", body: Print, former: int | None) -> bool:
    """Whether `body` replaces print `former`, directly or through others that are gone too."""
    seen: set[int] = set()
    while body.replaces is not None and body.replaces not in seen:
        seen.add(body.replaces)
        replaced = act.get(Print, body.replaces).body
        if replaced.existence not in _GONE_FOR_GOOD:
            return False
        if body.replaces == former:
            return True
        body = replaced
    return False


def _may_be_renumbered(case: Case[Print]) -> Iterator[Problem]:
    """A number is given to a sheet that exists, and is final once it went out on paper."""
    entering = case.before is None
    if case.body.designation and case.body.existence != "exists" and not entering:
        yield case.problem(f"it is {case.body.existence}", "designation", "number another sheet")
    earlier = case.before.designation if case.before else None
    if earlier is None or case.record is None:
        return
    held = [
        kind
        for _source, kind in case.act.links_to(case.record)
        if kind in ("custody", "certificate")
    ]
    if held:
        yield case.problem(
            f"it was {'released' if 'custody' in held else 'certified'} as {earlier}",
            "designation",
            "a number is final once the print is certified or has left the studio",
        )


def _existence(case: Case[Print], printing: Printing) -> Iterator[Problem]:
    body, earlier = case.body, case.before
    if body.existence == "exists":
        gone = earlier is not None and earlier.existence in _GONE_FOR_GOOD
        if earlier is not None and gone and case.verb == "change":
            yield case.problem(
                f"it is {earlier.existence}", "existence", "correct the record if it is not"
            )
        return
    if body.gone_on is None:
        yield case.problem(f"no date says when it was {body.existence}", "gone_on", "give a date")
        return
    dated = list(case.edtf("gone_on", body.gone_on))
    yield from dated
    if not dated and before(body.gone_on, printing.done_on):
        yield case.problem(
            f"{body.existence} on {body.gone_on}, before it was made on {printing.done_on}",
            "gone_on",
            "check both dates",
        )


def _named(print_: Print) -> str:
    """A sheet by its mark; by its number where the mark is not known."""
    return print_.mark or print_.designation or "without a mark"
