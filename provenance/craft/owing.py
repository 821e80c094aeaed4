"""What a print still owes before it can leave the studio, read from its history."""

from functools import cache
from typing import Literal

from provenance.craft.history import PrintHistory
from provenance.craft.proof import Why, judge
from provenance.model.chemistry import TONING
from provenance.model.process import Question

Debt = Literal["silver", "thiosulfate", "finish", "number", "signature", "scan", "certificate"]
"""A residual test, what is done after the wash, a number, a signature, a picture, a certificate."""

_QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")


def owed(history: PrintHistory) -> dict[Debt, Why | None]:
    """Everything that a print owes; of a test that was done and does not count, why."""
    debts: dict[Debt, Why | None] = {}
    # after toning a silver test tells nothing; it is no longer owed
    toned = any(step.body.role in TONING for step in history.steps)
    for question in _QUESTIONS:
        finding = judge(history, question)
        late = question == "silver" and toned and finding.failed is None
        if finding.passed is None and not late:
            whys = [one.why for one in finding.discounted if one.test.body.verdict == "passed"]
            debts[question] = whys[-1] if whys else None
    body = history.print.body
    papers = _papers(body.designation is not None, body.signature is not None)
    debts |= dict.fromkeys(papers)
    if not history.scans:
        debts["scan"] = None
    if not debts:
        debts["certificate"] = None
    # asked once it is washed; a certificate says that it is not on record, and does not wait
    if "thiosulfate" not in debts and not any(one.body.drying for one in history.finishes):
        debts["finish"] = None
    return debts


@cache
def owed_untouched(*, numbered: bool, signed: bool) -> tuple[Debt, ...]:
    """What a print owes of which nothing but the print itself is on record."""
    return ("silver", "thiosulfate", *_papers(numbered, signed), "scan")


def _papers(numbered: bool, signed: bool) -> tuple[Debt, ...]:
    if not numbered:
        return ("number",)
    return () if signed else ("signature",)
