"""The step that is about to be done: what it would cause, and only that."""

from typing import Any

from provenance.craft.fixing import limit_named
from provenance.craft.sequence.deeds import Load
from provenance.craft.sequence.finding import Finding
from provenance.craft.sequence.review import about_to
from provenance.model.chemistry import Bath
from provenance.model.printing import Step
from provenance.model.proof import Test
from tests.craft.histories import MINUTE, asked
from tests.craft.sequence.ground import FIXED, WASHED, bath, cases, done, ground, minutes


def next_of(*work: Step | Test, **other: Any) -> tuple[Finding, ...]:
    """What the last of `work` would cause after the others."""
    *before, step = work
    baths = other.pop("baths", ())
    return about_to(done(*before, baths=baths), step, ground(), **other)


def test_a_bleach_without_a_full_wash_is_told_before_the_sheet_is_wet() -> None:
    bleach = minutes("bleach", 1, name="bleach")
    (finding,) = [one for one in next_of(*FIXED, minutes("rinse", 2), bleach) if one.level == "E"]
    assert finding.case == "Q2"
    assert "dissolve the highlights" in finding.why
    assert "4th ed., p. 687" in str(finding.source)
    assert next_of(*FIXED, *WASHED, bleach) == ()


def test_a_bleach_that_reduces_is_told_by_the_fix_to_come() -> None:
    bleach = minutes("bleach", 0.2)
    work = (*FIXED, minutes("rinse", 2), bleach)
    assert next_of(*work, coming=("rinse", "fix", "wash")) == ()
    assert cases(next_of(*work, coming=("rinse", "sulfide", "fix"))) == ["Q2"]


def test_what_is_still_to_come_is_not_missed() -> None:
    assert next_of(minutes("develop", 2)) == ()
    assert next_of(*FIXED, *WASHED, minutes("selenium", 3)) == ()
    assert next_of(*FIXED, *WASHED, minutes("selenium", 3), minutes("wash", 5)) == ()


def test_what_was_found_before_is_not_told_again() -> None:
    work = (*FIXED, minutes("bleach", 1), minutes("rinse", 2), minutes("sulfide", 1))
    assert "Q2" in cases(next_of(*work[:5]))
    assert next_of(*work) == ()


def test_an_acid_bath_next_to_sulfide_is_told() -> None:
    work = (*FIXED, *WASHED, minutes("stop", 1, name="acid clear"), minutes("sulfide", 2))
    (finding,) = next_of(*work)
    assert (finding.case, finding.level) == ("Q14", "E")
    assert finding.steps == ("acid clear", "sulfide")


def test_a_bath_past_its_limit_is_told() -> None:
    spent = Load(dissolved_mg_per_l=510, limit=limit_named("single"))
    findings = next_of(*FIXED[:3], baths=(bath(21),), loads={21: spent})
    assert [one.what for one in findings] == [
        "B-21 is estimated to hold 0.51 g/L; limit 0.5 g/L for a single bath, for permanence"
    ]


def test_the_bath_of_the_step_may_be_one_that_the_print_has_not_met() -> None:
    film = Bath(code="F", role="fix", film_used=True)
    step = minutes("fix", 1, bath=55)
    assert cases(next_of(*FIXED[:2], step, bath=film)) == ["Q12"]


def test_a_test_that_comes_too_late_is_told() -> None:
    assert cases(next_of(*FIXED, *WASHED, asked("thiosulfate", read_ms=9 * MINUTE))) == ["Q17.time"]
    toned = (*FIXED, *WASHED, minutes("selenium", 3), *WASHED)
    assert cases(next_of(*toned, asked("silver"))) == ["Q7.silver"]
    assert next_of(*toned, asked("thiosulfate")) == ()
