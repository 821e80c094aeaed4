"""Which residual tests count for the finished print, and which do not.

Residual silver asks whether fixing was complete: it is asked after the last fix
and its wash and before toning, since bleach and toners turn left-over silver
compounds into image or stain.  Residual thiosulfate asks whether washing was:
it is asked last of all.  A failed test stays open until its remedy and a
repeated test are on record (practice after Reilly, second-hand; the trade).
"""

from dataclasses import dataclass
from datetime import timedelta

from provenance.craft.history import Fact, PrintHistory, work_order
from provenance.model.chemistry import TONING, Role
from provenance.model.dates import earliest
from provenance.model.printing import Step
from provenance.model.process import Question
from provenance.model.proof import Test

SPOT_LATEST_MS = 5 * 60_000
"""A silver-nitrate spot goes on darkening in light; later readings do not count (S2)."""
METHYLENE_BLUE_WITHIN = timedelta(days=14)
"""Methylene blue is done within 14 days of processing (S, laboratory practice)."""

REMEDY: dict[Question, Role] = {"silver": "fix", "thiosulfate": "wash"}
"""What mends a failed test, before it is repeated."""


@dataclass(frozen=True)
class Discounted:
    """A test that does not count, and why (a wording id)."""

    test: Fact[Test]
    why: str


@dataclass(frozen=True)
class Mended:
    """A test that failed, and the steps that mended it before it was repeated."""

    test: Fact[Test]
    remedy: tuple[Fact[Step], ...]


@dataclass(frozen=True)
class Finding:
    """What the record answers to one question.

    `passed` is the latest test that counts, `failed` a failure that nothing on
    record has mended.  At most one of them is set; both may be None.
    """

    question: Question
    passed: Fact[Test] | None = None
    failed: Fact[Test] | None = None
    mended: tuple[Mended, ...] = ()
    discounted: tuple[Discounted, ...] = ()


def judge(history: PrintHistory, question: Question) -> Finding:
    """Weigh the tests of one question, oldest first."""
    passed: Fact[Test] | None = None
    failed: Fact[Test] | None = None
    mended: list[Mended] = []
    discounted: list[Discounted] = []
    for test in history.tests:
        if test.body.question != question:
            continue
        if test.body.verdict == "failed":
            passed, failed = None, test
            continue
        why = _why_not(history, test)
        if not why and failed is not None:
            remedy = _remedy(history, failed, test)
            if remedy:
                mended.append(Mended(failed, remedy))
            else:
                why = "no remedy"
        if why:
            discounted.append(Discounted(test, why))
        else:
            passed, failed = test, None
    return Finding(question, passed, failed, tuple(mended), tuple(discounted))


def _why_not(history: PrintHistory, test: Fact[Test]) -> str:
    """Why a test that did not fail does not count; empty when it does."""
    if test.body.verdict == "unclear":
        return "unclear"
    at = work_order(test)
    before = [step for step in history.steps if work_order(step) < at]
    after = [step for step in history.steps if work_order(step) > at]
    if test.body.question == "thiosulfate":
        if after:
            return "before the last wash"
        return _read_badly(history, test)
    if any(step.body.role == "fix" for step in after):
        return "before the last fix"
    if any(step.body.role in TONING for step in before):
        return "after toning"
    fixes = [index for index, step in enumerate(before) if step.body.role == "fix"]
    if not fixes:
        return "no fix before it"
    if not any(step.body.role == "wash" for step in before[fixes[-1] :]):
        return "before the wash"
    return _read_badly(history, test)


def _read_badly(history: PrintHistory, test: Fact[Test]) -> str:
    body = test.body
    late = body.read_ms is not None and body.read_ms > SPOT_LATEST_MS
    if body.method == "silver-nitrate spot" and late:
        return "read late"
    if body.method == "methylene blue" and history.steps:
        done = earliest(history.steps[-1].body.done_on)
        if earliest(body.done_on) - done > METHYLENE_BLUE_WITHIN:
            return "too long after"
    return ""


def _remedy(history: PrintHistory, failed: Fact[Test], test: Fact[Test]) -> tuple[Fact[Step], ...]:
    """The steps between the two tests, when the one that mends is among them."""
    between = tuple(
        step for step in history.steps if work_order(failed) < work_order(step) < work_order(test)
    )
    mends = REMEDY[failed.body.question]
    return between if any(step.body.role == mends for step in between) else ()
