"""Rules for what is planned: negatives, editions, papers, process sheets."""

import re
from collections import Counter
from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.designation import parse_designation
from provenance.model.edition import Edition
from provenance.model.negative import FINAL, Negative
from provenance.model.paper import Paper
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.quantities import Size
from provenance.model.studio import Studio
from provenance.records.rules.case import Case, before, in_order, label

CODE = re.compile(r"[^\W\d_][\w.-]{0,23}")
_MARK = re.compile(r"[A-Z]{2,4}")


def image_on_sheet(case: Case[Edition] | Case[Print]) -> Iterator[Problem]:
    """The sheet is at least the image; says when turning it round would do."""
    image, sheet = case.body.image, case.body.sheet
    if image.fits_inside(sheet):
        return
    turned = Size(height_tenth_mm=sheet.width_tenth_mm, width_tenth_mm=sheet.height_tenth_mm)
    yield case.problem(
        "the sheet is smaller than the image",
        "sheet",
        "sizes are height x width; turn the sheet's size round"
        if image.fits_inside(turned)
        else "check both sizes; each is height x width",
    )


def studio(case: Case[Studio]) -> Iterator[Problem]:
    """One studio a register, with a name, an artist and the letters of its certificates."""
    if case.record is None and case.act.head()[0] > 0:
        yield case.problem("a register holds one studio")
    for field in ("name", "artist"):
        if not getattr(case.body, field).strip():
            yield case.problem("is empty", field, "certificates print it")
    if not _MARK.fullmatch(case.body.mark):
        yield case.problem(
            f"{case.body.mark!r} cannot begin a certificate number",
            "mark",
            "give two to four capital letters",
        )
    if isinstance(case.before, Studio) and case.before.studio_id != case.body.studio_id:
        yield case.problem("the studio's id never changes", "studio_id")
    dated = list(case.edtf("died", case.body.died))
    yield from dated
    if not dated and case.before is not None and case.body.died != case.before.died:
        yield from _signed_in_life(case, case.body.died)


def _signed_in_life(case: Case[Studio], died: str | None) -> Iterator[Problem]:
    """No print on record is signed by the artist after that day."""
    for held in case.act.all(Print) if died is not None else ():
        signed = held.body.signature
        if signed is not None and signed.counts and before(str(died), signed.on):
            yield case.problem(
                f"{label(case.act, held.id, held.body)} was signed on {signed.on}",
                "died",
                "check both dates",
            )
            return


def negative(case: Case[Negative]) -> Iterator[Problem]:
    """A negative has a title and honest dates."""
    if not case.body.title.strip():
        yield case.problem("is empty", "title", "give the image a title")
    yield from case.edtf("made", case.body.made)
    yield from case.edtf("state_since", case.body.state_since)
    former = case.before
    if (
        former is not None
        and former.state in FINAL
        and case.verb == "change"
        and case.body.state not in FINAL
    ):
        since = f" on {former.state_since}" if former.state_since else ""
        yield case.problem(
            f"it was {former.state}{since}, and does not come back from that",
            "state",
            "correct the record, with the reason, if it was wrong",
        )


def edition(case: Case[Edition]) -> Iterator[Problem]:
    """A promise is kept verbatim, declares something, and is not shrunk below what exists."""
    body = case.body
    if not body.promise.strip():
        yield case.problem("is empty", "promise", "write the promise in your own words")
    if body.declared == 0:
        yield case.problem("declares no impressions", "numbered", "say how many there will be")
    yield from image_on_sheet(case)
    yield from in_order(case, "opened", body.opened, "closed", body.closed)
    if case.record is not None:
        yield from _promise_kept(case, case.record)


_PROMISED = (
    "promise",
    "numbered",
    "artist_proofs",
    "printers_proofs",
    "hors_commerce",
    "unnumbered",
    "image",
    "sheet",
)
"""What was declared: sizes too, since a promise is of one size."""


def _promise_kept(case: Case[Edition], record: int) -> Iterator[Problem]:
    changed = [f for f in _PROMISED if getattr(case.before, f, None) != getattr(case.body, f)]
    if case.verb == "change" and changed:
        yield case.problem(
            "a promise is only ever corrected, with the reason", changed[0], "use a correction"
        )
    if case.verb == "change" and case.before and case.before.closed not in (None, case.body.closed):
        yield case.problem(
            f"it was closed on {case.before.closed}",
            "closed",
            "a closed edition is opened again only by a correction, with the reason",
        )
    if case.before and case.before.negative != case.body.negative and _has_prints(case, record):
        yield case.problem(
            "prints of the edition are on record, from another negative",
            "negative",
            "enter an edition of its own for the other negative",
        )
    for (written,) in case.act.connection.execute(
        "SELECT designation FROM print_key WHERE edition = ? AND designation IS NOT NULL", (record,)
    ):
        given = parse_designation(written)
        limit = case.body.maximum(given.series)
        if limit is not None and (given.number or 0) > limit:
            yield case.problem(
                f"{written} exists already, and {limit} are declared", given.series, ""
            )
            return


def _has_prints(case: Case[Edition], record: int) -> bool:
    query = "SELECT 1 FROM print_key WHERE edition = ? LIMIT 1"
    return case.act.connection.execute(query, (record,)).fetchone() is not None


def paper(case: Case[Paper]) -> Iterator[Problem]:
    """A paper has an honest date of purchase."""
    yield from case.edtf("bought", case.body.bought)


def process(case: Case[ProcessSheet]) -> Iterator[Problem]:
    """Steps of a process sheet have names of their own, and a bath or a test each."""
    steps = case.body.steps
    if not steps:
        yield case.problem("has no steps", "steps", "add the steps in their order")
    for name, times in Counter(step.name for step in steps).items():
        if times > 1 or not name:
            yield case.problem(
                f"{times} steps are called {name!r}", "name", "give each step its own name"
            )
    for step in steps:
        if (step.role is None) == (step.test is None):
            yield case.problem(
                f"step {step.name!r} needs either a bath's role or a test", "role", "give one"
            )
        aim = step.aim
        if aim and not (aim.least_ms or 0) <= aim.time_ms <= (aim.longest_ms or aim.time_ms):
            yield case.problem(
                f"the aim of step {step.name!r} lies outside its own limits", "aim", "check them"
            )
