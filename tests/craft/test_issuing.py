"""What stands against certifying a print."""

import pytest

from provenance.craft.issuing import obstacles
from provenance.model.printing import Step
from tests.craft.histories import asked, did, entered, history, ordinary
from tests.craft.sequence.ground import FIXED, TONED, WASHED, done, ground, minutes

RULES = ground().rules


def said(*work: object, **other: object) -> list[str]:
    """What stands against a print that went through `work`."""
    return [problem.what for problem in obstacles(history(*work, **other), RULES)]  # type: ignore[arg-type]


def test_an_ordinary_print_may_be_certified() -> None:
    assert said(*ordinary()) == []


@pytest.mark.parametrize(
    "gaps",
    [(), (did("wash"),), (did("develop"), did("stop")), (did("selenium"),)],
    ids=["nothing on record", "no fix", "no wash", "no wash after toning"],
)
def test_a_gap_is_no_obstacle(gaps: tuple[Step, ...]) -> None:
    assert said(*gaps) == []


@pytest.mark.parametrize(
    ("work", "what"),
    [
        ((*FIXED, *TONED), "no wash on record between fix and bleach"),
        ((*FIXED, minutes("wash", 20), *TONED), "20 min of washing without washing aid"),
        ((*FIXED, *WASHED, minutes("bleach", 1), *WASHED), "no developer, toner or fix on record"),
        ((*FIXED, *WASHED, minutes("selenium", 1), minutes("wash", 20)), "20 min of washing"),
    ],
)
def test_an_error_that_the_record_shows_stands_against_it_with_what_mends_it(
    work: tuple[Step, ...], what: str
) -> None:
    (problem,) = obstacles(done(*work), RULES)
    assert problem.what.startswith(what)
    assert problem.record == "QUAY 7/25"
    assert problem.field.startswith("#1")
    assert "wash" in problem.mend


def test_what_mends_it_takes_it_away() -> None:
    toned = (*FIXED, *WASHED, minutes("selenium", 1), minutes("wash", 20))
    assert said(*toned, *WASHED) == []
    assert said(*toned, asked("thiosulfate")) == []


def test_a_missing_wash_from_memory_is_a_gap() -> None:
    told = [entered(step, "2035-01-01", "memory") for step in (*FIXED, *TONED)]
    assert said(*told) == []
