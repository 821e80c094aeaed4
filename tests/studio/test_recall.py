"""Which prints met a bath, on which side of its limit, and what was issued for them."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.model.chemistry import Bath
from provenance.model.quantities import Size
from provenance.records.register import Register
from provenance.studio.recall import Recall, recall
from provenance.studio.settings import Settings
from tests.studios import (
    WHO,
    Shelf,
    bath,
    certificate,
    enter,
    furnish,
    new_register,
    release,
    revise,
    sheet,
    step,
)

EIGHT_BY_TEN = Size(height_tenth_mm=2032, width_tenth_mm=2540)


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with new_register(tmp_path / "studio") as opened:
        yield opened


@pytest.fixture
def shelf(register: Register) -> Shelf:
    """A litre of fixer, among other things."""
    with register.act(WHO) as act:
        shelf = furnish(act)
    revise(register, shelf.fix, volume_hundredth_ml=100_000)
    return shelf


def recalled(register: Register, record: int, **settings: str) -> Recall:
    return recall(register.read, register.read.get(Bath, record), Settings(**settings))  # type: ignore[arg-type]


def small(register: Register, shelf: Shelf, mark: str) -> int:
    """A sheet of 8 x 10 in."""
    image = Size(height_tenth_mm=1800, width_tenth_mm=2400)
    return enter(register, sheet(shelf, mark, sheet=EIGHT_BY_TEN, image=image))


def test_prints_on_both_sides_of_the_limit_in_the_order_of_work(
    register: Register, shelf: Shelf
) -> None:
    """38.7 mg of 8 x 10 in a litre: the published ten sheets to 0.5 g/L are 12 by this estimate."""
    prints = [small(register, shelf, f"Q{number:02}") for number in range(14)]
    enter(register, step(shelf, *prints[7:], done_on="2031-03-03"))
    enter(register, step(shelf, *prints[:7], done_on="2031-03-02"))
    found = recalled(register, shelf.fix)
    assert [one.print for one in found.lines] == prints
    assert [one.sheets for one in found.lines] == list(range(1, 15))
    sides = ["within"] * 6 + ["perhaps past"] * 6 + ["past"] * 2
    assert [one.side for one in found.lines] == sides
    each = 0.0516128 * 750
    assert [one.mg_per_l for one in found.lines] == pytest.approx(
        [each * number for number in range(1, 15)]
    )
    assert found.lines[0].mg_per_l_at_worst == pytest.approx(2 * each)
    assert found.prints == 14
    assert [one.name for one in found.on_side("past")] == ["QUAY Q12", "QUAY Q13"]
    assert found.ledger is not None
    assert found.ledger.dissolved_mg_per_l == pytest.approx(found.lines[-1].mg_per_l)


def test_the_limit_is_named_with_its_worth_and_whose_choice_it_is(
    register: Register, shelf: Shelf
) -> None:
    for number in range(14):
        enter(register, step(shelf, small(register, shelf, f"Q{number}")))
    studio = recalled(register, shelf.fix, silver_limit="first of two")
    assert {one.side for one in studio.lines} == {"within"}
    assert "limit “first of two”, the studio's choice: 2 g/L" in studio.assumption
    assert "second-hand" in studio.assumption
    assert "1.5 g/m² of silver coated, 50 % of it developed" in studio.assumption
    revise(register, shelf.fix, limit="strictest")
    own = recalled(register, shelf.fix, silver_limit="first of two")
    assert [one.side for one in own.lines] == ["perhaps past"] + ["past"] * 13
    assert "limit “strictest”, chosen for this bath: 0.05 g/L" in own.assumption
    assert "Haist" in own.assumption


def test_a_sheet_that_meets_the_limit_to_the_milligram_is_within_it(
    register: Register, shelf: Shelf
) -> None:
    # 0.0500 m² of the handbook's A1: 37.5 mg to the fixer, 75 at worst
    size = Size(height_tenth_mm=2000, width_tenth_mm=2500)
    image = Size(height_tenth_mm=1800, width_tenth_mm=2400)
    revise(register, shelf.fix, volume_hundredth_ml=7_500)
    one = enter(register, sheet(shelf, "Q1", sheet=size, image=image))
    enter(register, step(shelf, one))
    (line,) = recalled(register, shelf.fix).lines
    assert line.mg_per_l == pytest.approx(500)
    assert line.side == "perhaps past"


def test_what_was_issued_and_where_each_is(register: Register, shelf: Shelf) -> None:
    prints = [enter(register, sheet(shelf, f"Q{number}")) for number in range(4)]
    enter(register, step(shelf, *prints))
    withdrawn = enter(register, certificate(register, prints[0], b"one"))
    number = register.read.find(withdrawn).body.number  # type: ignore[union-attr]
    revise(register, withdrawn, state="withdrawn", state_why="a slip")
    enter(register, release(prints[0]), release(prints[1], on="2031-04-02"))
    enter(register, release(prints[1], event="returned", on="2031-05-01"))
    revise(register, prints[2], existence="destroyed", gone_on="2031-05", gone_why="water")
    found = recalled(register, shelf.fix)
    assert [(one.where, one.where_on) for one in found.lines] == [
        ("released", "2031-04-01"),
        ("in the studio", ""),
        ("destroyed", "2031-05"),
        ("in the studio", ""),
    ]
    assert [one.certificates for one in found.lines] == [((number, "withdrawn"),), (), (), ()]
    assert found.certificates == ((number, "withdrawn"),)


def test_a_print_that_went_through_twice_stands_twice_and_counts_once(
    register: Register, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "Q1"))
    enter(register, step(shelf, one), step(shelf, one, place=5))
    found = recalled(register, shelf.fix)
    assert [line.sheets for line in found.lines] == [1, 2]
    assert [line.fixed_before for line in found.lines] == [False, True]
    assert found.lines[0].mg_per_l == found.lines[1].mg_per_l
    assert found.prints == 1


def test_a_second_bath_is_told_by_what_was_carried_over(register: Register, shelf: Shelf) -> None:
    second = enter(register, bath(role="fix", one_shot=False, second_of=shelf.fix))
    one = enter(register, sheet(shelf, "Q1"))
    enter(register, step(shelf, one), step(shelf, one, place=2, bath=second))
    found = recalled(register, second)
    assert found.lines[0].fixed_before
    assert "sheets that were fixed before bring what they carry over" in found.assumption
    assert "sheets that were fixed before" not in recalled(register, shelf.fix).assumption


def test_without_a_volume_the_side_is_not_known(register: Register, shelf: Shelf) -> None:
    revise(register, shelf.fix, volume_hundredth_ml=None)
    enter(register, step(shelf, enter(register, sheet(shelf, "Q1"))))
    found = recalled(register, shelf.fix)
    assert [(one.side, one.mg_per_l) for one in found.lines] == [("not known", None)]
    assert "the volume of the bath is not on record" in found.assumption


def test_a_bath_that_is_no_fixer_has_no_limit(register: Register, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "Q1"))
    enter(register, step(shelf, one, role="wash", bath=shelf.wash))
    found = recalled(register, shelf.wash)
    assert (found.limit, found.assumption) == (None, "")
    assert [(one.sheets, one.side) for one in found.lines] == [(1, "not known")]
    assert not recalled(register, enter(register, bath())).lines
