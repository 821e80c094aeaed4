"""Tells a print's way in plain lines: steps, tests, findings, what would stop it."""

from collections.abc import Iterator
from dataclasses import replace as replaced

from msgspec.structs import replace

from provenance.craft.history import Fact, PrintHistory, work_order
from provenance.craft.issuing import obstacles
from provenance.craft.proof import judge
from provenance.craft.statement import QUESTIONS
from provenance.craft.wording import Wording
from provenance.model.certificate import IssuedClaim
from provenance.model.dates import format_edtf
from provenance.model.printing import Printing, Step
from provenance.model.prints import Scan
from provenance.model.process import Question
from provenance.model.proof import Test
from provenance.model.quantity_text import (
    format_dilution,
    format_duration,
    format_stops,
    format_temperature,
)
from provenance.studio.sequences import load_rules

_COUNTS: dict[Question, str] = {
    "silver": "it was made after the last fix and its wash, and before toning",
    "thiosulfate": "nothing was done to the print after it",
}


def work_lines(history: PrintHistory) -> Iterator[str]:
    """The exposure, then every step and test in the order of work."""
    yield from _exposure(history.printing.body)
    facts: list[Fact[Step] | Fact[Test]] = [*history.steps, *history.tests]
    for fact in sorted(facts, key=work_order):
        body = fact.body
        yield _step(history, body) if isinstance(body, Step) else _test(body)


def _exposure(printing: Printing) -> Iterator[str]:
    exposure = printing.exposure
    if exposure is None or exposure.base_ms is None:
        return
    aperture = f" at f/{(exposure.aperture_tenth or 0) / 10:g}" if exposure.aperture_tenth else ""
    grade = f", grade {exposure.grade}" if exposure.grade else ""
    yield _line("exposure", f"{format_duration(exposure.base_ms)}{aperture}{grade}")
    for burn in exposure.burns:
        what = "burn" if burn.milli_stop > 0 else "dodge"
        grade = f", grade {burn.grade}" if burn.grade else ""
        yield _line("", f"{what} {format_stops(burn.milli_stop)}: {burn.area}{grade}")


def _step(history: PrintHistory, step: Step) -> str:
    time = step.duration_for(history.print.id)
    parts = [format_duration(time) if time is not None else "time not on record"]
    if step.temperature_tenth_c is not None:
        parts[0] += f" at {format_temperature(step.temperature_tenth_c)}"
    bath = history.bath(step.bath)
    if bath is not None:
        parts.append(f"{bath.code}, {bath.made_from}")
        if bath.dilution is not None:
            parts[-1] += f" {format_dilution(bath.dilution)}"
    return _line(step.name or step.role, "; ".join(parts))


def _test(test: Test) -> str:
    read = f" after {format_duration(test.read_ms)}" if test.read_ms is not None else ""
    return _line(
        f"{test.question} test",
        f"{test.method} on the {test.specimen}: {test.reading}{read}; {test.verdict}",
    )


def finding_lines(history: PrintHistory, wording: Wording) -> Iterator[str]:
    """What the record answers to each question, and which tests do not count."""
    for question in QUESTIONS:
        finding = judge(history, question)
        if finding.passed is not None:
            yield _line(f"residual {question}", f"the test counts: {_COUNTS[question]}")
        for discounted in finding.discounted:
            why = wording.term("discounted", discounted.why)
            yield _line(f"residual {question}", f"a test does not count: {why}")


def finishing_lines(history: PrintHistory) -> Iterator[str]:
    """Number, signature and scans."""
    body = history.print.body
    yield _line("number", f"{body.designation}, on the sheet marked {body.mark}")
    signature = body.signature
    if signature is not None:
        how = ", ".join(filter(None, (signature.medium, signature.where)))
        yield _line("signature", f"{how}, {format_edtf(signature.on)}")
    for scan in history.scans:
        yield _line("scan", _scan(scan.body))


def _scan(scan: Scan) -> str:
    return f"{scan.file_name}, {scan.width_px} × {scan.height_px} px, {scan.bits} bit {scan.colour}"


def stopping_lines(history: PrintHistory, held_back: PrintHistory) -> Iterator[str]:
    """What would have stopped the certificate: the rules asked of the print as it might be."""
    bare = replace(history.print.body, designation=None, signature=None)
    unfinished = replaced(history, print=replaced(history.print, body=bare), scans=())
    yield from _obstacles("had it not been finished", unfinished)
    for question in QUESTIONS:
        yield from _obstacles(f"had the {question} test failed", _failing(history, question))
    other = f"{held_back.edition.body.code} {held_back.print.body.designation}"
    yield from _obstacles(f"as it stops {other}", held_back)


def _obstacles(when: str, history: PrintHistory) -> Iterator[str]:
    for problem in obstacles(history, load_rules()):
        yield _line(when, f"{problem.what}; {problem.mend}")


def _failing(history: PrintHistory, question: Question) -> PrintHistory:
    """The same history, had the tests of `question` failed."""

    def failed(fact: Fact[Test]) -> Fact[Test]:
        if fact.body.question != question:
            return fact
        return replaced(fact, body=replace(fact.body, verdict="failed"))

    return replaced(history, tests=tuple(failed(fact) for fact in history.tests))


def statement_lines(claims: tuple[IssuedClaim, ...], wording: Wording) -> Iterator[str]:
    """Each sentence of the statement with its standing."""
    for claim in claims:
        yield f"  {claim.sentence}  [{wording.standing(claim.standing)}]"


def _line(name: str, text: str) -> str:
    return f"  {name:<33}{text}"
