"""Dangerous meetings: each one trips, and a near neighbour of it does not."""

from itertools import pairwise

import pytest

from provenance.craft.hazards.meetings import (
    cautions_for,
    families_in,
    keep_from,
    meetings_in_mix,
    meetings_in_process,
    wastes_for,
)
from provenance.model.chemistry import Role
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.resources import resource
from provenance.studio.processes import read_process
from tests.shelf import hazards, substances

# What meets, in one mix, what comes of it, and a pair beside it that is fine.
# Standing M throughout: from memory of safety data sheets.
MIXES = [
    (
        "cyanoferrate-strong-acid",
        ("potassium_ferricyanide", "sulfuric_acid"),
        ("potassium_bromide", "sulfuric_acid"),
    ),
    (
        "cyanoferrate-strong-acid",
        ("hydrochloric_acid", "potassium_ferrocyanide_trihydrate"),
        ("hydrochloric_acid", "sodium_chloride"),
    ),
    (
        "cyanoferrate-weak-acid",
        ("potassium_ferricyanide", "citric_acid"),
        ("potassium_ferricyanide", "potassium_bromide"),
    ),
    (
        "sulfide-acid",
        ("sodium_sulfide_nonahydrate", "acetic_acid"),
        ("sodium_sulfide_nonahydrate", "sodium_carbonate"),
    ),
    (
        "sulfide-acid",
        ("sodium_sulfide_anhydrous", "sodium_metabisulfite"),
        ("sodium_sulfide_anhydrous", "sodium_sulfite"),
    ),
    (
        "sulfite-strong-acid",
        ("sodium_sulfite", "hydrochloric_acid"),
        ("sodium_sulfite", "potassium_hydroxide"),
    ),
    (
        "sulfite-weak-acid",
        ("sodium_thiosulfate_pentahydrate", "citric_acid"),
        ("sodium_thiosulfate_pentahydrate", "sodium_metabisulfite"),
    ),
    (
        "hydroxide-ammonium",
        ("potassium_hydroxide", "ammonium_thiosulfate"),
        ("potassium_hydroxide", "sodium_thiosulfate_pentahydrate"),
    ),
    (
        "hydroxide-ammonium",
        ("sodium_hydroxide", "ammonium_chloride"),
        ("sodium_carbonate", "ammonium_chloride"),
    ),
    (
        "ammonia-silver",
        ("ammonia_solution", "silver_nitrate"),
        ("acetic_acid", "silver_nitrate"),
    ),
    (
        "ammonia-gold",
        ("gold_chloride", "ammonia_solution"),
        ("gold_chloride", "potassium_thiocyanate"),
    ),
    (
        "thiocyanate-acid",
        ("ammonium_thiocyanate", "citric_acid"),
        ("thiourea", "potassium_hydroxide"),
    ),
    (
        "thiocyanate-oxidiser",
        ("potassium_thiocyanate", "potassium_permanganate"),
        ("potassium_thiocyanate", "sodium_sulfite"),
    ),
    ("selenite-acid", ("sodium_selenite", "citric_acid"), ("sodium_selenite", "sodium_sulfite")),
    (
        "selenite-acid",
        ("selenium_toner_concentrate", "acetic_acid"),
        ("selenium_toner_concentrate", "sodium_thiosulfate_pentahydrate"),
    ),
    ("thiourea-acid", ("thiourea", "acetic_acid"), ("thiourea", "sodium_carbonate")),
    (
        "thiourea-oxidiser",
        ("thiourea", "hydrogen_peroxide_30"),
        ("potassium_bromide", "hydrogen_peroxide_30"),
    ),
    ("hydroxide-metal", ("sodium_hydroxide", "aluminium"), ("sodium_sulfite", "aluminium")),
    ("hydroxide-metal", ("potassium_hydroxide", "zinc"), ("potassium_hydroxide", "silver")),
    ("hypochlorite-anything", ("sodium_hypochlorite", "silver"), ("silver", "borax")),
]


@pytest.mark.parametrize(("meeting", "pair", "near"), MIXES)
def test_each_meeting_trips_and_its_near_neighbour_does_not(
    meeting: str, pair: tuple[str, str], near: tuple[str, str]
) -> None:
    met = meetings_in_mix(pair, hazards())
    assert meeting in [one.meeting.id for one in met]
    assert {(one.first, one.second) for one in met} == {pair}
    turned = meetings_in_mix(pair[::-1], hazards())
    assert [one.meeting.id for one in turned] == [one.meeting.id for one in met]
    assert [one.meeting.id for one in meetings_in_mix(near, hazards())] == []


def test_every_meeting_of_the_tables_is_tested() -> None:
    assert {meeting for meeting, _pair, _near in MIXES} == {one.id for one in hazards().meeting}


def test_one_substance_does_not_meet_itself() -> None:
    # metabisulfite is a sulfite and mildly acid, selenous acid is both of its kinds
    for one in substances():
        assert meetings_in_mix((one.id, one.id), hazards()) == ()


def test_gravest_meetings_are_dangers_and_name_their_gas() -> None:
    gases = {
        ("potassium_ferricyanide", "sulfuric_acid"): "hydrogen_cyanide",
        ("sodium_sulfide_nonahydrate", "citric_acid"): "hydrogen_sulfide",
        ("sodium_sulfite", "sulfuric_acid"): "sulfur_dioxide",
        ("sodium_hydroxide", "ammonium_chloride"): "ammonia_solution",
    }
    for pair, gas in gases.items():
        [met] = meetings_in_mix(pair, hazards())
        assert (met.severity, met.meeting.gas) == ("danger", gas)
        assert met.meeting.effect
        assert met.meeting.do


def process(*roles: Role | None) -> ProcessSheet:
    """A plan of baths by their roles; None is a test."""
    steps = tuple(
        PlannedStep(name=f"{place} {role}", role=role, test=None if role else "silver")
        for place, role in enumerate(roles)
    )
    return ProcessSheet(code="trial", name="Trial", base="fibre", steps=steps)


@pytest.mark.parametrize(
    ("first", "second", "meeting", "severity"),
    [
        ("stop", "sulfide", "sulfide-acid", "danger"),
        ("fix", "sulfide", "sulfide-acid", "danger"),
        ("stop", "bleach", "cyanoferrate-weak-acid", "caution"),
        ("thiourea", "selenium", "hydroxide-ammonium", "caution"),
        ("stop", "selenium", "selenite-acid", "caution"),
        ("stop", "gold", "thiocyanate-acid", "caution"),
    ],
)
def test_neighbours_in_a_plan_meet_unless_water_is_between(
    first: Role, second: Role, meeting: str, severity: str
) -> None:
    [met] = meetings_in_process(process(first, second), hazards())
    assert (met.meeting.id, met.severity) == (meeting, severity)
    assert (met.first, met.second) == (f"0 {first}", f"1 {second}")
    [turned] = meetings_in_process(process(second, first), hazards())
    assert turned.meeting.id == meeting
    # a test is no water
    assert len(meetings_in_process(process(first, None, second), hazards())) == 1
    for water in ("rinse", "wash", "presoak"):
        assert meetings_in_process(process(first, water, second), hazards()) == ()


@pytest.mark.parametrize(
    "roles",
    [("develop", "stop"), ("stop", "fix"), ("fix", "fix"), ("fix", "washing aid")],
)
def test_the_usual_order_of_trays_is_not_remarked_on(roles: tuple[Role, ...]) -> None:
    assert meetings_in_process(process(*roles), hazards()) == ()


def test_what_a_bath_holds_outranks_its_role() -> None:
    plan = process("fix", "sulfide")
    first = plan.steps[0].name
    plain = {first: ["sodium_thiosulfate_pentahydrate"]}
    acid = {first: ["sodium_thiosulfate_pentahydrate", "acetic_acid"]}
    assert meetings_in_process(plan, hazards(), plain) == ()
    assert [one.meeting.id for one in meetings_in_process(plan, hazards(), acid)] == [
        "sulfide-acid"
    ]


def test_household_bleach_is_a_bad_neighbour_for_any_tray() -> None:
    plan = process("washing aid", "stabilise")
    bleach = {plan.steps[1].name: ["sodium_hypochlorite"]}
    [met] = meetings_in_process(plan, hazards(), bleach)
    assert (met.meeting.id, met.severity) == ("hypochlorite-anything", "danger")


@pytest.mark.parametrize(
    "name", ["fibre-plain", "fibre-selenium", "fibre-split-toned", "resin-coated"]
)
def test_the_plans_that_come_along_keep_their_baths_apart(name: str) -> None:
    path = resource("templates", "process") / f"{name}.toml"
    plan = read_process(path.read_text(encoding="utf-8"), name=path.name)
    assert meetings_in_process(plan, hazards()) == ()
    assert any(one.role and two.role for one, two in pairwise(plan.steps))


def test_a_plan_that_lost_its_rinses_does_not() -> None:
    path = resource("templates", "process") / "fibre-split-toned.toml"
    plan = read_process(path.read_text(encoding="utf-8"), name=path.name)
    dry = ProcessSheet(
        code=plan.code,
        name=plan.name,
        base=plan.base,
        steps=tuple(step for step in plan.steps if step.role not in ("rinse", "wash")),
    )
    assert [one.meeting.id for one in meetings_in_process(dry, hazards())] == ["hydroxide-ammonium"]


def test_cautions_wastes_and_what_to_keep_away() -> None:
    held = families_in(["thiourea"], hazards())
    assert [one.id for one in cautions_for(held, hazards())] == ["thiourea-fog"]
    assert [one.say for one in wastes_for(held, hazards())] == ["Collect thiourea waste by itself."]
    assert keep_from(held, hazards()) == ("oxidisers",)
    sulfide = families_in(["sodium_sulfide_nonahydrate"], hazards())
    assert keep_from(sulfide, hazards()) == ("strong acid", "acid", "acid salts")
    stop = families_in(["citric_acid"], hazards())
    assert "sulfide" in keep_from(stop, hazards())
    assert keep_from(families_in(["potassium_bromide"], hazards()), hazards()) == ()
    household = families_in(["sodium_hypochlorite"], hazards())
    assert keep_from(household, hazards()) == ("anything else",)
