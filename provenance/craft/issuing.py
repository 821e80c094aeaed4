"""Whether a certificate may be issued, and what would mend it where it may not."""

from collections.abc import Iterator

from provenance.craft.history import PrintHistory
from provenance.craft.proof import judge
from provenance.craft.sequence.contradictions import contradictions
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.texts import Rules
from provenance.craft.statement import QUESTIONS
from provenance.errors import Problem
from provenance.model.process import Question

_MEND: dict[Question, str] = {
    "silver": "fix it again in fresh fixer, wash it fully, repeat both tests and record them",
    "thiosulfate": "wash it again, repeat the thiosulfate test and record it",
}


def print_name(history: PrintHistory) -> str:
    """A print as a person names it: its edition, and its number or pencil mark."""
    body = history.print.body
    return f"{history.edition.body.code} {body.designation or body.mark}"


def obstacles(history: PrintHistory, rules: Rules) -> Iterator[Problem]:
    """What stands against certifying a print, each with what would mend it.

    Gaps in the record are no obstacle: the statement says them.  A failed test
    is one until its remedy and a repeated test are on record; so is an error of
    bleaching, toning or washing that the record shows, whose `rules` say what
    mends it.
    """
    body, name = history.print.body, print_name(history)
    if body.existence != "exists":
        yield Problem(f"it is {body.existence}", name, "existence", "nothing is left to certify")
    if body.designation is None:
        yield Problem("it has no number", name, "designation", "number it first")
    if body.signature is None:
        yield Problem("it is not signed", name, "signed", "record the signature first")
    if not history.scans:
        yield Problem("there is no picture of it", name, "scan", "add a scan: [[scan]]")
    for question in QUESTIONS:
        failed = judge(history, question).failed
        if failed is not None:
            yield Problem(
                f"the residual-{question} test of {failed.body.done_on} failed,"
                " and nothing on record mends it",
                name,
                f"test #{failed.id}",
                _MEND[question],
            )
    for fault in contradictions(history):
        if fault.blocks:
            text = rules.case[fault.case]
            steps = ", ".join(f"#{deed.record}" for deed in fault.deeds)
            yield Problem(f"{fault.what}: {_lower(text.why)}", name, steps, text.do)
            yield from _overridden(history, name, fault)
    for certificate in history.certificates:
        if certificate.body.state == "issued":
            yield Problem(
                f"certificate {certificate.body.number} is in force for it",
                name,
                "certificate",
                f"it is {certificate.body.file_name} in the studio's certificates",
            )


def _overridden(history: PrintHistory, name: str, fault: Fault) -> Iterator[Problem]:
    """Washing that would answer `fault`, had the printer not gone on without it."""
    for over in history.overrides:
        if over.body.finding == fault.case and not over.body.says_done and history.contradicted:
            yield Problem(
                f"{over.body.step} was begun on {over.on} without the wash that was entered"
                f" afterwards: “{over.body.why}”",
                name,
                f"run #{over.run}",
                "if it was washed all the same, say so in the explanation of the run",
            )


def _lower(sentence: str) -> str:
    """A sentence as it stands after a colon."""
    return sentence[:1].lower() + sentence[1:].rstrip(".")
