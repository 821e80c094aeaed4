"""What the studio's studies say of how far a toner reached, where they hold for the print.

A study is of a strip, and only of one that went the way of the print: the same
paper and, for what was converted, the same process; for what the bleach left,
the same time in it.  An estimate for another time carries no claim.
"""

from collections.abc import Iterator

from provenance.craft.conversion import coverage
from provenance.craft.history import Fact, PrintHistory
from provenance.craft.standing import printing_standing, standing_of, step_standing
from provenance.model.chemistry import TONERS
from provenance.model.evidence import Claim, Portion, Standing, When, Word, weakest
from provenance.model.printing import Step
from provenance.model.study import ToningStudy

CONVERSION, COVERAGE = "tested.conversion", "tested.coverage"
_MOST_STEPS = 3
"""On the page: the lightest, a middle and the darkest; the study has them all."""


def toned(history: PrintHistory) -> Iterator[Claim]:
    """The latest study of each kind that holds for the print."""
    toners = [step for step in history.steps if step.body.role in TONERS]
    if not toners:
        return
    converted = [one for one in history.toning_studies if _same_process(history, one)]
    if converted:
        yield _claim(CONVERSION, history, converted[-1], toners)
    for bleach in _toning_bleaches(history)[:1]:
        reached = [one for one in history.toning_studies if _same_time(history, one, bleach)]
        if reached:
            yield _claim(COVERAGE, history, reached[-1], [bleach])


def other_bleach(history: PrintHistory) -> Iterator[Claim]:
    """Says of a study of the toning bleach that it does not hold for another time in it."""
    for bleach in _toning_bleaches(history)[:1]:
        studies = [
            one
            for one in history.toning_studies
            if one.body.bleach == "toning bleach" and _process_fits(history, one)
        ]
        if studies and not any(_same_time(history, one, bleach) for one in studies):
            yield Claim(
                id="unknown.coverage",
                section="unknown",
                standing=weakest((_read(studies[-1]), step_standing(bleach))),
                evidence=(studies[-1].id, bleach.id),
            )


def _read(study: Fact[ToningStudy]) -> Standing:
    """Densities are measured, unless they were written down much later."""
    read = standing_of(study.body.source, study.body.done_on, study.entered_on)
    return read if read in (Standing.FROM_NOTES, Standing.FROM_MEMORY) else Standing.MEASURED


def _claim(
    name: str, history: PrintHistory, study: Fact[ToningStudy], steps: list[Fact[Step]]
) -> Claim:
    known = (_read(study), printing_standing(history.printing), *map(step_standing, steps))
    shares = coverage(study.body).shares
    if len(shares) > _MOST_STEPS:
        shares = (shares[0], shares[len(shares) // 2], shares[-1])
    words: dict[str, Word] = {
        "when": When(study.body.done_on),
        "parts": tuple(Portion(one.left_permille, one.before_md) for one in shares),
    }
    return Claim(
        id=name,
        section="tested",
        # what was measured is the strip: of the print it says no more than its baths do
        standing=weakest(known),
        evidence=(study.id, history.printing.id, *(step.id for step in steps)),
        words=words,
    )


def _same_process(history: PrintHistory, study: Fact[ToningStudy]) -> bool:
    body = study.body
    return (
        body.bleach == "oxidising bleach"
        and body.process is not None
        and body.process == history.printing.body.process
    )


def _process_fits(history: PrintHistory, study: Fact[ToningStudy]) -> bool:
    return study.body.process in (None, history.printing.body.process)


def _same_time(history: PrintHistory, study: Fact[ToningStudy], bleach: Fact[Step]) -> bool:
    body = study.body
    return (
        body.bleach == "toning bleach"
        and _process_fits(history, study)
        and body.bleached_ms is not None
        and body.bleached_ms == bleach.body.told_ms(history.print.id)
    )


def _toning_bleaches(history: PrintHistory) -> list[Fact[Step]]:
    """Bleaches that a sulfiding toner followed; one that was fixed again reduced the print."""
    found: list[Fact[Step]] = []
    for place, step in enumerate(history.steps):
        if step.body.role != "bleach":
            continue
        later = (one.body.role for one in history.steps[place + 1 :])
        following = next((role for role in later if role in TONERS or role == "fix"), None)
        if following in ("sulfide", "thiourea"):
            found.append(step)
    return found
