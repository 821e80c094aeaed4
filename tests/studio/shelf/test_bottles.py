"""What is left in a bottle, how long it keeps, and what to think of it."""

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.chemistry import Bath, Stock
from provenance.records.register import Register
from provenance.studio.shelf.bottles import bottle, bottles, left_in
from tests import shelf as table
from tests.studios import bath, draw, enter, revise, stock

TODAY = date(2031, 6, 1)


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    mixed=st.integers(1, 500_000),
    volumes=st.lists(st.integers(1, 200_000), max_size=6),
)
def test_what_is_drawn_and_what_is_left_are_what_was_mixed(
    register: Register, mixed: int, volumes: list[int]
) -> None:
    name = f"S-{register.read.head()[0]}"
    held = enter(register, stock(code=name, volume_hundredth_ml=mixed))
    drawn = 0
    for place, volume in enumerate(volumes):
        body = bath(draw(held, volume), code=f"{name}.{place}", volume_hundredth_ml=200_000)
        if drawn + volume > mixed:
            with pytest.raises(Refused, match="left in the bottle"):
                enter(register, body)
        else:
            enter(register, body)
            drawn += volume
        left = left_in(register.read, register.read.get(Stock, held))
        assert drawn + left == mixed
    taken = [
        one.body.drawn[0].volume_hundredth_ml
        for one in register.read.linked(held, Bath, "drawn_from")
    ]
    assert sum(taken) == drawn


@pytest.mark.parametrize(
    ("fields", "drawn", "state"),
    [
        ({}, 0, "good"),
        ({"keeps_until": "2031-06-16"}, 0, "good"),
        ({"keeps_until": "2031-06-15"}, 0, "mix soon"),
        ({"keeps_until": "2031-06"}, 0, "good"),
        ({"keeps_until": "2031-06-01"}, 0, "mix soon"),
        ({"keeps_until": "2031-05-31"}, 0, "past its time"),
        ({}, 79_999, "good"),
        ({}, 80_000, "mix soon"),
        ({"keeps_until": "2031-05-31"}, 80_000, "past its time"),
        ({"keeps_until": "2031-05-31"}, 100_000, "empty"),
    ],
)
def test_the_gravest_word_is_said(
    register: Register, fields: dict[str, str], drawn: int, state: str
) -> None:
    held = enter(register, stock(**fields))
    if drawn:
        enter(register, bath(draw(held, drawn)))
    seen = bottle(register.read, register.read.get(Stock, held), TODAY)
    assert seen.state == state
    assert seen.left_share == pytest.approx(1 - drawn / 100_000)


def test_a_bottle_knows_what_is_in_it_and_what_became_of_it(register: Register) -> None:
    formula = enter(register, table.formula(table.ingredient("thiourea"), name="Thiourea, 1 %"))
    held = enter(register, stock(formula=formula, keeps_until="2031-08-28"))
    for code in ("B-1", "B-2"):
        enter(register, bath(draw(held, 18_000), code=code))
    (seen,) = bottles(register.read, TODAY)
    assert (seen.name, seen.left_text, seen.days_left) == ("Thiourea, 1 %", "640 ml", 88)
    assert seen.baths == ("B-1", "B-2")
    revise(register, held, made_from="our toner")
    assert bottles(register.read, TODAY)[0].name == "our toner"


def test_what_was_thrown_away_is_off_the_shelf(register: Register) -> None:
    held = enter(register, stock(), stock(code="S-2"))
    revise(register, held, retired_on="2031-05-01", retired_why="cloudy")
    assert [one.stock.body.code for one in bottles(register.read, TODAY)] == ["S-1"]
    states = [one.state for one in bottles(register.read, TODAY, retired=True)]
    assert states == ["good", "retired"]
