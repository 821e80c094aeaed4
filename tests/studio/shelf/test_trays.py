"""What a tray has been through, and for how much more it is fit."""

from datetime import date
from typing import Any

import pytest

from provenance.model.chemistry import Bath
from provenance.model.printing import Printing
from provenance.model.quantities import Size
from provenance.records.register import Register
from provenance.studio.settings import Settings
from provenance.studio.shelf import retired
from provenance.studio.shelf.passes import Passes
from provenance.studio.shelf.trays import Tray, tray, trays, usual_sheet
from provenance.studio.shelf.view import view_shelf
from tests import shelf as table
from tests.studios import SHEET, Shelf, bath, draw, enter, revise, sheet, step, stock

TODAY = date(2031, 3, 4)
SMALL = Size(height_tenth_mm=2032, width_tenth_mm=2540)
EACH_MG = 0.305 * 0.406 * 750
"""Half of 1.5 g/m² on the sheet of the tests (the handbook's default, S2)."""


def seen(register: Register, record: int, today: date = TODAY, **other: Any) -> Tray:
    """One tray as it stands."""
    return tray(register.read, register.read.get(Bath, record), Settings(**other), today)


def put_through(register: Register, shelf: Shelf, sheets: int, *baths: int) -> list[int]:
    """New sheets, each through all of `baths` in turn."""
    made = []
    for number in range(sheets):
        mark = f"{register.read.head()[0]}.{number}"
        made.append(enter(register, sheet(shelf, mark)))
        for place, one in enumerate(baths, 1):
            enter(register, step(shelf, made[-1], bath=one, place=place))
    return made


@pytest.fixture
def fix(register: Register, shelf: Shelf) -> int:
    """Two litres of fixer."""
    revise(register, shelf.fix, volume_hundredth_ml=200_000)
    return shelf.fix


@pytest.mark.parametrize(("day", "told"), [(8, False), (9, True), (31, True)])
def test_a_fixer_is_told_to_be_past_the_week_of_an_open_tray(
    register: Register, fix: int, day: int, *, told: bool
) -> None:
    """Made on the first of March; a week for an open tray (the trade's handbook, S2)."""
    said = seen(register, fix, date(2031, 3, day)).open_tray_text
    assert said == ("past the 7 days of an open tray" if told else "")


def test_a_bath_serves_as_many_sheets_as_the_studio_says(register: Register, shelf: Shelf) -> None:
    stop = enter(register, Bath(code="stop-1", role="stop"))
    mine: dict[str, Any] = {"sheet_limits": {"stop": 2}}
    assert seen(register, stop).fit_text() == "no limit known: test it"
    marks = [enter(register, sheet(shelf, f"S{number}")) for number in range(3)]
    enter(register, step(shelf, marks[0], role="stop", bath=stop))
    assert seen(register, stop, **mine).fit_text() == "1 more; the studio's limit is 2 sheets"
    enter(register, step(shelf, *marks[1:], role="stop", bath=stop))
    assert seen(register, stop, **mine).state == "past its limit"


def test_a_fixer_is_fit_for_so_many_more(register: Register, shelf: Shelf, fix: int) -> None:
    fresh = seen(register, fix)
    assert (fresh.state, fresh.sheets, fresh.age_days) == ("fresh", 0, 3)
    assert fresh.fit_for is not None
    # one litre to 0.5 g/L is a bound of 10.7 of this sheet for two litres (calculated)
    assert fresh.fit_for.sheets == int(1000 / EACH_MG) == 10
    assert fresh.fit_for.sheets_at_worst == int(1000 / (2 * EACH_MG)) == 5
    put_through(register, shelf, 4, fix)
    used = seen(register, fix)
    assert (used.state, used.sheets, used.uses) == ("in use", 4, 1)
    assert used.ledger is not None
    assert used.ledger.dissolved_mg_per_l == pytest.approx(4 * EACH_MG / 2)
    assert used.silver_share == pytest.approx(4 * EACH_MG / 2 / 500)
    assert used.fit_text() == "6 more, 30.5 × 40.6 cm; at worst 1"
    assert used.silver_text == "0.19 g/L of silver, at worst 0.37"
    assert "1.5 g/m² of silver coated, 50 % of it developed" in used.assumption
    assert "up to 0.5 g/L for a single bath, for permanence: second-hand" in used.assumption


@pytest.mark.parametrize(
    ("sheets", "state"),
    [
        (5, "in use"),
        (6, "may be past its limit"),
        (10, "may be past its limit"),
        (11, "past its limit"),
    ],
)
def test_the_limit_is_judged_by_both_estimates(
    register: Register, shelf: Shelf, fix: int, sheets: int, state: str
) -> None:
    put_through(register, shelf, sheets, fix)
    assert seen(register, fix).state == state


def test_another_limit_and_another_paper_are_chosen_in_the_settings(
    register: Register, shelf: Shelf, fix: int
) -> None:
    put_through(register, shelf, 11, fix)
    assert seen(register, fix, silver_limit="first of two").state == "in use"
    assert seen(register, fix, silver_coated_mg_per_m2=700).state != "past its limit"
    revise(register, fix, limit="strictest")
    own = seen(register, fix, silver_limit="first of two")
    assert own.limit is not None
    assert own.limit.mg_per_l == 50
    assert own.state == "past its limit"


def test_a_sheet_that_comes_back_brings_no_silver_again(
    register: Register, shelf: Shelf, fix: int
) -> None:
    (one,) = put_through(register, shelf, 1, fix)
    before = seen(register, fix).ledger
    enter(register, step(shelf, one, bath=fix, place=7))
    after = seen(register, fix)
    assert after.ledger is not None
    assert before is not None
    assert after.ledger.dissolved_mg_per_l == before.dissolved_mg_per_l
    assert (after.sheets, after.ledger.sheets) == (1, 2)


def test_a_second_bath_gets_what_sheets_carry_over(
    register: Register, shelf: Shelf, fix: int
) -> None:
    second = enter(
        register, bath(role="fix", one_shot=False, second_of=fix, volume_hundredth_ml=200_000)
    )
    put_through(register, shelf, 3, fix, second)
    silver = [one.silver_mg for one in Passes(register.read, Settings().coating).of(second)]
    # each carries 20 ml for an 8 x 10 in of the first bath as it then was (common practice)
    carried_l = 0.020 * 0.305 * 0.406 / 0.0516128
    assert silver == pytest.approx([carried_l * EACH_MG / 2 * n for n in (1, 2, 3)])
    assert [one.fixed_before for one in Passes(register.read, Settings().coating).of(second)] == [
        True
    ] * 3
    first, other = seen(register, fix), seen(register, second)
    assert first.second is not None
    assert first.second.id == second
    assert first.advice is not None
    assert not first.advice.move_up
    assert other.fit_text() == "second bath of F-1"
    assert other.fit_for is None
    assert "20 ml with a drained sheet of 8 x 10 in (common practice" in other.assumption


def test_a_pair_moves_up_and_is_renewed_after_three_moves(
    register: Register, shelf: Shelf, fix: int
) -> None:
    first = fix
    for moves in range(4):
        second = enter(
            register,
            bath(
                code=f"B-{moves}", role="fix", one_shot=False, second_of=first,
                volume_hundredth_ml=10_000,
            ),
        )  # fmt: skip
        if moves == 0:
            revise(register, first, volume_hundredth_ml=10_000)
        put_through(register, shelf, 1, first)
        advice = seen(register, first).advice
        assert advice is not None
        assert (advice.move_up, advice.renew_both) == (moves < 3, moves == 3)
        revise(register, first, retired_on="2031-03-02", retired_why="to its limit")
        assert seen(register, second).first is None
        first = second


def test_a_bath_of_another_kind_has_no_limit(register: Register, shelf: Shelf) -> None:
    toner = enter(register, bath(role="selenium", one_shot=False))
    put_through(register, shelf, 2)
    plain = seen(register, toner)
    assert (plain.limit, plain.silver_text, plain.assumption) == (None, "", "")
    assert plain.fit_text() == "no limit known: test it"
    assert seen(register, shelf.wash).fit_text() == ""


def test_a_bath_for_one_use_is_spent_after_it(register: Register, shelf: Shelf) -> None:
    toner = enter(register, bath())
    assert (seen(register, toner).state, seen(register, toner).fit_text()) == ("fresh", "one use")
    (one,) = put_through(register, shelf, 1)
    enter(register, step(shelf, one, role="thiourea", bath=toner))
    assert (seen(register, toner).state, seen(register, toner).fit_text()) == ("spent", "spent")


@pytest.mark.parametrize(
    ("today", "state"), [(date(2031, 4, 30), "fresh"), (date(2031, 5, 1), "past its time")]
)
def test_a_working_fixer_keeps_two_months(
    register: Register, shelf: Shelf, today: date, state: str
) -> None:
    # S2: two months for a working fixer
    assert seen(register, shelf.fix, today).state == state


def test_a_formula_says_how_long_a_tray_keeps(register: Register, shelf: Shelf) -> None:
    formula = enter(register, table.formula(table.ingredient("thiourea"), tray_days=2))
    held = enter(register, bath(formula=formula, one_shot=False, made_on="2031-03-01"))
    late = seen(register, held)
    assert (late.state, late.age_share, late.keeps_source) == (
        "past its time",
        1.5,
        "formula trial",
    )
    assert late.assumption == "kept 2 days: formula trial"


def test_what_is_not_on_record_is_said(register: Register, shelf: Shelf) -> None:
    put_through(register, shelf, 1, shelf.fix)
    bare = seen(register, shelf.fix)
    assert (bare.ledger, bare.silver_share, bare.silver_text) == (None, None, "")
    assert bare.fit_text() == "its volume is not on record"
    assert bare.sheets == 1
    assert seen(register, shelf.wash).age_days is None
    revise(register, shelf.fix, verb="correct", made_on="../2031-03-01")
    assert seen(register, shelf.fix).age_days is None


def test_a_tray_says_of_what_it_is(register: Register, shelf: Shelf) -> None:
    one, two = (enter(register, stock(code=code)) for code in ("S-1", "S-2"))
    poured = enter(register, bath(draw(one), draw(two, 8_000)))
    assert seen(register, poured).made_from == "S-1 + S-2 in 1 L"
    assert seen(register, shelf.fix).made_from == "fix"


def test_the_usual_sheet_is_the_last_that_was_printed(register: Register) -> None:
    from tests.studios import furnish

    assert usual_sheet(register.read) is None
    with register.act("printer") as act:
        shelf = furnish(act)
    assert usual_sheet(register.read) == SHEET
    enter(register, sheet(shelf, "1", sheet=SMALL, image=SMALL))
    assert usual_sheet(register.read) == SMALL


def test_the_shelf_holds_what_is_in_use(register: Register, shelf: Shelf) -> None:
    put_through(register, shelf, 3, shelf.fix)
    enter(register, stock())
    revise(register, shelf.wash, retired_on="2031-03-03", retired_why="emptied")
    now = view_shelf(register.read, Settings(), TODAY)
    assert [one.bath.id for one in now.trays] == [shelf.fix]
    assert [one.stock.body.code for one in now.bottles] == ["S-1"]
    (box,) = now.papers
    assert (box.paper.id, box.sheets, box.last_used) == (shelf.paper, 3, "2031-03-02")
    every = trays(register.read, Settings(), TODAY, retired=True)
    assert [one.state for one in every] == ["in use", "retired"]


def test_of_what_was_thrown_away_the_latest_are_listed(
    register: Register, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(retired, "RETIRED", 2)
    for code in ("S-1", "S-2", "S-3"):
        gone = enter(register, stock(code=code))
        revise(register, gone, retired_on="2031-03-03", retired_why="empty")
    enter(register, stock(code="S-4"))
    now = view_shelf(register.read, Settings(), TODAY, retired=True)
    assert [one.stock.body.code for one in now.bottles] == ["S-2", "S-3", "S-4"]
    assert (now.bottles_left_out, now.trays_left_out) == (1, 0)
    assert view_shelf(register.read, Settings(), TODAY).bottles_left_out == 0


def test_a_paper_knows_the_day_of_a_printing_without_sheets(
    register: Register, shelf: Shelf
) -> None:
    put_through(register, shelf, 1, shelf.fix)
    enter(register, Printing(negative=shelf.negative, done_on="2031-04-05", paper=shelf.paper))
    (box,) = view_shelf(register.read, Settings(), TODAY).papers
    assert (box.sheets, box.last_used) == (1, "2031-04-05")
