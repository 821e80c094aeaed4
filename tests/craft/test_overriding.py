"""Washing that was entered afterwards, against the printer's own press at the trays."""

from dataclasses import replace
from datetime import date

import pytest

from provenance.craft.history import Fact, Overridden, PrintHistory
from provenance.craft.issuing import obstacles
from provenance.craft.overriding import sift
from provenance.craft.proof import judge
from provenance.craft.standing import step_standing
from provenance.craft.statement import statement
from provenance.model.chemistry import Role
from provenance.model.evidence import Standing
from provenance.model.printing import Step
from provenance.model.run import DONE_UNCLOCKED, Override
from tests.craft.histories import DAY, NEXT_DAY, PRINT, asked, did, history
from tests.craft.sequence.ground import ground

RUN, ENTRY = 100, 120
FIX, BLEACH, SEPIA, NOTED = 110, 121, 122, 130
"""Fixed before the finding was overridden, bleached after it; the noted wash came last of all."""


def at(record: int, place: int, role: Role, source: str = "run", **fields: object) -> Fact[Step]:
    """A step of the run, entered the same day."""
    body = did(role, name=role, place=place, run=RUN, source=source, **fields)
    return Fact(record, record, body, date.fromisoformat(DAY))


def noted(place: int = 20, role: Role = "wash", **fields: object) -> Fact[Step]:
    """A wash that was entered afterwards, as planned."""
    return at(NOTED, place, role, "notes", **fields)


CLOCKED = (
    at(FIX, 10, "fix"),
    at(BLEACH, 30, "bleach"),
    at(SEPIA, 40, "sulfide"),
    at(SEPIA + 1, 50, "wash"),
)


def over(why: str = "accepted for today", finding: str = "Q2", **said: object) -> Overridden:
    """The press before the bleach."""
    body = Override(finding=finding, step="bleach", sheets=(PRINT,), why=why, done="done" in said)
    return Overridden(RUN, ENTRY, date.fromisoformat(DAY), body, said.get("explained_on"))  # type: ignore[arg-type]


def told(*steps: Fact[Step], by: Overridden, tests: tuple[Fact, ...] = ()) -> PrintHistory:
    """The print as its record has it."""
    sifted = sift(sorted(steps, key=lambda step: step.body.place), [by])
    return history(
        steps=sifted.steps, contradicted=sifted.contradicted, overrides=(by,), tests=tests
    )


def claims(held: PrintHistory) -> dict[str, tuple[int, ...]]:
    """What is claimed, and on which records."""
    return {one.id: one.evidence for one in statement(held)}


def test_a_wash_that_was_missed_at_the_trays_is_not_claimed_from_what_was_entered_later() -> None:
    held = told(*CLOCKED, noted(), by=over())
    found = claims(held)
    assert NOTED not in {record for name, ids in found.items() for record in ids if "made" in name}
    assert found["unknown.washed.overridden"] == (NOTED, RUN)
    assert "unknown.bleach.wash" in found
    # the sentence is no better known than the weaker of the two that contradict each other
    (said,) = [one for one in statement(held) if one.id == "unknown.washed.overridden"]
    assert said.standing is Standing.SAME_DAY


def test_it_stands_against_a_certificate_with_what_would_mend_it() -> None:
    whats = [one.what for one in obstacles(told(*CLOCKED, noted(), by=over()), ground().rules)]
    assert any(what.startswith("no wash on record between fix and bleach") for what in whats)
    assert any("without the wash that was entered afterwards" in what for what in whats)


def test_what_was_said_to_have_been_done_stands_as_it_was_entered() -> None:
    held = told(*CLOCKED, noted(), by=over(DONE_UNCLOCKED))
    assert held.contradicted == ()
    assert NOTED in claims(held)["made.washed"]
    assert "unknown.bleach.wash" not in claims(held)


def test_what_is_said_after_drying_lifts_it_and_is_known_from_that_day_on() -> None:
    later = date.fromisoformat(NEXT_DAY)
    held = told(*CLOCKED, noted(), by=over(done=True, explained_on=later))
    assert held.contradicted == ()
    (wash,) = [step for step in held.steps if step.id == NOTED]
    assert step_standing(wash) is Standing.FROM_NOTES
    same_day = over(done=True, explained_on=date.fromisoformat(DAY))
    (wash,) = [step for step in told(*CLOCKED, noted(), by=same_day).steps if step.id == NOTED]
    assert step_standing(wash) is Standing.SAME_DAY


@pytest.mark.parametrize(
    "step",
    [
        noted(60),
        noted(5),
        noted(20, "develop"),
        at(NOTED, 20, "wash"),
        replace(noted(), id=FIX + 1),
    ],
    ids=["after the bleach", "before the fix", "another bath", "clocked", "on record before"],
)
def test_only_what_was_entered_later_for_that_place_is_contradicted(step: Fact[Step]) -> None:
    assert told(*CLOCKED, step, by=over()).contradicted == ()


def test_a_wash_whose_place_nobody_knows_may_be_the_one_that_was_missed() -> None:
    vague = at(NOTED, 1, "wash", "memory", done_on="2031")
    assert [one.id for one in told(*CLOCKED, vague, by=over()).contradicted] == [NOTED]


def test_a_finding_that_misses_no_water_contradicts_nothing() -> None:
    assert told(*CLOCKED, noted(), by=over(finding="Q7.thiosulfate")).contradicted == ()


def test_where_the_step_that_was_begun_is_gone_nothing_is_contradicted() -> None:
    without = [step for step in CLOCKED if step.id != BLEACH]
    assert told(*without, noted(), by=over()).contradicted == ()


def test_a_silver_test_rests_on_no_wash_that_is_contradicted() -> None:
    spot = Fact(140, 140, asked("silver", place=25), date.fromisoformat(DAY))
    # washing that is contradicted would have stood between the fix and the spot
    held = told(*CLOCKED, noted(), by=over(), tests=(spot,))
    assert [one.why for one in judge(held, "silver").discounted] == ["before the wash"]
    held = told(*CLOCKED, noted(), by=over(DONE_UNCLOCKED), tests=(spot,))
    assert judge(held, "silver").passed is spot
