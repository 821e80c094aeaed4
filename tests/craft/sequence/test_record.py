"""What the record leaves open trips nothing; what it shows and what it lacks are told apart."""

import pytest

from provenance.craft.sequence.finding import Finding
from provenance.craft.sequence.review import review
from provenance.model.printing import Step
from tests.craft.histories import NEXT_DAY, PRINT, a_print, asked, entered, known
from tests.craft.sequence.ground import FIXED, TONED, WASHED, done, found, ground, minutes


def the(case: str, *work: Step, **other: object) -> Finding:
    """The one finding of that case."""
    (finding,) = [one for one in review(done(*work, **other), ground()) if one.case == case]
    return finding


def test_an_unknown_time_trips_nothing() -> None:
    untimed = minutes("wash", None)
    assert found(*FIXED, untimed) == []
    assert found(*FIXED, untimed, *TONED) == []
    assert (
        found(*FIXED, *WASHED, minutes("selenium", None), minutes("washing aid", 5), untimed) == []
    )
    assert found(minutes("develop", 1), minutes("stop", 1), minutes("fix", None), untimed,
                 base="resin-coated") == []  # fmt: skip


def test_a_known_time_that_is_too_short_whatever_the_others_were_does() -> None:
    fixes = (minutes("fix", None), minutes("fix", 2.5))
    work = (minutes("develop", 1), minutes("stop", 1), *fixes, minutes("wash", 5))
    assert found(*work, base="resin-coated") == ["Q9.fix"]


def test_an_order_that_the_dates_leave_open_trips_nothing() -> None:
    sometime = minutes("wash", 60, done_on="2031")
    assert found(*FIXED, sometime, *TONED) == []
    assert "Q2" in found(*FIXED, *TONED)


def test_a_paper_that_is_not_on_record_is_judged_by_the_mildest_wash() -> None:
    assert found(*FIXED, minutes("wash", 4), *TONED, base=None) == []
    assert found(*FIXED, minutes("wash", 3), *TONED, base=None) == ["Q2"]


def test_what_is_missing_is_told_as_not_on_record_and_blocks_nothing() -> None:
    finding = the("Q1", minutes("fix", 1), minutes("wash", 60))
    assert finding.what == "not on record: developer, stop or rinse before the fix"
    assert (finding.basis, finding.blocks, finding.evidence) == ("missing", False, ())


def test_a_print_that_is_not_finished_owes_nothing_yet() -> None:
    unfinished = {"print": known(PRINT, a_print(designation=None, signature=None))}
    work = (*FIXED, minutes("wash", 5), minutes("selenium", 3))
    assert found(minutes("develop", 2), **unfinished) == []
    assert found(*work, **unfinished) == []
    assert found(*FIXED, *WASHED, minutes("selenium", 3), minutes("wash", 5),
                 asked("thiosulfate", "failed"), **unfinished) == ["Q7.wash"]  # fmt: skip


def test_a_bleach_without_a_wash_stands_against_a_certificate() -> None:
    short = the("Q2", *FIXED, minutes("wash", 5), *TONED)
    assert short.what == "5 min of washing without washing aid between fix and bleach"
    assert short.blocks
    assert short.steps == ("fix", "wash", "bleach")
    assert short.evidence == (104, 105, 106, 22)  # the three steps, and the bath of the fix


@pytest.mark.parametrize(
    ("source", "on", "blocks"),
    [("run", "2031-03-02", True), ("notes", "2031-03-02", True), ("notes", "2035-01-01", False),
     ("memory", "2031-03-02", False)],
)  # fmt: skip
def test_a_missing_wash_counts_as_left_out_only_where_it_would_have_been_written_down(
    source: str, on: str, blocks: bool
) -> None:
    work = [entered(step, on, source) for step in (*FIXED, *TONED)]
    finding = the("Q2", *work)
    assert finding.what == "no wash on record between fix and bleach"
    assert finding.blocks is blocks
    assert finding.basis == ("shown" if blocks else "missing")


def test_a_wash_that_was_missing_between_two_days_is_only_missing() -> None:
    later = [
        minutes(step.role, (step.duration_ms or 0) / 60_000, done_on=NEXT_DAY) for step in TONED
    ]
    assert not the("Q2", *FIXED, *later).blocks


def test_a_passed_test_answers_a_short_wash_after_toning() -> None:
    work = (*FIXED, *WASHED, minutes("selenium", 3), minutes("wash", 20))
    assert the("Q7.wash", *work).blocks
    answered = the("Q7.wash", *work, asked("thiosulfate"))
    assert answered.answered_by is not None
    assert not answered.blocks


def test_a_bleached_print_left_so_blocks_unless_it_comes_from_memory() -> None:
    work = (*FIXED, *WASHED, minutes("bleach", 1), minutes("wash", 60))
    assert the("Q5", *work).blocks
    told = [entered(step, "2035-01-01", "memory") for step in work]
    assert not the("Q5", *told).blocks


@pytest.mark.parametrize("hazard", ["Q14", "Q16.strong"])
def test_what_met_in_the_trays_does_not_stand_against_the_print(hazard: str) -> None:
    acid = minutes("stop", 1, agent="hydrochloric acid")
    work = (*FIXED, *WASHED, acid, minutes("bleach", 1), acid, minutes("sulfide", 1), *WASHED)
    findings = [one for one in review(done(*work), ground()) if one.case == hazard]
    assert findings
    assert not any(one.blocks for one in findings)
