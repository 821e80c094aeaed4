"""Which residual tests count for the finished print, and which do not.

Residual silver asks whether fixing was complete: it is asked after the last fix
and its wash and before toning, since bleach and toners turn left-over silver
compounds into image or stain.  Residual thiosulfate asks whether washing was:
it is asked last of all.  A failed test stays open until its remedy and a
repeated test are on record (practice after Reilly, second-hand; the trade).
What the record leaves open, such as which came first, never speaks for a test.
"""

from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from provenance.craft.history import Fact, PrintHistory, comes_before
from provenance.model.chemistry import TONERS, TONING, Role
from provenance.model.dates import earliest, latest
from provenance.model.printing import Step
from provenance.model.process import Question
from provenance.model.proof import Test

SPOT_EARLIEST_MS = 2 * 60_000
"""How long a silver-nitrate drop is left (S, *Radiography in Modern Industry*)."""
SPOT_LATEST_MS = 5 * 60_000
"""A silver-nitrate spot goes on darkening in light; later readings do not count (S2)."""
METHYLENE_BLUE_WITHIN = timedelta(days=14)
"""Methylene blue is done within 14 days of processing (S, laboratory practice)."""

REMEDY: dict[Question, Role] = {"silver": "fix", "thiosulfate": "wash"}
"""What mends a failed test, before it is repeated."""


Why = Literal[
    "unclear",
    "before the last fix",
    "after toning",
    "no fix before it",
    "before the wash",
    "before the last wash",
    "order not on record",
    "not treated alike",
    "read early",
    "read late",
    "too long after",
    "days not known closely enough",
    "no remedy",
]
"""Why a test does not count, by its name in the wording."""

_SHARED: dict[Question, frozenset[Role]] = {
    "silver": frozenset({"fix"}),
    "thiosulfate": TONERS | {"fix", "washing aid", "wash"},
}
"""Baths that prints must have shared for one specimen to speak for all of them."""


@dataclass(frozen=True)
class Discounted:
    """A test that does not count, and why."""

    test: Fact[Test]
    why: Why


@dataclass(frozen=True)
class Mended:
    """A test that failed, and the steps that mended it before it was repeated."""

    test: Fact[Test]
    remedy: tuple[Fact[Step], ...]


@dataclass(frozen=True)
class Finding:
    """What the record answers to one question.

    `passed` is the latest test that counts, `failed` the latest failure that
    nothing on record has mended.  At most one of them is set; both may be None.
    """

    question: Question
    passed: Fact[Test] | None = None
    failed: Fact[Test] | None = None
    mended: tuple[Mended, ...] = ()
    discounted: tuple[Discounted, ...] = ()


def judge(history: PrintHistory, question: Question) -> Finding:
    """Weigh the tests of one question, oldest first."""
    passed: Fact[Test] | None = None
    failures: list[Fact[Test]] = []
    mended: list[Mended] = []
    discounted: list[Discounted] = []
    for test in history.tests:
        if test.body.question != question:
            continue
        if test.body.verdict == "failed":
            passed = None
            failures.append(test)
            continue
        why = _why_not(history, test)
        remedies = [_remedy(history, failed, test) for failed in failures]
        if why is None and not all(remedies):
            why = "no remedy"
        if why is not None:
            discounted.append(Discounted(test, why))
            continue
        mended += map(Mended, failures, remedies)
        passed, failures = test, []
    failed = failures[-1] if failures else None
    return Finding(question, passed, failed, tuple(mended), tuple(discounted))


def _why_not(history: PrintHistory, test: Fact[Test]) -> Why | None:
    """Why a test that did not fail does not count; None when it does."""
    if test.body.verdict == "unclear":
        return "unclear"
    before = tuple(step for step in history.steps if comes_before(step, test))
    after = tuple(step for step in history.steps if comes_before(test, step))
    untold = tuple(step for step in history.steps if step not in before + after)
    out_of_place = _silver if test.body.question == "silver" else _thiosulfate
    return (
        out_of_place(before, after, untold)
        or (None if _alike(test.body, before) else "not treated alike")
        or _read_badly(history, test.body)
    )


Steps = tuple[Fact[Step], ...]


def _silver(before: Steps, after: Steps, untold: Steps) -> Why | None:
    fixes = [step for step in before if step.body.role == "fix"]
    washes = [step for step in before if step.body.role == "wash"]
    if _any_of(after, {"fix"}):
        return "before the last fix" if fixes else "no fix before it"
    if _any_of(before, TONERS) or any(_still_bleached(step, fixes) for step in before):
        return "after toning"
    if _any_of(untold, TONING | {"fix", "wash"}):
        return "order not on record"
    if not fixes:
        return "no fix before it"
    if not any(all(comes_before(fix, wash) for fix in fixes) for wash in washes):
        return "before the wash"
    return None


def _still_bleached(step: Fact[Step], fixes: list[Fact[Step]]) -> bool:
    """Whether `step` is a bleach that no fixing followed, as it follows a reducing bleach."""
    return step.body.role == "bleach" and not any(comes_before(step, fix) for fix in fixes)


def _thiosulfate(before: Steps, after: Steps, untold: Steps) -> Why | None:
    if after:
        return "before the last wash"
    return "order not on record" if untold else None


def _any_of(steps: Steps, roles: AbstractSet[Role]) -> bool:
    return any(step.body.role in roles for step in steps)


def _alike(test: Test, before: Steps) -> bool:
    """Whether the prints that one specimen speaks for went through the same baths.

    How long each was toned says nothing of fixing or washing, and may differ.
    """
    for step in (fact.body for fact in before):
        if step.role not in _SHARED[test.question]:
            continue
        times = {step.duration_for(sheet) for sheet in test.covers}
        if not set(step.sheets).issuperset(test.covers):
            return False
        if len(times) > 1 and step.role not in TONERS:
            return False
    return True


def _read_badly(history: PrintHistory, test: Test) -> Why | None:
    if test.method == "silver-nitrate spot":
        times = [time for time in (test.contact_ms, test.read_ms) if time is not None]
        if times and min(times) < SPOT_EARLIEST_MS:
            return "read early"
        if times and max(times) > SPOT_LATEST_MS:
            return "read late"
    if test.method == "methylene blue":
        last = history.steps[-1].body.done_on if history.steps else history.printing.body.done_on
        if earliest(test.done_on) - latest(last) > METHYLENE_BLUE_WITHIN:
            return "too long after"
        if latest(test.done_on) - earliest(last) > METHYLENE_BLUE_WITHIN:
            return "days not known closely enough"
    return None


def _remedy(history: PrintHistory, failed: Fact[Test], test: Fact[Test]) -> Steps:
    """The steps between the two tests, when the one that mends is among them."""
    between = tuple(
        step for step in history.steps if comes_before(failed, step) and comes_before(step, test)
    )
    return between if _any_of(between, {REMEDY[failed.body.question]}) else ()
