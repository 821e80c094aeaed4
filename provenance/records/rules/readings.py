"""Rules for what instruments read: wedges of papers, spots of prints, matches."""

from collections.abc import Iterator

from provenance.craft.comparing import Tolerances, match_prints
from provenance.craft.sensitometry.wedges import curve_of, wedge_cautions
from provenance.errors import Problem, Refused
from provenance.model.edition import Edition
from provenance.model.matching import MatchReport
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.readings import Reading, Wedge
from provenance.records.rules.case import Case, before


def wedge(case: Case[Wedge]) -> Iterator[Problem]:
    """A wedge has a past date, a tablet of its own name, and readings that make a curve."""
    body = case.body
    dated = list(case.edtf("done_on", body.done_on))
    yield from dated
    if not body.tablet.strip():
        yield case.problem(
            "is empty", "tablet", "name the piece of film; papers compare through one tablet"
        )
    bought = case.act.get(Paper, body.paper).body.bought
    if not dated and bought is not None and before(body.done_on, bought):
        yield case.problem(f"the paper was bought {bought}", "done_on", "check both dates")
    try:
        curve_of(body)
    except Refused as refused:
        for one in refused.problems:
            yield case.problem(one.what, one.field, one.mend)


def wedge_warnings(case: Case[Wedge]) -> Iterator[Problem]:
    """What is doubtful about a wedge by itself."""
    for caution in wedge_cautions(case.body, curve_of(case.body)):
        yield case.problem(str(caution), "steps")


def reading(case: Case[Reading]) -> Iterator[Problem]:
    """A print is read after it was printed, while there is one, at spots with names."""
    body = case.body
    dated = list(case.edtf("done_on", body.done_on))
    yield from dated
    held = case.act.get(Print, body.print).body
    printed = case.act.get(Printing, held.printing).body.done_on
    if not dated and before(body.done_on, printed):
        yield case.problem(f"it was printed on {printed}", "done_on", "check both dates")
    if not dated and held.gone_on is not None and before(held.gone_on, body.done_on):
        yield case.problem(
            f"the print was {held.existence} on {held.gone_on}", "done_on", "check both dates"
        )
    if not body.patches:
        yield case.problem("holds no spot", "patches", "read the print at named spots")
    if any(not patch.spot.strip() for patch in body.patches):
        yield case.problem("a spot has no name", "patches", "name it, so it can be found again")


def match(case: Case[MatchReport]) -> Iterator[Problem]:
    """Two prints of one negative, each with its own readings, and the outcome these give."""
    body = case.body
    yield from case.edtf("on", body.on)
    if body.print == body.reference:
        yield case.problem("a print cannot be matched to itself", "reference", "name another")
        return
    if len({_negative(case, one) for one in (body.print, body.reference)}) > 1:
        yield case.problem(
            "the two prints are of different negatives", "reference", "name a print of the same"
        )
    if not body.by.strip():
        yield case.problem("is empty", "by", "say who decided: a role or initials")
    new = case.act.get(Reading, body.reading).body
    old = case.act.get(Reading, body.reference_reading).body
    for field, one, owner in (
        ("reading", new, body.print),
        ("reference_reading", old, body.reference),
    ):
        if one.print != owner:
            yield case.problem("are readings of another print", field, "name its own readings")
            return
    tolerance = tolerances_of(body)
    try:
        found = match_prints(old.patches, new.patches, (old.how, new.how), tolerance)
    except Refused as refused:
        for problem in refused.problems:
            yield case.problem(problem.what, problem.field, problem.mend)
        return
    if (body.outcome == "matches") != found.matches:
        said = "match" if found.matches else "differ"
        yield case.problem(f"by these readings the prints {said}", "outcome", "say what they say")


def tolerances_of(body: MatchReport) -> Tolerances:
    """The tolerances that a match was judged by."""
    return Tolerances(
        light_from=body.light_from_hundredth / 100,
        light_density=body.light_md / 1000,
        dark_to=body.dark_to_hundredth / 100,
        dark_density=body.dark_md / 1000,
        delta_e00=body.delta_e00_hundredth / 100,
    )


def _negative(case: Case[MatchReport], record: int) -> int:
    held = case.act.get(Print, record).body
    return case.act.get(Edition, held.edition).body.negative
