"""What holds of any sequence."""

from dataclasses import replace
from typing import get_args

from hypothesis import given, settings
from hypothesis import strategies as st

from provenance.craft.history import PrintHistory, work_order
from provenance.craft.sequence.contradictions import contradictions
from provenance.craft.sequence.finding import CASES
from provenance.craft.sequence.review import review
from provenance.model.chemistry import Role
from provenance.model.printing import Step
from tests.craft.histories import DAY, NEXT_DAY
from tests.craft.sequence.ground import done, ground, minutes

steps = st.builds(
    minutes,
    st.sampled_from(get_args(Role)),
    st.sampled_from([None, 0.5, 1, 3, 10, 30, 60]),
    done_on=st.sampled_from([DAY, NEXT_DAY, "2031", "2031-03"]),
    bath=st.none(),
)
works = st.lists(steps, max_size=9)
bases = st.sampled_from(["fibre", "resin-coated", None])


def errors(history: PrintHistory) -> set[tuple[str, tuple[str, ...]]]:
    """The errors found, by case and the roles at their ends."""
    found = [one for one in review(history, ground()) if one.level == "E"]
    return {(one.case, (one.steps[:1] + one.steps[-1:])) for one in found}


@settings(deadline=None)
@given(works, bases, st.randoms())
def test_the_order_in_which_records_are_given_does_not_matter(work, base, random) -> None:
    held = done(*work, base=base)
    shuffled = list(held.steps)
    random.shuffle(shuffled)
    again = replace(held, steps=tuple(sorted(shuffled, key=work_order)))
    assert review(again, ground()) == review(held, ground())


@settings(deadline=None)
@given(works, bases, st.data())
def test_unrelated_steps_may_change_places(work, base, data) -> None:
    """A presoak and a step of stabilising bear on no rule of bleach, fix or wash."""
    place = data.draw(st.integers(0, len(work)))
    pair = [minutes("stabilise", 1), minutes("presoak", 1)]
    one = [*work[:place], *pair, *work[place:]]
    other = [*work[:place], *pair[::-1], *work[place:]]
    assert _cases(one, base) == _cases(other, base)


def _cases(work: list[Step], base) -> list[tuple[str, str]]:
    return sorted((one.case, one.what) for one in review(done(*work, base=base), ground()))


@settings(deadline=None)
@given(works, bases, st.data())
def test_a_full_wash_never_adds_an_error(work, base, data) -> None:
    place = data.draw(st.integers(0, len(work)))
    day = data.draw(st.sampled_from([DAY, NEXT_DAY]))
    washed = [*work[:place], minutes("wash", 90, done_on=day), *work[place:]]
    before, after = ({case for case, _ in errors(done(*one, base=base))} for one in (work, washed))
    assert after <= before


@settings(deadline=None)
@given(works, bases)
def test_every_finding_is_whole_and_rests_on_steps_of_the_print(work, base) -> None:
    held = done(*work, base=base)
    ids = {step.id for step in held.steps}
    for finding in review(held, ground()):
        assert finding.case in CASES
        assert finding.what
        assert set(finding.evidence) <= ids
        assert finding.evidence or finding.case == "Q1"
    assert all(fault.level == "E" for fault in contradictions(held))
