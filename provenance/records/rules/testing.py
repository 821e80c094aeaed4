"""Rules for residual tests: what they can answer, what they cover, what they repeat."""

from collections.abc import Iterator
from datetime import date

from provenance.craft.calibration import SpotScale
from provenance.craft.history import Fact, comes_before, work_order
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.proof import BY_EYE, METHODS, Test
from provenance.model.study import SpotCalibration
from provenance.records.reader import Stored
from provenance.records.rules.case import Case, before
from provenance.records.rules.paperwork import FILE_NAME, SHA256
from provenance.records.rules.work import sheets_met


def test(case: Case[Test]) -> Iterator[Problem]:
    """A test answers its question by a method that can, of sheets that it can speak for."""
    body = case.body
    met = list(sheets_met(case, "covers", body.covers))
    yield from met
    if body.method not in METHODS[body.question]:
        yield case.problem(
            f"{body.method} does not test for residual {body.question}",
            "method",
            f"use one of: {', '.join(sorted(METHODS[body.question]))}",
        )
    if None not in (body.contact_ms, body.read_ms) and (body.read_ms or 0) < (body.contact_ms or 0):
        yield case.problem("it was read before the contact time was over", "read", "check both")
    yield from _figures(case)
    yield from _files(case)
    if not met:
        yield from _too_early(case)
        yield from _bath_not_shared(case)
        yield from _repeat(case)


test.__test__ = False  # type: ignore[attr-defined]  # a word of the trade, not of pytest


def _figures(case: Case[Test]) -> Iterator[Problem]:
    body = case.body
    if body.reckoned_as is not None and body.question == "silver":
        yield case.problem(
            "silver is reckoned as itself", "reckoned_as", "leave it out, or ask for thiosulfate"
        )
    if body.darker_md is not None and body.method not in BY_EYE:
        yield case.problem(
            f"{body.method} leaves no spot to read", "darker", "give what was measured"
        )
    if body.calibration is None:
        return
    held = case.act.get(SpotCalibration, body.calibration).body
    if body.darker_md is None:
        yield case.problem(
            "does not say how much darker the spot was", "darker", "read spot and paper"
        )
        return
    yield from _scale_fits(case, held)
    try:
        SpotScale(held).convert(body.darker_md)
    except Refused as refused:
        for one in refused.problems:
            yield case.problem(f"{held.code}: {one.what}", one.field, one.mend)


def _scale_fits(case: Case[Test], held: SpotCalibration) -> Iterator[Problem]:
    """A scale holds for the test, the times and the paper that it was made with."""
    body = case.body
    if held.method != body.method:
        yield case.problem(
            f"{held.code} is of the {held.method}, the test is a {body.method}",
            "calibration",
            "name the scale of that test",
        )
    for field, one, other in (
        ("contact", held.contact_ms, body.contact_ms),
        ("read", held.read_ms, body.read_ms),
    ):
        if one is not None and one != other:
            yield case.problem(
                f"{held.code} holds for {one / 1000:g} s, the test "
                + (f"has {other / 1000:g} s" if other is not None else "does not say how long"),
                field,
                "a spot goes on darkening: read it at the time of the scale",
            )
    for sheet in body.covers:
        printing = case.act.get(Printing, case.act.get(Print, sheet).body.printing).body
        if printing.paper != held.paper:
            yield case.problem(
                f"{held.code} is of another paper than sheet {_mark(case, sheet)}",
                "calibration",
                "a scale holds for its own paper; make one for this",
            )


def _files(case: Case[Test]) -> Iterator[Problem]:
    for one in case.body.attached:
        if not FILE_NAME.fullmatch(one.file_name):
            yield case.problem(f"{one.file_name!r} is not a plain file name", "attached")
        if not (SHA256.fullmatch(one.file_sha256) and SHA256.fullmatch(one.kept_sha256)):
            yield case.problem("is not a SHA-256 in hex", "attached")


def _too_early(case: Case[Test]) -> Iterator[Problem]:
    """Both questions are about what fixing and washing left, so the first fixing comes first."""
    for sheet in case.body.covers:
        fixes = [step for step in _steps(case, sheet) if step.body.role == "fix"]
        if fixes and all(comes_before(_now(case), step) for step in fixes):
            yield case.problem(
                f"lies before sheet {_mark(case, sheet)} was fixed on {fixes[0].body.done_on}",
                "done_on",
                "check both dates and their order",
            )
            return


def _bath_not_shared(case: Case[Test]) -> Iterator[Problem]:
    """One specimen speaks only for sheets that shared the last fix and, for washing, the wash."""
    roles: tuple[Role, ...] = ("fix",) if case.body.question == "silver" else ("fix", "wash")
    first, *others = case.body.covers
    for role in roles:
        bath = _last_bath(case, first, role)
        for sheet in others:
            other = _last_bath(case, sheet, role)
            if other != bath:
                yield case.problem(
                    f"sheets {_mark(case, first)} and {_mark(case, sheet)} did not share the last"
                    f" {role}: {bath} and {other}",
                    "covers",
                    "test the sheets apart, or correct the steps on record",
                )
                return


def _last_bath(case: Case[Test], sheet: int, role: Role) -> str:
    """What the sheet went through last in that role, before the test."""
    steps = [
        step
        for step in _steps(case, sheet)
        if step.body.role == role and comes_before(step, _now(case))
    ]
    if not steps:
        return "none on record"
    last = max(steps, key=work_order).body
    if last.bath is not None:
        return case.act.get(Bath, last.bath).body.code
    return " ".join(filter(None, (last.agent, f"of {last.done_on}")))


def _repeat(case: Case[Test]) -> Iterator[Problem]:
    body = case.body
    if body.repeats is None:
        return
    failed: Stored[Test] = case.act.get(Test, body.repeats)
    said = f"#{failed.id}"
    if failed.id == case.record:
        yield case.problem("repeats itself", "repeats", "name the test that failed")
    elif failed.body.question != body.question:
        yield case.problem(
            f"{said} asked for {failed.body.question}, this for {body.question}",
            "repeats",
            "name the failed test of the same question",
        )
    elif failed.body.verdict != "failed":
        yield case.problem(
            f"{said} {failed.body.verdict}; only what failed is repeated", "repeats", "leave it out"
        )
    elif not set(body.covers) & set(failed.body.covers):
        yield case.problem(f"{said} covers none of these sheets", "repeats", "name their test")
    elif before(body.done_on, failed.body.done_on):
        yield case.problem(
            f"lies before {said} of {failed.body.done_on}, which it repeats",
            "done_on",
            "check both",
        )


def _steps(case: Case[Test], sheet: int) -> list[Fact[Step]]:
    return [
        Fact(held.id, held.version, held.body, case.today)
        for held in case.act.linked(sheet, Step, "sheets")
    ]


def _now(case: Case[Test]) -> Fact[Test]:
    """The test as if it were on record; only its day and place matter here."""
    return Fact(0, 0, case.body, date.min)


def _mark(case: Case[Test], sheet: int) -> str:
    return case.act.get(Print, sheet).body.mark
