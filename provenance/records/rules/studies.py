"""Rules for studies: a past date, a method that answers, and readings that tell something."""

from collections.abc import Iterator

from provenance.craft.calibration import SpotScale
from provenance.craft.conversion import coverage
from provenance.craft.washing.readings import check_readings
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.model.process import ProcessSheet
from provenance.model.proof import BY_EYE, METHODS
from provenance.model.study import SpotCalibration, ToningStudy, WashStudy
from provenance.records.rules.case import Case, before


def wash_study(case: Case[WashStudy]) -> Iterator[Problem]:
    """Thiosulfate after enough wash times to tell how fast the paper washes."""
    body = case.body
    yield from _of_paper(case)
    if body.method not in METHODS["thiosulfate"] or body.method in BY_EYE:
        yield case.problem(
            f"{body.method} gives no amount of thiosulfate",
            "method",
            f"use one of: {', '.join(sorted(METHODS['thiosulfate'] - BY_EYE))}",
        )
    try:
        check_readings(body.readings)
    except Refused as refused:
        yield from _told(case, refused)


def toning_study(case: Case[ToningStudy]) -> Iterator[Problem]:
    """Densities that a bleach can have left, of a paper and a process that go together."""
    body = case.body
    yield from _of_paper(case)
    if body.process is not None:
        process = case.act.get(ProcessSheet, body.process).body
        paper = case.act.get(Paper, body.paper).body
        if process.base != paper.base:
            yield case.problem(
                f"process {process.code} is for {process.base} paper, {paper.code} is {paper.base}",
                "process",
                "name the process that the strip went through",
            )
    try:
        coverage(body)
    except Refused as refused:
        yield from _told(case, refused)


def spot_calibration(case: Case[SpotCalibration]) -> Iterator[Problem]:
    """A scale of three spots or more, of a test that leaves a spot."""
    body = case.body
    yield from _of_paper(case)
    if body.method not in BY_EYE:
        yield case.problem(
            f"{body.method} leaves no spot", "method", f"use one of: {', '.join(sorted(BY_EYE))}"
        )
    elif (body.method in METHODS["silver"]) != (body.reckoned_as is None):
        what, mend = (
            ("thiosulfate, as one of its species", "say as what it is reckoned: ion")
            if body.reckoned_as is None
            else ("silver, which is reckoned as itself", "leave it out")
        )
        yield case.problem(f"{body.method} tells of {what}", "reckoned_as", mend)
    if None not in (body.contact_ms, body.read_ms) and (body.read_ms or 0) < (body.contact_ms or 0):
        yield case.problem("it was read before the contact time was over", "read", "check both")
    try:
        SpotScale(body)
    except Refused as refused:
        yield from _told(case, refused)


def _of_paper(
    case: Case[WashStudy] | Case[ToningStudy] | Case[SpotCalibration],
) -> Iterator[Problem]:
    dated = list(case.edtf("done_on", case.body.done_on))
    yield from dated
    bought = case.act.get(Paper, case.body.paper).body.bought
    if not dated and bought is not None and before(case.body.done_on, bought):
        yield case.problem(f"the paper was bought {bought}", "done_on", "check both dates")


def _told(
    case: Case[WashStudy] | Case[ToningStudy] | Case[SpotCalibration], refused: Refused
) -> Iterator[Problem]:
    """What the arithmetic refuses, of this record; a patch is named where it has a number."""
    for one in refused.problems:
        place = one.field if one.field.startswith("patch ") else ""
        yield case.problem(f"{place}: {one.what}" if place else one.what, one.field, one.mend)
