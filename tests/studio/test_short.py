"""A run told in a few words becomes steps of a day sheet, or is refused at its line."""

import pytest

from provenance.errors import Refused
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.proof import Test
from provenance.studio.daysheet.short import (
    read_baths,
    read_burns,
    read_run,
    say_baths,
    spot,
    warmed,
    with_spot,
)

PLAN = ProcessSheet(
    code="plan",
    name="A plan",
    base="fibre",
    steps=(
        PlannedStep(name="developer", role="develop", aim=Aim(time_ms=120_000)),
        PlannedStep(name="fix one", role="fix", aim=Aim(time_ms=60_000)),
        PlannedStep(name="fix two", role="fix", aim=Aim(time_ms=60_000)),
        PlannedStep(name="silver", test="silver"),
        PlannedStep(name="toner", role="selenium", aim=Aim(time_ms=180_000)),
    ),
)
SHEETS = ["QUAY Q8", "QUAY Q9"]


@pytest.mark.parametrize(
    ("row", "step"),
    [
        ("fix one 90 s", {"do": "fix", "name": "fix one", "time": "90 s"}),
        ("selenium 2:30", {"do": "selenium", "name": "toner", "time": "2:30"}),
        ("Toner", {"do": "selenium", "name": "toner", "time": "3 min"}),
        (
            "developer 2 min 30 s 20.5 C in dev-2603",
            {
                "do": "develop",
                "name": "developer",
                "bath": "dev-2603",
                "temperature": "20.5 C",
                "time": "2 min 30 s",
            },
        ),
        ("rinse 2 min after fix one", {"do": "rinse", "after": "fix one", "time": "2 min"}),
        (
            "toner 3 min; Q8 4 min",
            {"do": "selenium", "name": "toner", "time": "3 min", "own": {"QUAY Q8": "4 min"}},
        ),
        (
            "toner; not q9",
            {"do": "selenium", "name": "toner", "time": "3 min", "sheets": ["QUAY Q8"]},
        ),
        ("fix 1 min", {"do": "fix", "time": "1 min"}),
        (
            "silver no stain",
            {
                "name": "silver",
                "test": "silver",
                "reading": "no stain",
                "verdict": "passed",
                "method": "sulfide spot",
                "specimen": "border",
            },
        ),
    ],
)
def test_a_line(row: str, step: dict[str, object]) -> None:
    assert read_run(row, PLAN, SHEETS, {}, as_planned=True) == [("line 1", step)]


def test_a_time_is_taken_from_the_plan_only_where_it_was_followed() -> None:
    (_, step) = read_run("toner", PLAN, SHEETS, {})[0]
    assert "time" not in step


def test_every_line_that_is_not_understood_is_told() -> None:
    with pytest.raises(Refused) as caught:
        read_run("tonerr 3 min\n\ntoner; Q7 1 min\nsilver greyish", PLAN, SHEETS, {})
    assert [problem.record for problem in caught.value.problems] == ["line 1", "line 3", "line 4"]
    assert all(problem.mend for problem in caught.value.problems)


def test_a_spot_is_done_as_the_last_one() -> None:
    last = Test(
        question="silver",
        method="selenium spot",
        specimen="companion strip",
        covers=(7,),
        done_on="2031-03-02",
        place=3,
        read_ms=180_000,
        verdict="failed",
        reading="grey",
    )
    assert spot("silver", "no stain", last) == {
        "test": "silver",
        "reading": "no stain",
        "verdict": "passed",
        "method": "selenium spot",
        "specimen": "companion strip",
        "read": "3 min",
    }


def test_a_silver_test_stands_before_toning() -> None:
    steps = read_run("fix one 1 min\ntoner 2 min", PLAN, SHEETS, {})
    tested = spot("silver", "stain", None)
    assert [step for _, step in with_spot(steps, "", tested, None)].index(tested) == 1
    assert with_spot(steps, "", tested, PLAN)[-1][1] == tested


def test_a_test_that_the_plan_lacks_is_placed_after_its_steps() -> None:
    tested = spot("thiosulfate", "no stain", None)
    ((_, step),) = with_spot([], "", tested, PLAN)
    assert step["after"] == "toner"


def test_the_temperature_of_the_run_is_noted_at_the_developer() -> None:
    ((_, step),) = warmed([], "20 C", PLAN)
    assert step == {
        "do": "develop",
        "name": "developer",
        "temperature": "20 C",
        "time": "2 min",
    }
    own = read_run("developer 21 C", PLAN, SHEETS, {})
    assert warmed(own, "20 C", PLAN)[0][1]["temperature"] == "21 C"
    with pytest.raises(Refused, match="developer"):
        warmed([], "20 C", None)


def test_baths_are_read_as_they_are_said() -> None:
    baths = {"developer": "dev-1", "fix one": "fix-A"}
    assert read_baths(say_baths(baths)) == baths
    assert read_baths("developer = dev-1\nfix one fix-A") == baths
    with pytest.raises(Refused, match="names no bath"):
        read_baths("developer")


def test_burns() -> None:
    assert read_burns("quay wall, left +1/2; sky -1/3 grade 1") == [
        {"area": "quay wall, left", "stops": "+1/2"},
        {"area": "sky", "stops": "-1/3", "grade": "1"},
    ]
    with pytest.raises(Refused, match="how many stops"):
        read_burns("sky a little")
