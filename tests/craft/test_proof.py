"""Which tests count, and each way in which one does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.history import Fact, comes_before
from provenance.craft.proof import judge
from provenance.model.printing import OwnTime, Step
from provenance.model.process import Question
from provenance.model.proof import Test
from tests.craft.histories import (
    DAY,
    FIX_B,
    MINUTE,
    NEXT_DAY,
    OTHER,
    PRINT,
    asked,
    days_after,
    did,
    entered,
    fixed,
    history,
    ordinary,
)

FIXED_AND_WASHED = (did("develop"), fixed(), did("wash"))
BOTH = (PRINT, OTHER)
TOGETHER = {"sheets": BOTH}


Work = Step | Test | Fact


def verdict(question: Question, *work: Work) -> str:
    """What the record answers: passed, failed, or why its last test does not count."""
    finding = judge(history(*work), question)
    if finding.passed:
        return "passed"
    if finding.failed:
        return "failed"
    return finding.discounted[-1].why if finding.discounted else "none"


SILVER = {
    "an ordinary print": (ordinary(), "passed"),
    "no test": (FIXED_AND_WASHED, "none"),
    "on an untoned print": ((*FIXED_AND_WASHED, asked("silver")), "passed"),
    "before the last fix": (
        (*FIXED_AND_WASHED, asked("silver"), fixed(), did("wash")),
        "before the last fix",
    ),
    "before any fix": ((asked("silver"), fixed(), did("wash")), "no fix before it"),
    "with no fix on record": ((did("wash"), asked("silver")), "no fix before it"),
    "with nothing on record": ((asked("silver"),), "no fix before it"),
    "before the wash": ((fixed(), asked("silver"), did("wash")), "before the wash"),
    "with no wash at all": ((fixed(), asked("silver")), "before the wash"),
    "after a rinse only": ((fixed(), did("rinse"), asked("silver")), "before the wash"),
    "after aid only": ((fixed(), did("washing aid"), asked("silver")), "before the wash"),
    "washed before the second fix only": (
        (fixed(), did("wash"), fixed(FIX_B), asked("silver")),
        "before the wash",
    ),
    "after a toner": ((*FIXED_AND_WASHED, did("selenium"), asked("silver")), "after toning"),
    "after the toning bleach": (
        (*FIXED_AND_WASHED, did("bleach"), asked("silver"), did("thiourea")),
        "after toning",
    ),
    "after a reducing bleach, fixed again": (
        (*FIXED_AND_WASHED, did("bleach"), fixed(), did("wash"), asked("silver")),
        "passed",
    ),
    "after selenium straight from the second fix": (
        (fixed(), fixed(FIX_B), did("selenium"), did("wash"), asked("silver")),
        "after toning",
    ),
    "unclear": ((*FIXED_AND_WASHED, asked("silver", "unclear")), "unclear"),
    "failed": ((*FIXED_AND_WASHED, asked("silver", "failed")), "failed"),
    "failed, repeated as it was": (
        (*FIXED_AND_WASHED, asked("silver", "failed"), asked("silver")),
        "failed",
    ),
    "failed, only washed": (
        (*FIXED_AND_WASHED, asked("silver", "failed"), did("wash"), asked("silver")),
        "failed",
    ),
    "failed, fixed again, not tested": (
        (*FIXED_AND_WASHED, asked("silver", "failed"), fixed(), did("wash")),
        "failed",
    ),
    "failed, fixed again, tested before the wash": (
        (*FIXED_AND_WASHED, asked("silver", "failed"), fixed(), asked("silver")),
        "failed",
    ),
    "failed, fixed again, tested again": (
        (*FIXED_AND_WASHED, asked("silver", "failed"), fixed(), did("wash"), asked("silver")),
        "passed",
    ),
    "passed, then failed": (
        (*FIXED_AND_WASHED, asked("silver"), asked("silver", "failed")),
        "failed",
    ),
    "passed, then unclear": (
        (*FIXED_AND_WASHED, asked("silver"), asked("silver", "unclear")),
        "passed",
    ),
    "a stain after toning blocks all the same": (
        (*FIXED_AND_WASHED, asked("silver"), did("selenium"), asked("silver", "failed")),
        "failed",
    ),
}


@pytest.mark.parametrize(("work", "expected"), SILVER.values(), ids=SILVER)
def test_silver_counts_after_the_last_fix_and_wash_and_before_toning(
    work: tuple[Work, ...], expected: str
) -> None:
    assert verdict("silver", *work) == expected


def spot(**fields: object) -> Test:
    return asked("thiosulfate", **fields)


def blue(days: int) -> Test:
    return spot(method="methylene blue", done_on=days_after(days))


THIOSULFATE = {
    "an ordinary print": (ordinary(), "passed"),
    "before the last wash": (
        (fixed(), spot(), did("wash")),
        "before the last wash",
    ),
    "before a later toner": (
        (*FIXED_AND_WASHED, spot(), did("selenium")),
        "before the last wash",
    ),
    "before a later rinse": (
        (*FIXED_AND_WASHED, spot(), did("rinse")),
        "before the last wash",
    ),
    "before the print was fixed again": (ordinary(fixed(), did("wash")), "before the last wash"),
    "of an old print with no bath on record": ((spot(),), "passed"),
    "read at five minutes": ((*FIXED_AND_WASHED, spot(read_ms=5 * MINUTE)), "passed"),
    "read late": ((*FIXED_AND_WASHED, spot(read_ms=5 * MINUTE + 1)), "read late"),
    "left late, no reading time": (
        (*FIXED_AND_WASHED, spot(contact_ms=6 * MINUTE, read_ms=None)),
        "read late",
    ),
    "blotted early": ((*FIXED_AND_WASHED, spot(contact_ms=MINUTE)), "read early"),
    "read early": ((*FIXED_AND_WASHED, spot(contact_ms=None, read_ms=MINUTE)), "read early"),
    "no times on record": ((*FIXED_AND_WASHED, spot(contact_ms=None, read_ms=None)), "passed"),
    "methylene blue on the 14th day": ((*FIXED_AND_WASHED, blue(14)), "passed"),
    "methylene blue on the 15th day": ((*FIXED_AND_WASHED, blue(15)), "too long after"),
    "methylene blue long after a print with no bath on record": ((blue(15),), "too long after"),
    "methylene blue in the month of the last bath": (
        (
            did("wash", done_on="2031-02"),
            spot(method="methylene blue", done_on="2031-03-01"),
        ),
        "days not known closely enough",
    ),
    "methylene blue read late is no spot": (
        (*FIXED_AND_WASHED, spot(method="methylene blue", read_ms=30 * MINUTE)),
        "passed",
    ),
    "failed": ((*FIXED_AND_WASHED, spot(verdict="failed")), "failed"),
    "failed, repeated as it was": (
        (*FIXED_AND_WASHED, spot(verdict="failed"), spot()),
        "failed",
    ),
    "failed, washed again, tested again": (
        (*FIXED_AND_WASHED, spot(verdict="failed"), did("wash"), spot()),
        "passed",
    ),
    "failed, rinsed, tested again": (
        (*FIXED_AND_WASHED, spot(verdict="failed"), did("rinse"), spot()),
        "failed",
    ),
}


@pytest.mark.parametrize(("work", "expected"), THIOSULFATE.values(), ids=THIOSULFATE)
def test_thiosulfate_counts_last_of_all(work: tuple[Work, ...], expected: str) -> None:
    assert verdict("thiosulfate", *work) == expected


SHARED = {
    "all together": (
        (fixed(**TOGETHER), did("wash", **TOGETHER), asked("silver", covers=BOTH)),
        "passed",
    ),
    "fixed apart": (
        (fixed(), did("wash", **TOGETHER), asked("silver", covers=BOTH)),
        "not treated alike",
    ),
    "one fixed for longer": (
        (
            fixed(**TOGETHER, own=(OwnTime(sheet=OTHER, duration_ms=MINUTE),)),
            did("wash", **TOGETHER),
            asked("silver", covers=BOTH),
        ),
        "not treated alike",
    ),
    "developed apart": (
        (did("develop"), fixed(**TOGETHER), did("wash", **TOGETHER), asked("silver", covers=BOTH)),
        "passed",
    ),
    "one toned apart, washing tested": (
        (fixed(**TOGETHER), did("selenium"), did("wash", **TOGETHER), spot(covers=BOTH)),
        "not treated alike",
    ),
    "one toned for longer, washing tested": (
        (
            fixed(**TOGETHER),
            did("selenium", **TOGETHER, own=(OwnTime(sheet=OTHER, duration_ms=MINUTE),)),
            did("wash", **TOGETHER),
            spot(covers=BOTH),
        ),
        "passed",
    ),
    "one washed for longer": (
        (
            fixed(**TOGETHER),
            did("wash", **TOGETHER, own=(OwnTime(sheet=PRINT, duration_ms=MINUTE),)),
            spot(covers=BOTH),
        ),
        "not treated alike",
    ),
}


@pytest.mark.parametrize(("work", "expected"), SHARED.values(), ids=SHARED)
def test_one_specimen_speaks_for_prints_that_went_through_the_same(
    work: tuple[Work, ...], expected: str
) -> None:
    assert verdict(work[-1].question, *work) == expected


VAGUE = {
    "a wash of the year, a test of a day in it": (
        "thiosulfate",
        (did("wash", done_on="1998"), spot(done_on="1998-06-10")),
        "order not on record",
    ),
    "a wash of one year, a test of the next": (
        "thiosulfate",
        (did("wash", done_on="1998"), spot(done_on="1999-01-01")),
        "passed",
    ),
    "all of one year, in the order written down": (
        "thiosulfate",
        (did("wash", done_on="1998"), spot(done_on="1998")),
        "passed",
    ),
    "a fix of the month, a test of a day in it": (
        "silver",
        (
            fixed(done_on="1998-05"),
            did("wash", done_on="1998-05"),
            fixed(done_on="1998-06"),
            asked("silver", done_on="1998-06-10"),
        ),
        "order not on record",
    ),
    "a wash that may have come before the fix": (
        "silver",
        (
            fixed(done_on="1998-06"),
            did("wash", done_on="1998-06-10"),
            asked("silver", done_on="1999"),
        ),
        "before the wash",
    ),
    "a wash with no end": (
        "thiosulfate",
        (did("wash", done_on="1998/.."), spot(done_on="2031")),
        "order not on record",
    ),
}


@pytest.mark.parametrize(("question", "work", "expected"), VAGUE.values(), ids=VAGUE)
def test_an_order_that_the_record_leaves_open_speaks_for_nothing(
    question: Question, work: tuple[Work, ...], expected: str
) -> None:
    assert verdict(question, *work) == expected


def test_the_place_decides_within_a_day_and_the_order_of_entry_never() -> None:
    wash = did("wash", place=3)
    assert verdict("thiosulfate", spot(place=4), wash) == "passed"
    assert verdict("thiosulfate", spot(place=2), wash) == "before the last wash"
    assert verdict("thiosulfate", wash, spot(place=3)) == "order not on record"


def test_every_failure_that_was_mended_is_kept_with_its_remedy() -> None:
    held = history(
        *FIXED_AND_WASHED,
        asked("silver", "failed"),
        fixed(),
        did("wash"),
        asked("silver", "failed"),
        fixed(FIX_B),
        did("wash"),
        asked("silver"),
    )
    finding = judge(held, "silver")
    assert [mended.test.body.place for mended in finding.mended] == [4, 7]
    assert [step.body.role for step in finding.mended[1].remedy] == ["fix", "wash"]


def test_a_failure_entered_later_blocks_what_passed_on_the_day() -> None:
    late = entered(asked("thiosulfate", "failed", done_on=NEXT_DAY), "2034-01-01", "memory")
    assert verdict("thiosulfate", *FIXED_AND_WASHED, spot(), late) == "failed"


ROLES = st.sampled_from(["develop", "fix", "wash", "washing aid", "rinse", "bleach", "selenium"])
DATES = st.sampled_from(["2031", "2031-03", DAY, NEXT_DAY, "2031-03-04"])
WORK = st.lists(
    st.one_of(
        st.builds(lambda role, on: did(role, done_on=on), ROLES, DATES),
        st.builds(
            lambda question, result, on: asked(question, result, done_on=on),
            st.sampled_from(["silver", "thiosulfate"]),
            st.sampled_from(["passed", "failed", "unclear"]),
            DATES,
        ),
    ),
    max_size=9,
)


@given(WORK, ROLES)
def test_a_later_bath_never_makes_the_washing_pass(work: list[Work], role: str) -> None:
    held = judge(history(*work), "thiosulfate")
    again = judge(history(*work, did(role, done_on="2031-04")), "thiosulfate")
    assert again.passed is None
    assert again.failed is not None or held.failed is None


@given(WORK)
def test_a_question_is_passed_or_failed_and_never_both(work: list[Work]) -> None:
    for question in ("silver", "thiosulfate"):
        finding = judge(history(*work), question)
        assert finding.passed is None or finding.failed is None
        assert all(discounted.test != finding.passed for discounted in finding.discounted)


@given(WORK)
def test_what_comes_before_never_comes_after(work: list[Work]) -> None:
    held = history(*work)
    for step in held.steps:
        for test in held.tests:
            assert not (comes_before(step, test) and comes_before(test, step))
