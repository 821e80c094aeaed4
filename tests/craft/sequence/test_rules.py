"""Every rule has a plan or a history that trips it, and a near neighbour that does not."""

import pytest

from provenance.craft.fixing import limit_named
from provenance.craft.sequence.deeds import Load
from provenance.craft.sequence.finding import CASES
from provenance.craft.sequence.meeting import MEETINGS
from tests.craft.histories import MINUTE, asked, days_after
from tests.craft.sequence.ground import FIXED, WASHED, bath, found, ground, minutes, planned

FULL = "develop 2, stop 0.5, fix 1, fix 1, rinse 5, washing aid 10, wash 40"
RESIN = "develop 2, stop 0.5, fix 1, wash 4"
SINGLE = limit_named("single")

PLANS: dict[str, tuple[str, str, str]] = {
    # case: what trips it, the near neighbour, the base
    "Q1": ("develop 2, stop 1, fix 1", "develop 2, stop 1, fix 1, wash 60", "fibre"),
    "Q2": (
        "develop 2, stop 1, fix 1, wash 59, bleach 1, rinse 2, sulfide 2, wash 60",
        "develop 2, stop 1, fix 1, wash 60, bleach 1, rinse 2, sulfide 2, wash 60",
        "fibre",
    ),
    "Q3.selenium": (
        "develop 2, stop 1, fix 1, wash 9, selenium 3, wash 60",
        "develop 2, stop 1, fix 1, wash 10, selenium 3, wash 60",
        "fibre",
    ),
    "Q3.sulfide": (
        "develop 2, stop 1, fix 1, wash 29, sulfide 3, wash 60",
        "develop 2, stop 1, fix 1, wash 30, sulfide 3, wash 60",
        "fibre",
    ),
    "Q4": (
        f"{FULL}, bleach 1, thiourea 1, wash 60",
        f"{FULL}, bleach 1, rinse, thiourea 1, wash 60",
        "fibre",
    ),
    "Q5": (f"{FULL}, bleach 1, wash 60", f"{FULL}, bleach 1, develop 2, wash 60", "fibre"),
    "Q6": (
        f"{FULL}, selenium 2, wash 60, bleach 1, rinse 2, sulfide 2, wash 60",
        f"{FULL}, bleach 1, rinse 2, sulfide 2, rinse 2, selenium 2, wash 60",
        "fibre",
    ),
    "Q7.wash": (
        f"{FULL}, selenium 3, wash 59",
        f"{FULL}, selenium 3, washing aid 2, wash 10",
        "fibre",
    ),
    "Q7.thiosulfate": (
        f"{FULL}, ? thiosulfate, selenium 3, wash 60",
        f"{FULL}, ? thiosulfate, selenium 3, wash 60, ? thiosulfate",
        "fibre",
    ),
    "Q7.silver": (
        f"{FULL}, selenium 3, wash 60, ? silver",
        f"{FULL}, ? silver, selenium 3, wash 60, ? silver",
        "fibre",
    ),
    "Q8": ("develop 2, stop 1, fix 1, wash 45", "develop 2, stop 1, fix 1, wash 60", "fibre"),
    "Q9.fix": (
        "develop 2, stop 1, fix 1, fix 1.1, wash 4",
        "develop 2, stop 1, fix 1, fix 1, wash 4",
        "resin-coated",
    ),
    "Q9.wash": (
        "develop 2, stop 1, fix 1, wash 3",
        "develop 2, stop 1, fix 1, wash 4",
        "resin-coated",
    ),
    "Q9.toning": (
        f"{RESIN}, bleach 1, rinse 1, sulfide 1, wash 5",
        f"{RESIN}, sulfide 1, wash 5",
        "resin-coated",
    ),
    "Q14": (
        f"{FULL}, stop 1, sulfide 2, wash 60",
        f"{FULL}, stop 1, rinse 1, sulfide 2, wash 60",
        "fibre",
    ),
    "Q15": (
        f"{FULL}, thiourea 1, selenium 2, wash 60",
        f"{FULL}, thiourea 1, rinse 1, selenium 2, wash 60",
        "fibre",
    ),
    "Q16.weak": (
        f"{FULL}, bleach 1, stop 1, rinse 1, sulfide 2, wash 60",
        f"{FULL}, bleach 1, rinse 1, stop 1, rinse 1, sulfide 2, wash 60",
        "fibre",
    ),
    "Q19.long": (
        "develop 2, stop 1, fix 1, washing aid 3, wash 61",
        "develop 2, stop 1, fix 1, washing aid 3, wash 60",
        "fibre",
    ),
}

FRESH = (bath(21), bath(22))
END = (*FIXED, *WASHED)
OLD = (bath(21, made_on="2031-02-01"), bath(22, made_on="2031-01-31"))
ALIKE = (bath(21, made_on="2031-01-31"), bath(22, made_on="2031-01-31"))

HISTORIES: dict[str, tuple[dict, dict]] = {
    "Q10.silver": (
        {"loads": {22: Load(dissolved_mg_per_l=501, limit=SINGLE)}, "baths": FRESH},
        {"loads": {22: Load(dissolved_mg_per_l=500, limit=SINGLE)}, "baths": FRESH},
    ),
    "Q10.sheets": (
        {"loads": {22: Load(sheets=11, most_sheets=10)}, "baths": FRESH},
        {"loads": {22: Load(sheets=10, most_sheets=10)}, "baths": FRESH},
    ),
    "Q11": ({"baths": OLD}, {"baths": ALIKE}),
    "Q12": (
        {"baths": (bath(21, film_used=True), bath(22))},
        {"baths": (bath(21, film_used=False), bath(22))},
    ),
    "Q13": (
        {"baths": (bath(21, hardening=True), bath(22))},
        {"baths": (bath(21, hardening=None), bath(22))},
    ),
    "Q16.strong": (
        {"work": (*END, minutes("stop", 1, agent="Hydrochloric acid"), minutes("bleach", 1))},
        {"work": (*END, minutes("stop", 1, agent="citric acid"), minutes("bleach", 1))},
    ),
    "Q17.time": (
        {"work": (*END, asked("thiosulfate", contact_ms=2 * MINUTE, read_ms=6 * MINUTE))},
        {"work": (*END, asked("thiosulfate", contact_ms=2 * MINUTE, read_ms=2 * MINUTE))},
    ),
    "Q17.late": (
        {"work": (*END, asked("thiosulfate", method="methylene blue", done_on=days_after(15)))},
        {"work": (*END, asked("thiosulfate", method="methylene blue", done_on=days_after(14)))},
    ),
    "Q18": (
        {"work": (*END, minutes("other toner", 1, agent="peroxide hypo eliminator"))},
        {"work": (*FIXED, minutes("washing aid", 10, agent="sulfite"), minutes("wash", 30))},
    ),
    "Q19.warm": (
        {"work": (*END, minutes("wash", 5, temperature_tenth_c=251))},
        {"work": (*END, minutes("wash", 5, temperature_tenth_c=250))},
    ),
    "Q20.once": (
        {"loads": {21: Load(earlier_uses=1)}, "baths": (bath(21, one_shot=True), bath(22))},
        {"loads": {21: Load(earlier_uses=1)}, "baths": FRESH},
    ),
    "Q20.age": (
        {"baths": (bath(21, made_on="2030-12-31"), bath(22, made_on="2030-12-31"))},
        {"baths": (bath(21, made_on="2031-01-01"), bath(22, made_on="2031-01-01"))},
    ),
}


def test_every_case_is_tried() -> None:
    assert PLANS.keys() | HISTORIES.keys() == CASES.keys()
    assert not PLANS.keys() & HISTORIES.keys()


@pytest.mark.parametrize("case", PLANS)
def test_a_plan_trips_it_and_its_near_neighbour_does_not(case: str) -> None:
    trips, neighbour, base = PLANS[case]
    assert case in planned(trips, base)  # type: ignore[arg-type]
    assert case not in planned(neighbour, base)  # type: ignore[arg-type]


@pytest.mark.parametrize("case", HISTORIES)
def test_a_history_trips_it_and_its_near_neighbour_does_not(case: str) -> None:
    for given, expected in zip(HISTORIES[case], (True, False), strict=True):
        given = dict(given)
        work = given.pop("work", END)
        assert (case in found(*work, **given)) is expected, given


def test_the_tables_of_hazards_know_the_meetings_that_are_rules() -> None:
    assert MEETINGS.keys() <= {meeting.id for meeting in ground().hazards.meeting}


@pytest.mark.parametrize(
    ("practice", "base"),
    [
        # handbook of the trade, sections 4, 5 and 7; each with its standing there
        (f"{FULL}, ? silver, ? thiosulfate", "fibre"),
        ("develop 2, stop 1, fix 1, fix 1, wash 5, washing aid 10, wash 5", "fibre"),  # S2
        ("develop 2, stop 1, fix 1, rinse 1, washing aid 2, wash 10", "fibre"),  # S2
        ("develop 2, rinse 1, fix 8, wash 60", "fibre"),  # S
        ("develop 2, stop 1, fix 1, wash 10, selenium 3, washing aid 3, wash 20", "fibre"),  # S
        ("develop 2, stop 1, fix 1, fix 1, selenium 3, washing aid 3, wash 20", "fibre"),  # S2
        (f"{FULL}, bleach 3, rinse 3, sulfide 2, wash 60", "fibre"),  # S, P
        (f"{FULL}, bleach 1, rinse 3, sulfide 2, selenium 2, washing aid 10, wash 60", "fibre"),
        (f"{FULL}, bleach 0.2, fix 1, washing aid 10, wash 40, ? silver", "fibre"),  # S
        ("develop 2, stop 1, fix 1, bleach 0.2, fix 1, washing aid 10, wash 40", "fibre"),  # S
        (f"{FULL}, gold 10, wash 60", "fibre"),
        (f"{RESIN}, ? silver, ? thiosulfate", "resin-coated"),  # S2
        (f"{RESIN}, selenium 2, wash 5", "resin-coated"),
        ("bleach 3, rinse 3, sulfide 2, wash 60", "fibre"),  # toning prints made long before
        ("fix 2, washing aid 10, wash 40", "fibre"),  # the remedy of a failed silver test
    ],
)
def test_a_published_practice_is_left_alone(practice: str, base: str) -> None:
    assert planned(practice, base) == []  # type: ignore[arg-type]


def test_selenium_first_is_only_a_note() -> None:
    trips, _, _ = PLANS["Q6"]
    assert planned(trips) == ["Q6"]


def test_single_weight_needs_half_an_hour_without_aid() -> None:
    work = (*FIXED, minutes("wash", 30))
    assert found(*work, weight="single weight") == []
    assert found(*work, weight="double weight") == ["Q8"]


def test_plain_hypo_is_neither_acid_nor_rapid() -> None:
    fix = minutes("fix", 8, agent="Plain hypo")
    assert found(*FIXED[:2], fix, minutes("wash", 45)) == []
    assert "Q14" not in found(*FIXED[:2], fix, minutes("sulfide", 2), minutes("wash", 60))
    assert "Q14" in found(*FIXED, minutes("sulfide", 2), minutes("wash", 60))


def test_a_second_bath_that_is_spent_is_not_a_fresh_one() -> None:
    work = (*FIXED, minutes("selenium", 3), minutes("washing aid", 3), minutes("wash", 20))
    assert found(*work, baths=FRESH) == []
    spent = {22: Load(dissolved_mg_per_l=600, limit=SINGLE)}
    assert "Q3.selenium" in found(*work, baths=FRESH, loads=spent)


def test_the_second_bath_is_told_by_its_silver_where_that_is_known() -> None:
    loads = {21: Load(dissolved_mg_per_l=100), 22: Load(dissolved_mg_per_l=200)}
    assert "Q11" in found(*END, baths=ALIKE, loads=loads)
    loads = {21: Load(dissolved_mg_per_l=200), 22: Load(dissolved_mg_per_l=100)}
    assert "Q11" not in found(*END, baths=OLD, loads=loads)


def test_both_tests_outrank_a_fixer_that_was_used_for_film() -> None:
    film = (bath(21, film_used=True), bath(22))
    work = (*END, asked("silver"), asked("thiosulfate"))
    assert found(*work, baths=film) == []
    assert found(*work[:-1], baths=film) == ["Q12"]


def test_a_bath_for_one_use_is_not_used_twice_on_one_print() -> None:
    once = (bath(30, "washing aid", one_shot=True),)
    aid = minutes("washing aid", 10, bath=30)
    assert found(*FIXED, aid, minutes("wash", 30), baths=once) == []
    assert found(*FIXED, aid, minutes("wash", 5), aid, minutes("wash", 30), baths=once) == [
        "Q20.once"
    ]


def test_a_test_that_does_not_count_is_told_once_another_does_not_answer() -> None:
    late = asked("thiosulfate", read_ms=9 * MINUTE)
    assert found(*END, asked("silver"), late) == ["Q17.time"]
    assert found(*END, asked("silver"), late, asked("thiosulfate")) == []


def test_a_test_before_toning_does_not_count_for_the_toned_print() -> None:
    toned = (minutes("selenium", 3), *WASHED)
    assert found(*END, asked("silver"), asked("thiosulfate"), *toned) == ["Q7.thiosulfate"]
    assert found(*END, asked("thiosulfate"), *toned, asked("thiosulfate")) == []
    assert found(*END, *toned, asked("silver")) == ["Q7.silver"]
