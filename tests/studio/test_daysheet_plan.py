"""Following a plan: everything planned once and in order, exceptions where they belong."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.chemistry import Role
from provenance.model.printing import Step
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.proof import Test
from provenance.studio.printing import Work, Written, follow_plan

SHEETS = (11, 12)
ROLES: tuple[Role, ...] = ("develop", "stop", "fix", "rinse", "wash", "bleach", "selenium")


def plan_of(*roles: Role, test: bool = False) -> ProcessSheet:
    """A plan with a step ``s0``, ``s1``... of each role, each of a minute; a test last."""
    steps = [
        PlannedStep(name=f"s{place}", role=role, aim=Aim(time_ms=60_000))
        for place, role in enumerate(roles)
    ]
    if test:
        steps.append(PlannedStep(name="test", test="silver"))
    return ProcessSheet(code="P", name="P", base="fibre", steps=tuple(steps))


def step(role: Role, seconds: int = 7) -> Step:
    """A step as it was written down."""
    return Step(role=role, sheets=SHEETS, done_on="2031-05-04", place=0, duration_ms=seconds * 1000)


def silver() -> Test:
    """A silver test as it was written down."""
    return Test(
        question="silver",
        method="sulfide spot",
        specimen="border",
        covers=SHEETS,
        done_on="2031-05-04",
        place=0,
        verdict="passed",
    )


def followed(
    plan: ProcessSheet, *written: Written, baths: dict[str, int] | None = None
) -> list[Work]:
    """The work that comes of a plan."""
    return [
        one.work
        for one in follow_plan(
            plan,
            written,
            sheets=SHEETS,
            done_on="2031-05-04",
            source="notes",
            baths=baths or {},
        )
    ]


def names(work: list[Work]) -> list[str]:
    """The planned name of each step, ``test`` for a test."""
    return [one.name or one.role if isinstance(one, Step) else "test" for one in work]


@given(st.lists(st.sampled_from(ROLES), min_size=1, max_size=8))
def test_a_plan_without_exceptions_is_entered_as_it_stands(roles: list[Role]) -> None:
    work = followed(plan_of(*roles, test=True))
    assert names(work) == [f"s{place}" for place in range(len(roles))]
    for one in work:
        assert isinstance(one, Step)
        assert (one.duration_ms, one.sheets) == (60_000, SHEETS)


@given(st.lists(st.sampled_from(ROLES), min_size=1, max_size=8), st.data())
def test_exceptions_take_the_place_of_the_steps_they_name(
    roles: list[Role], data: st.DataObject
) -> None:
    chosen = data.draw(st.permutations(range(len(roles))))[: data.draw(st.integers(0, len(roles)))]
    written = [Written(step(roles[place]), name=f"s{place}") for place in chosen]
    work = followed(plan_of(*roles), *written)
    assert names(work) == [f"s{place}" for place in range(len(roles))]
    own = [
        place for place, one in enumerate(work) if isinstance(one, Step) and one.duration_ms == 7000
    ]
    assert own == sorted(chosen)


@given(st.lists(st.sampled_from(ROLES), min_size=1, max_size=6), st.data())
def test_nothing_written_is_lost(roles: list[Role], data: st.DataObject) -> None:
    after = data.draw(st.lists(st.integers(0, len(roles) - 1), max_size=5))
    added = [
        Written(step("gold", seconds), after=f"s{place}") for seconds, place in enumerate(after, 1)
    ]
    work = followed(plan_of(*roles), *added)
    assert len(work) == len(roles) + len(added)
    for seconds, place in enumerate(after, 1):
        at = next(n for n, one in enumerate(work) if one == step("gold", seconds))
        before = [name for name in names(work[:at]) if name != "gold"]
        assert before[-1] == f"s{place}"
    golds = [(n, one) for n, one in enumerate(work) if isinstance(one, Step) and one.role == "gold"]
    assert all(a[0] < b[0] for a, b in itertools.pairwise(golds))


def test_the_only_step_of_a_kind_needs_no_name() -> None:
    work = followed(plan_of("develop", "fix", "wash"), Written(step("fix")), baths={"s1": 5})
    assert [one.duration_ms for one in work if isinstance(one, Step)] == [60_000, 7_000, 60_000]
    assert isinstance(work[1], Step)
    assert (work[1].name, work[1].bath) == ("s1", 5)


def test_a_bath_that_was_written_outweighs_the_planned_one() -> None:
    import msgspec

    own = msgspec.structs.replace(step("fix"), bath=9)
    (_, fix) = followed(plan_of("develop", "fix"), Written(own), baths={"s1": 5})
    assert isinstance(fix, Step)
    assert fix.bath == 9


def test_a_test_is_never_assumed_and_stands_where_it_is_planned() -> None:
    plan = ProcessSheet(
        code="P",
        name="P",
        base="fibre",
        steps=(
            PlannedStep(name="fix", role="fix"),
            PlannedStep(name="silver test", test="silver"),
            PlannedStep(name="selenium", role="selenium"),
        ),
    )
    assert names(followed(plan)) == ["fix", "selenium"]
    assert names(followed(plan, Written(silver()))) == ["fix", "test", "selenium"]
    assert names(followed(plan, Written(silver(), after="selenium"))) == ["fix", "selenium", "test"]


@pytest.mark.parametrize(
    ("written", "fields"),
    [
        ([Written(step("fix"), origin=0)], ["step.0.do"]),
        ([Written(step("gold"), origin=0)], ["step.0.do"]),
        ([Written(step("fix"), name="s9", origin=0)], ["step.0.name"]),
        ([Written(step("gold"), after="s9", origin=3)], ["step.3.after"]),
        ([Written(silver(), origin=1)], ["step.1.test"]),
        (
            [Written(step("wash"), origin=0), Written(step("wash"), origin=1)],
            ["step.1.do"],
        ),
        (
            [Written(step("fix"), name="s1", origin=0), Written(step("fix"), name="s1", origin=1)],
            ["step.1.name"],
        ),
    ],
)
def test_what_has_no_single_place_is_refused(written: list[Written], fields: list[str]) -> None:
    with pytest.raises(Refused) as caught:
        followed(plan_of("develop", "fix", "fix", "wash"), *written)
    assert [problem.field for problem in caught.value.problems] == fields
    assert all(problem.mend for problem in caught.value.problems)
