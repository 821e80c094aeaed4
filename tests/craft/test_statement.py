"""What the record of a print supports: which claims, how well known, on which evidence."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.proof import judge
from provenance.craft.standing import paper_standing, printing_standing, standing_of
from provenance.craft.standing import step_standing as of_step
from provenance.craft.standing import test_standing as of_test
from provenance.craft.statement import CLAIMS, QUESTIONS, statement
from provenance.model.chemistry import TONING, Bath
from provenance.model.evidence import Claim, Lasting, Standing, Term, When, weakest
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import OwnTime, Printing, Step
from provenance.model.proof import Test
from provenance.model.quantities import Dilution
from tests.craft.histories import (
    DAY,
    FIX_A,
    FIX_B,
    FIX_C,
    MINUTE,
    NEGATIVE,
    NEXT_DAY,
    OTHER,
    PAPER,
    PRINT,
    PRINTING,
    a_print,
    asked,
    did,
    entered,
    fixed,
    history,
    known,
    ordinary,
)

Work = Step | Test | Fact


def ids(*work: Work, **other: object) -> list[str]:
    """The claims that `work` supports, in the order of reading.

    How the print was finished is on none of these records, and said last.
    """
    *found, last = [claim.id for claim in statement(history(*work, **other))]
    assert last == "unknown.finished"
    return found


def claim(name: str, *work: Work, **other: object) -> Claim:
    """The one claim of that name."""
    (found,) = [one for one in statement(history(*work, **other)) if one.id == name]
    return found


GAPS = ["unknown.developed", "unknown.fixed", "unknown.washed"]
UNTESTED = ["unknown.silver", "unknown.thiosulfate"]

MATRIX: dict[str, tuple[tuple[Work, ...], list[str]]] = {
    "nothing but the printing": ((), ["made.printed.on", *GAPS, *UNTESTED]),
    "an ordinary toned print": (
        ordinary(),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.two",
            "made.washed",
            "made.toned",
            "made.washed.after",
            "tested.silver.seen.before",
            "tested.thiosulfate.seen",
            "unknown.conversion",
        ],
    ),
    "an untoned print, fixing not tested": (
        (did("develop"), fixed(), did("wash"), asked("thiosulfate")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "tested.thiosulfate.seen",
            "unknown.silver",
        ],
    ),
    "selenium straight from the second fix": (
        (did("develop"), fixed(FIX_A), fixed(FIX_B), did("selenium"), did("wash")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.two",
            "made.toned",
            "made.washed.after",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "toned twice, washed between": (
        (did("develop"), fixed(), did("wash"), did("sulfide"), did("wash"), did("selenium")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.toned",
            "made.washed.after",
            "made.toned",
            "unknown.washed.after",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "reduced, fixed again, not washed again": (
        (did("develop"), fixed(), did("wash"), did("bleach"), fixed()),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.bleached",
            "made.fixed.one",
            "unknown.washed.after",
            *UNTESTED,
        ],
    ),
    "bleached, washed, then toned": (
        (
            did("develop"),
            fixed(),
            did("wash"),
            did("bleach"),
            did("wash"),
            did("sulfide"),
            did("wash"),
        ),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.bleached",
            "made.washed",
            "made.toned",
            "made.washed.after",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "bleached with no wash on record": (
        (did("develop"), fixed(), did("bleach"), did("rinse"), did("sulfide"), did("wash")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.toned",
            "made.washed.after",
            "unknown.bleach.wash",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "bleached after a short wash, washed too little, and left so": (
        (
            did("develop"),
            fixed(),
            did("wash", duration_ms=MINUTE),
            did("bleach"),
            did("gold"),
            did("bleach"),
            did("wash", duration_ms=MINUTE),
        ),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.toned",
            "made.washed.after",
            "unknown.bleach.short",
            "unknown.bleach.end",
            "unknown.washed.short",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "rinses and presoaks are not worth a sentence": (
        (
            did("develop"),
            fixed(),
            did("rinse"),
            did("wash"),
            did("presoak"),
            did("bleach"),
            did("rinse"),
            did("thiourea"),
        ),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.toned",
            "unknown.washed.after",
            *UNTESTED,
            "unknown.conversion",
        ],
    ),
    "fixed again after both tests": (
        (
            did("develop"),
            fixed(),
            did("wash"),
            asked("silver"),
            asked("thiosulfate"),
            fixed(FIX_B, done_on=NEXT_DAY),
            did("wash", done_on=NEXT_DAY),
        ),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.fixed.one",
            "made.washed",
            "unknown.silver",
            "unknown.silver.discounted",
            "unknown.thiosulfate",
            "unknown.thiosulfate.discounted",
        ],
    ),
    "failed and not mended": (
        (did("develop"), fixed(), did("wash"), asked("silver", "failed"), asked("silver")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "tested.silver.failed",
            "unknown.silver.discounted",
            "unknown.thiosulfate",
        ],
    ),
    "failed, mended and passed": (
        (
            did("develop"),
            fixed(),
            did("wash"),
            asked("silver", "failed"),
            fixed(FIX_B),
            did("wash"),
            asked("silver"),
            asked("thiosulfate"),
        ),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.fixed.one",
            "made.washed",
            "tested.silver.seen",
            "tested.silver.mended",
            "tested.thiosulfate.seen",
        ],
    ),
    "resin-coated, with a stabiliser": (
        (did("develop"), fixed(), did("wash"), did("stabilise")),
        [
            "made.printed.on",
            "made.developed",
            "made.fixed.one",
            "made.washed",
            "made.stabilised",
            *UNTESTED,
        ],
    ),
}


@pytest.mark.parametrize(("work", "expected"), MATRIX.values(), ids=MATRIX)
def test_the_record_decides_which_sentences_there_are(
    work: tuple[Work, ...], expected: list[str]
) -> None:
    assert ids(*work) == expected


@pytest.mark.parametrize(
    ("work", "expected"),
    [
        ((fixed(FIX_A), fixed(FIX_B)), "made.fixed.two"),
        ((fixed(FIX_A), fixed(FIX_A)), "made.fixed.one"),
        ((fixed(FIX_A), fixed(FIX_B), fixed(FIX_A)), "made.fixed.two"),
        ((fixed(FIX_A), fixed(FIX_B), fixed(FIX_C)), "made.fixed"),
        ((fixed(FIX_A), fixed(None)), "made.fixed"),
        ((fixed(None), fixed(None)), "made.fixed"),
        ((fixed(None),), "made.fixed.one"),
    ],
)
def test_two_baths_are_two_trays_on_record(work: tuple[Work, ...], expected: str) -> None:
    assert [name for name in ids(*work) if name.startswith("made.fixed")] == [expected]


def test_baths_of_two_days_are_two_sentences() -> None:
    held = statement(history(did("bleach"), did("thiourea", done_on=NEXT_DAY)))
    said = {one.id: one.words.get("when") for one in held}
    assert (said["made.bleached"], said["made.toned"]) == (When(DAY), When(NEXT_DAY))


def test_after_toning_is_said_of_a_wash_only_where_the_record_shows_it() -> None:
    toned = did("selenium", done_on="2031-03-02")
    assert "made.washed.after" in ids(toned, did("wash", done_on=NEXT_DAY))
    assert "made.washed.after" not in ids(toned, did("wash", done_on="2031-03"))
    assert "made.washed.after" not in ids(did("bleach"), fixed(), did("wash"))


def test_before_toning_is_not_said_where_only_a_bleach_reduced_the_print() -> None:
    reduced = (did("bleach"), fixed(), did("wash"), asked("silver"))
    assert "tested.silver.seen" in ids(fixed(), did("wash"), *reduced)


def test_a_print_has_its_own_time_in_a_bath() -> None:
    own = (OwnTime(sheet=PRINT, duration_ms=90_000),)
    assert claim("made.fixed.one", fixed(own=own)).words["baths"][0].duration_ms == 90_000
    others = (OwnTime(sheet=OTHER, duration_ms=90_000),)
    held = claim("made.fixed.one", fixed(sheets=(PRINT, OTHER), own=others))
    assert held.words["baths"][0].duration_ms == 5 * MINUTE
    untimed = claim("made.fixed.one", fixed(duration_ms=None))
    assert untimed.words["baths"][0].duration_ms is None


def test_a_bath_says_what_was_in_it_and_is_evidence() -> None:
    thin = Dilution(typed="1+4", parts_hundredths=(100, 400))
    bath = known(FIX_A, Bath(code="F-1", role="fix", made_from="rapid fixer", dilution=thin))
    held = claim("made.fixed.one", fixed(), baths=(bath,))
    assert (held.words["baths"][0].agent, held.words["baths"][0].dilution) == ("rapid fixer", thin)
    assert FIX_A in held.evidence
    typed = claim("made.fixed.one", fixed(agent="plain hypo"), baths=(bath,))
    assert typed.words["baths"][0].agent == "plain hypo"


RUN = {"source": "run"}


@pytest.mark.parametrize(
    ("source", "done_on", "entered_on", "expected"),
    [
        ("run", DAY, DAY, Standing.LOGGED),
        ("run", DAY, NEXT_DAY, Standing.LOGGED),
        ("run", DAY, "2031-03-04", Standing.FROM_NOTES),
        ("run", "2031-03", DAY, Standing.FROM_NOTES),
        ("run", "1998", "2034-01-01", Standing.FROM_NOTES),
        ("notes", DAY, DAY, Standing.SAME_DAY),
        ("notes", DAY, NEXT_DAY, Standing.FROM_NOTES),
        ("notes", "2031-03", DAY, Standing.FROM_NOTES),
        ("notes", "2031-03-02~", DAY, Standing.SAME_DAY),
        ("memory", DAY, DAY, Standing.FROM_MEMORY),
    ],
)
def test_the_standing_of_an_entry(
    source: str, done_on: str, entered_on: str, expected: Standing
) -> None:
    assert standing_of(source, done_on, date.fromisoformat(entered_on)) == expected


def test_several_standings_are_worth_the_weakest_and_say_when_they_were_entered() -> None:
    work = (fixed(FIX_A, **RUN), entered(fixed(FIX_B), "2034-05-01", "memory"))
    held = claim("made.fixed.two", *work)
    assert held.standing == Standing.FROM_MEMORY
    assert held.words["entered"] == When("2034-05-01")
    assert "entered" not in claim("made.fixed.two", fixed(FIX_A, **RUN), fixed(FIX_B)).words


@pytest.mark.parametrize(
    ("test", "standing", "name"),
    [
        (asked("thiosulfate"), Standing.BY_EYE, "seen"),
        (asked("thiosulfate", method="methylene blue"), Standing.MEASURED, "seen"),
        (
            asked("thiosulfate", method="laboratory analysis", measured_ng_per_cm2=900),
            Standing.MEASURED,
            "measured",
        ),
        # no published table turns a stain into an amount
        (asked("thiosulfate", measured_ng_per_cm2=900), Standing.BY_EYE, "seen"),
        (entered(asked("thiosulfate"), "2034-05-01"), Standing.FROM_NOTES, "seen"),
        (entered(asked("thiosulfate"), "2031-03-02", "memory"), Standing.FROM_MEMORY, "seen"),
    ],
)
def test_the_standing_of_a_test(test: Work, standing: Standing, name: str) -> None:
    held = claim(f"tested.thiosulfate.{name}", did("wash"), test)
    assert held.standing == standing
    assert ("entered" in held.words) == (standing in (Standing.FROM_NOTES, Standing.FROM_MEMORY))


def test_a_test_says_how_long_after_it_was_read_only_where_that_is_on_record() -> None:
    assert claim("tested.thiosulfate.seen", asked("thiosulfate")).words["time"] == Lasting(
        3 * MINUTE
    )
    assert "time" not in claim("tested.thiosulfate.seen", asked("thiosulfate", read_ms=None)).words


def test_a_pass_without_a_reading_says_that_no_more_was_noted() -> None:
    held = claim("tested.thiosulfate.seen", asked("thiosulfate", reading=" "))
    assert held.words["reading"] == Term("reading", "a result noted only as passed")


def test_a_criterion_stands_beside_whose_it_is() -> None:
    lab = asked(
        "thiosulfate",
        method="laboratory analysis",
        measured_ng_per_cm2=900,
        criterion="1.0 µg/cm²",
        criterion_source="the studio’s own",
    )
    held = claim("tested.thiosulfate.measured", lab)
    assert held.words["criterion"] == "1.0 µg/cm² (the studio’s own)"


def test_one_border_is_not_the_border_of_every_print_it_speaks_for() -> None:
    both = {"sheets": (PRINT, OTHER)}
    work = (did("wash", **both), asked("thiosulfate", covers=(PRINT, OTHER)))
    said = claim("tested.thiosulfate.seen", *work).words["specimen"]
    assert said == Term("specimen", "the trimmed border of one of the prints it covers")
    strip = asked("thiosulfate", covers=(PRINT, OTHER), specimen="companion strip")
    said = claim("tested.thiosulfate.seen", did("wash", **both), strip).words["specimen"]
    assert said == Term("specimen", "companion strip")


def paper(on: str = DAY, **fields: object) -> Fact[Paper]:
    return known(PAPER, Paper(**{"code": "FB", "base": "fibre"} | fields), on)


def test_paper_from_memory_stands_apart_and_does_not_weaken_the_printing() -> None:
    held = statement(history(paper=paper("2034-01-01", source="memory")))
    by_id = {one.id: one for one in held}
    assert by_id["made.printed"].standing == Standing.SAME_DAY
    assert by_id["made.paper"].standing == Standing.FROM_MEMORY
    assert by_id["made.paper"].evidence == (PRINTING, PAPER)


def test_paper_that_was_on_the_shelf_before_is_as_well_known_as_the_printing() -> None:
    assert claim("made.printed.on", paper=paper("2030-11-20")).standing == Standing.SAME_DAY
    later = history(paper=paper("2031-03-09"))
    assert later.paper is not None
    assert paper_standing(later.paper, later.printing) == Standing.FROM_NOTES


def test_no_paper_is_a_gap_and_resin_coated_is_said() -> None:
    assert "unknown.paper" in ids(paper=None)
    held = claim("made.printed.on", paper=paper(base="resin-coated"))
    assert held.words["base"] == Term("base", "resin-coated")


def test_the_negative_s_date_is_said_only_where_it_is_as_well_known() -> None:
    negative = known(NEGATIVE, Negative(code="N-1", title="Slipway", made="1998-03"))
    assert "negative_when" not in claim("made.printed.on", negative=negative).words
    printing = known(PRINTING, Printing(negative=NEGATIVE, done_on="1999"))
    held = claim("made.printed.on", negative=negative, printing=printing)
    assert held.words["negative_when"] == When("1998-03")
    assert held.standing == Standing.FROM_NOTES


def test_a_print_that_was_recalled_weakens_the_sentence_about_it() -> None:
    run = known(PRINTING, Printing(negative=NEGATIVE, done_on=DAY, source="run"))
    assert claim("made.printed.on", printing=run).standing == Standing.LOGGED
    recalled = known(PRINT, a_print(source="memory"))
    held = claim("made.printed.on", printing=run, print=recalled)
    assert held.standing == Standing.FROM_MEMORY
    assert PRINT in held.evidence


ROLES = st.sampled_from(
    sorted(
        frozenset(
            {"presoak", "develop", "stop", "rinse", "fix", "washing aid", "wash", "stabilise"}
        )
        | TONING
    )
)
DATES = st.sampled_from(["2031", "2031-03", DAY, NEXT_DAY, "2031-03-04"])
SOURCES = st.sampled_from(["run", "notes", "memory"])
ENTERED = st.sampled_from([DAY, NEXT_DAY, "2034-01-01"])


def _step(role: str, on: str, bath: int | None) -> Step:
    return did(role, done_on=on, bath=bath if role == "fix" else None)


WORK = st.lists(
    st.builds(
        entered,
        st.one_of(
            st.builds(_step, ROLES, DATES, st.sampled_from([None, FIX_A, FIX_B])),
            st.builds(
                lambda question, result, on, covers: asked(
                    question, result, done_on=on, covers=covers
                ),
                st.sampled_from(["silver", "thiosulfate"]),
                st.sampled_from(["passed", "failed", "unclear"]),
                DATES,
                st.sampled_from([(PRINT,), (PRINT, OTHER)]),
            ),
        ),
        ENTERED,
        SOURCES,
    ),
    max_size=10,
)
HISTORIES = st.builds(
    lambda work, paper: history(*work, paper=paper),
    WORK,
    st.one_of(
        st.none(),
        st.builds(
            lambda source, on: known(PAPER, Paper(code="P", base="fibre", source=source), on),
            SOURCES,
            ENTERED,
        ),
    ),
)


def standings(held: PrintHistory) -> dict[int, Standing]:
    """The standing of each record of a history that has one."""
    found = {step.id: of_step(step) for step in held.steps}
    found |= {test.id: of_test(test) for test in held.tests}
    found[PRINTING] = printing_standing(held.printing)
    if held.paper is not None:
        found[PAPER] = paper_standing(held.paper, held.printing)
    return found


@given(HISTORIES)
def test_no_sentence_is_worth_more_than_its_weakest_evidence(held: PrintHistory) -> None:
    known_as = standings(held)
    for one in statement(held):
        worth = [known_as[record] for record in one.evidence if record in known_as]
        assert weakest((one.standing, *worth)) == one.standing


@given(HISTORIES)
def test_every_sentence_rests_on_records_of_the_print_or_says_that_there_are_none(
    held: PrintHistory,
) -> None:
    records = {fact.id for fact in (*held.steps, *held.tests, *held.baths)}
    records |= {PRINT, NEGATIVE, PRINTING, PAPER}
    for one in statement(held):
        assert set(one.evidence) <= records
        assert bool(one.evidence) != (one.standing == Standing.NOT_ON_RECORD)


@given(HISTORIES)
def test_what_was_made_is_read_before_what_was_tested_and_that_before_the_gaps(
    held: PrintHistory,
) -> None:
    order = [("made", "tested", "unknown").index(one.section) for one in statement(held)]
    assert order == sorted(order)


@given(HISTORIES)
def test_claims_are_known_with_the_words_that_they_may_use(held: PrintHistory) -> None:
    first = statement(held)
    assert first == statement(held)
    for one in first:
        assert one.words.keys() <= CLAIMS[one.id]


@given(HISTORIES)
def test_each_question_is_answered_once_or_its_gap_is_said(held: PrintHistory) -> None:
    said = [one.id for one in statement(held)]
    for question in QUESTIONS:
        finding = judge(held, question)
        assert (f"tested.{question}.failed" in said) == (finding.failed is not None)
        passed = [name for name in said if name.startswith((f"tested.{question}.seen",))]
        assert len(passed) == (finding.passed is not None)
        gap = finding.passed is None and finding.failed is None
        assert (f"unknown.{question}" in said) == gap
