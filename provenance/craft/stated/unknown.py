"""What is not known: gaps, tests that do not count, errors that nothing has answered."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from provenance.craft.history import PrintHistory, comes_before
from provenance.craft.proof import Finding
from provenance.craft.sequence.contradictions import contradictions
from provenance.craft.sequence.finding import Fault
from provenance.craft.stages import stages
from provenance.craft.standing import step_standing, test_standing
from provenance.craft.stated.toned import CONVERSION, other_bleach
from provenance.model.chemistry import TONERS
from provenance.model.evidence import Claim, Standing, Term, When, weakest
from provenance.model.proof import BY_EYE


def unknown(
    history: PrintHistory, findings: Sequence[Finding], studied: Sequence[Claim]
) -> Iterator[Claim]:
    """Every gap; `studied` are the claims that the studio's studies of toning bear."""
    done = {stage.name for stage in stages(history.steps)}
    if history.paper is None:
        yield _gap("paper")
    for stage in ("developed", "fixed", "washed"):
        if stage not in done:
            yield _gap(stage)
    if "washed" in done and not _washed_last(history):
        yield _gap("washed.after")
    yield from _overridden(history)
    for fault in contradictions(history):
        yield from _unresolved(history, fault)
    for finding in findings:
        if finding.passed is None and finding.failed is None:
            yield _gap(finding.question)
        for discounted in finding.discounted:
            yield Claim(
                id=f"unknown.{finding.question}.discounted",
                section="unknown",
                standing=test_standing(discounted.test),
                evidence=(discounted.test.id,),
                words={
                    "when": When(discounted.test.body.done_on),
                    "why": Term("discounted", discounted.why),
                },
            )
        yield from _no_limit(finding)
    if "toned" in done and all(claim.id != CONVERSION for claim in studied):
        yield _gap("conversion")
    yield from other_bleach(history)
    if not any(one.body.drying or one.body.mount is not None for one in history.finishes):
        yield _gap("finished")


def _no_limit(finding: Finding) -> Iterator[Claim]:
    """A figure that passed against a limit of which it is not said what or whose it is."""
    test = finding.passed
    if test is None or test.body.measured_ng_per_cm2 is None or test.body.method in BY_EYE:
        return
    if not (test.body.criterion and test.body.criterion_source):
        yield _gap(f"{finding.question}.limit")


def _overridden(history: PrintHistory) -> Iterator[Claim]:
    """Washing that was entered afterwards, against what the printer said at the trays."""
    runs = tuple(dict.fromkeys(over.run for over in history.overrides))
    for day, held in groupby(history.contradicted, lambda step: step.body.done_on):
        steps = tuple(held)
        yield Claim(
            id="unknown.washed.overridden",
            section="unknown",
            standing=weakest((Standing.LOGGED, *map(step_standing, steps))),
            evidence=(*(step.id for step in steps), *runs),
            words={"when": When(day)},
        )


def _unresolved(history: PrintHistory, fault: Fault) -> Iterator[Claim]:
    """What an error of bleach, toner or wash leaves open, where no test has answered it."""
    evidence = tuple(deed.record for deed in fault.deeds)
    steps = [step for step in history.steps if step.id in evidence]
    about = fault.deeds[-1] if fault.case == "Q2" else fault.deeds[0]
    washed = any(step.body.role in ("rinse", "wash", "washing aid") for step in steps)
    name = {
        ("Q2", True): "unknown.bleach.short",
        ("Q2", False): "unknown.bleach.wash",
        ("Q5", False): "unknown.bleach.end",
        ("Q7.wash", True): "unknown.washed.short",
    }.get((fault.case, washed))
    if name is None or fault.answered_by is not None:
        return
    (day,) = [step.body.done_on for step in steps if step.id == about.record]
    yield Claim(
        id=name,
        section="unknown",
        standing=weakest(tuple(map(step_standing, steps))) if washed else Standing.NOT_ON_RECORD,
        evidence=evidence if washed else (),
        words={"when": When(day)},
    )


def _washed_last(history: PrintHistory) -> bool:
    """Whether a wash on record follows every fixing and toning."""
    washes = [step for step in history.steps if step.body.role == "wash"]
    return all(
        any(comes_before(step, wash) for wash in washes)
        for step in history.steps
        if step.body.role == "fix" or step.body.role in TONERS
    )


def _gap(what: str) -> Claim:
    return Claim(
        id=f"unknown.{what}", section="unknown", standing=Standing.NOT_ON_RECORD, evidence=()
    )
