import pytest

from provenance.craft.fixing import LIMITS, limit_named, rotation
from provenance.errors import NotFound

FIRST = limit_named("first of two")


def test_limits_are_named_and_differ_forty_fold() -> None:
    assert [limit.mg_per_l for limit in LIMITS] == [50, 300, 500, 2000]
    assert {limit.source.grade for limit in LIMITS} == {"S2"}
    assert len({limit.name for limit in LIMITS}) == len(LIMITS)


def test_an_unknown_limit_is_answered_with_those_there_are() -> None:
    with pytest.raises(NotFound, match="choose one of: strictest, commercial"):
        limit_named("generous")


@pytest.mark.parametrize(
    ("load", "moves", "move_up", "renew_both"),
    [
        (1999, 0, False, False),
        (1999, 9, False, False),
        (2000, 0, True, False),
        (2500, 2, True, False),
        (2000, 3, False, True),
        (2000, 5, False, True),
    ],
)
def test_two_baths_rotate(load: float, moves: int, move_up: bool, renew_both: bool) -> None:
    advice = rotation(load, moves, FIRST)
    assert (advice.move_up, advice.renew_both) == (move_up, renew_both)
    assert "2 g/L for the first of two baths" in advice.why
