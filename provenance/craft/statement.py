"""The treatment statement of a print: what its record supports, and no more.

A statement is a list of claims in a fixed order: how the print was made, what
was tested, what is not known.  A claim that lacks a piece of its evidence is
not weakened by silence: the gap becomes a claim of its own.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from provenance.craft.history import PrintHistory, comes_before
from provenance.craft.proof import Finding, judge
from provenance.craft.sequence.contradictions import contradictions
from provenance.craft.sequence.finding import Fault
from provenance.craft.stages import Stage, stages
from provenance.craft.standing import (
    paper_standing,
    printing_standing,
    standing_of,
    step_standing,
    test_standing,
)
from provenance.model.chemistry import TONERS
from provenance.model.dates import earliest, latest
from provenance.model.evidence import (
    Amount,
    Claim,
    Lasting,
    Standing,
    Term,
    Treatment,
    When,
    Word,
    weakest,
)
from provenance.model.process import Question
from provenance.model.proof import BY_EYE, Specimen, Test

CLAIMS: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "made.printed": "when negative negative_when",
        "made.printed.on": "when negative negative_when base qualities",
        "made.paper": "base qualities",
        "made.developed made.fixed.one made.fixed.two made.fixed": "when baths entered",
        "made.washed made.washed.after made.stabilised": "when baths entered",
        "made.bleached made.toned": "when baths entered",
        "made.matched": "when reference reference_when by entered",
        "made.matched.apart": "when reference reference_when by where entered",
        "tested.silver.seen tested.silver.seen.before": "when method specimen reading time entered",
        "tested.thiosulfate.seen": "when method specimen reading time entered",
        "tested.silver.measured tested.silver.measured.before": "when method specimen reading time"
        " amount criterion entered",
        "tested.thiosulfate.measured": "when method specimen reading time amount criterion entered",
        "tested.silver.failed tested.thiosulfate.failed": "when",
        "tested.silver.mended tested.thiosulfate.mended": "when",
        "unknown.silver.discounted unknown.thiosulfate.discounted": "when why",
        "unknown.paper unknown.developed unknown.fixed unknown.washed unknown.washed.after": "",
        "unknown.silver unknown.thiosulfate unknown.conversion": "",
        "unknown.bleach.short unknown.bleach.wash unknown.bleach.end": "when",
        "unknown.washed.short": "when",
    }.items()
    for name in names.split()
}
"""Every claim there is, and the words that its sentence may use."""

QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")


def statement(history: PrintHistory) -> tuple[Claim, ...]:
    """Every claim that the record of one print supports, in the order of reading."""
    findings = [judge(history, question) for question in QUESTIONS]
    return (
        *_made(history),
        *(claim for finding in findings for claim in _tested(history, finding)),
        *_unknown(history, findings),
    )


def _made(history: PrintHistory) -> Iterator[Claim]:
    yield from _printed(history)
    for stage in stages(history.steps):
        yield _stage(history, stage)
    yield from _matched(history)


def _matched(history: PrintHistory) -> Iterator[Claim]:
    """That it was printed later than the print it was held against, and how that went.

    Only the last decision counts, and only where it accepted the print.
    """
    if not history.matches:
        return
    held = max(history.matches, key=lambda one: one.report.id)
    report = held.report.body
    later = latest(held.reference_printed_on) < earliest(history.printing.body.done_on)
    if not (later and report.accepted):
        return
    standing = standing_of(report.source, report.on, held.report.entered_on)
    words: dict[str, Word] = {
        "when": When(report.on),
        "reference": held.reference,
        "reference_when": When(held.reference_printed_on),
        "by": report.by,
    }
    apart = report.outcome == "differs"
    if apart:
        words["where"] = report.differs_at
    yield Claim(
        id="made.matched.apart" if apart else "made.matched",
        section="made",
        standing=standing,
        evidence=(
            held.report.id,
            report.reading,
            report.reference_reading,
            report.reference,
            held.reference_printing,
        ),
        words=words | _entered(standing, held.report.entered_on),
    )


def _printed(history: PrintHistory) -> Iterator[Claim]:
    """When, from what and on what; the paper apart where it is less well known."""
    printing, negative = history.printing.body, history.negative.body
    standing = printing_standing(history.printing)
    if history.print.body.source == "memory":
        standing = weakest((standing, Standing.FROM_MEMORY))
    words: dict[str, Word] = {"when": When(printing.done_on), "negative": negative.code}
    if negative.made is not None:
        known = standing_of("notes", negative.made, history.negative.entered_on)
        if weakest((standing, known)) == standing:
            words["negative_when"] = When(negative.made)
    printed = Claim(
        id="made.printed",
        section="made",
        standing=standing,
        evidence=(history.print.id, history.printing.id, history.negative.id),
        words=words,
    )
    if history.paper is None:
        yield printed
        return
    paper = history.paper.body
    known = paper_standing(history.paper, history.printing)
    on: dict[str, Word] = {
        "base": Term("base", paper.base),
        "qualities": tuple(filter(None, (paper.weight, paper.surface, paper.tone))),
    }
    if weakest((standing, known)) == standing:
        yield replace(
            printed,
            id="made.printed.on",
            evidence=(*printed.evidence, history.paper.id),
            words=words | on,
        )
        return
    yield printed
    yield Claim(
        id="made.paper",
        section="made",
        standing=known,
        evidence=(history.printing.id, history.paper.id),
        words=on,
    )


def _stage(history: PrintHistory, stage: Stage) -> Claim:
    treatments = tuple(
        Treatment(
            role=step.body.role,
            agent=step.body.agent or (bath.made_from if bath else ""),
            dilution=bath.dilution if bath else None,
            duration_ms=step.body.duration_for(history.print.id),
        )
        for step in stage.steps
        for bath in (history.bath(step.body.bath),)
    )
    name = stage.name
    if name == "fixed":
        name += _how_many_baths(stage)
    if name == "washed" and _follows_toning(history, stage):
        name += ".after"
    standing = weakest(tuple(step_standing(step) for step in stage.steps))
    words: dict[str, Word] = {"when": When(stage.steps[0].body.done_on), "baths": treatments}
    return Claim(
        id=f"made.{name}",
        section="made",
        standing=standing,
        evidence=tuple(
            dict.fromkeys(
                one for step in stage.steps for one in (step.id, step.body.bath) if one is not None
            )
        ),
        words=words | _entered(standing, max(step.entered_on for step in stage.steps)),
    )


def _how_many_baths(stage: Stage) -> str:
    """One or two, where the record shows it: going twice into one tray is one bath."""
    if len(stage.steps) == 1:
        return ".one"
    baths = {step.body.bath for step in stage.steps}
    if None in baths:
        return ""
    return {1: ".one", 2: ".two"}.get(len(baths), "")


def _follows_toning(history: PrintHistory, stage: Stage) -> bool:
    toned = [step for step in history.steps if step.body.role in TONERS]
    return any(comes_before(toning, stage.steps[0]) for toning in toned)


def _entered(standing: Standing, entered_on: date) -> dict[str, Word]:
    """The date of entry, where a sentence has to say that it came later."""
    if standing in (Standing.FROM_NOTES, Standing.FROM_MEMORY):
        return {"entered": When(str(entered_on))}
    return {}


def _tested(history: PrintHistory, finding: Finding) -> Iterator[Claim]:
    question = finding.question
    if finding.failed is not None:
        yield Claim(
            id=f"tested.{question}.failed",
            section="tested",
            standing=test_standing(finding.failed),
            evidence=(finding.failed.id,),
            words={"when": When(finding.failed.body.done_on)},
        )
    if finding.passed is None:
        return
    test = finding.passed
    figure = test.body.measured_ng_per_cm2 is not None and test.body.method not in BY_EYE
    how = "measured" if figure else "seen"
    toned = question == "silver" and any(step.body.role in TONERS for step in history.steps)
    yield Claim(
        id=f"tested.{question}.{how}" + (".before" if toned else ""),
        section="tested",
        standing=test_standing(test),
        evidence=(test.id,),
        words=_test_words(test.body) | _entered(test_standing(test), test.entered_on),
    )
    for earlier in finding.mended:
        yield Claim(
            id=f"tested.{question}.mended",
            section="tested",
            standing=weakest(
                (
                    test_standing(earlier.test),
                    *(step_standing(step) for step in earlier.remedy),
                    test_standing(test),
                )
            ),
            evidence=(earlier.test.id, *(step.id for step in earlier.remedy), test.id),
            words={"when": When(earlier.test.body.done_on)},
        )


def _test_words(test: Test) -> dict[str, Word]:
    words: dict[str, Word] = {
        "when": When(test.done_on),
        "method": Term("method", test.method),
        "specimen": _specimen(test),
        "reading": test.reading.strip(" .\n") or Term("reading", "a result noted only as passed"),
    }
    if test.read_ms is not None:
        words["time"] = Lasting(test.read_ms)
    if test.measured_ng_per_cm2 is not None:
        words["amount"] = Amount(test.measured_ng_per_cm2)
    if test.criterion:
        source = f" ({test.criterion_source})" if test.criterion_source else ""
        words["criterion"] = test.criterion + source
    return words


def _specimen(test: Test) -> Term:
    """What the test was made on; of several prints, only one can have given its border."""
    if len(test.covers) > 1 and test.specimen in _ONE_OF:
        return Term("specimen", _ONE_OF[test.specimen])
    return Term("specimen", test.specimen)


_ONE_OF: dict[Specimen, str] = {
    "border": "the trimmed border of one of the prints it covers",
    "print": "one of the prints it covers",
}


def _unknown(history: PrintHistory, findings: list[Finding]) -> Iterator[Claim]:
    done = {stage.name for stage in stages(history.steps)}
    if history.paper is None:
        yield _gap("paper")
    for stage in ("developed", "fixed", "washed"):
        if stage not in done:
            yield _gap(stage)
    if "washed" in done and not _washed_last(history):
        yield _gap("washed.after")
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
    if "toned" in done:
        yield _gap("conversion")


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
