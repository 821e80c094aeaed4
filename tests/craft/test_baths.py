from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.baths import Ledger, Use, age, remaining, why_unfit
from provenance.craft.fixing import (
    LIMITS,
    OPEN_TRAY_DAYS,
    WORKING_FIXER_DAYS,
    SilverLimit,
    limit_named,
)
from provenance.craft.silver import Coating, silver_in
from provenance.errors import Refused
from provenance.model.chemistry import Bath
from provenance.model.quantities import Size
from tests.craft.test_silver import COATINGS

SMALL = Size(height_tenth_mm=1000, width_tenth_mm=1000)
LARGE = Size(height_tenth_mm=2000, width_tenth_mm=1000)
USES = st.lists(st.builds(Use, size=st.sampled_from((SMALL, LARGE)), sheets=st.integers(1, 200)))


def test_a_ledger_adds_up_area_and_silver() -> None:
    # 0.01 m² and 0.02 m², ten of each: 0.3 m², 225 mg to the fixer, in half a litre
    ledger = Ledger(50_000, (Use(SMALL, 10), Use(LARGE, 10)), Coating(1500, 50))
    assert ledger.sheets == 20
    assert ledger.area_m2 == pytest.approx(0.3)
    assert ledger.silver.to_fixer_mg == pytest.approx(225)
    assert ledger.dissolved_mg_per_l == pytest.approx(450)
    assert ledger.dissolved_at_worst_mg_per_l == pytest.approx(900)


@given(USES, USES, COATINGS, st.integers(1, 10_000_000))
def test_silver_is_conserved_over_uses(
    first: list[Use], then: list[Use], coating: Coating, volume: int
) -> None:
    parts = [Ledger(volume, tuple(uses), coating) for uses in (first, then)]
    both = Ledger(volume, (*first, *then), coating)
    assert both.silver.to_fixer_mg == pytest.approx(sum(one.silver.to_fixer_mg for one in parts))
    assert both.dissolved_mg_per_l * both.litres == pytest.approx(both.silver.to_fixer_mg)
    sheets = sum(silver_in(use.size, coating).coated_mg * use.sheets for use in (*first, *then))
    assert both.silver.coated_mg == pytest.approx(sheets)


@given(USES, COATINGS, st.sampled_from(LIMITS), st.integers(1_000, 1_000_000))
def test_what_remains_stays_below_the_limit_and_one_more_does_not(
    uses: list[Use], coating: Coating, limit: SilverLimit, volume: int
) -> None:
    ledger = Ledger(volume, tuple(uses), coating)
    left = remaining(ledger, limit, SMALL)
    more = tuple([Use(SMALL, left.sheets)] if left.sheets else [])
    full = Ledger(volume, (*uses, *more), coating)
    over = Ledger(volume, (*uses, *more, Use(SMALL, 1)), coating)
    assert left.sheets_at_worst <= left.sheets
    assert over.dissolved_mg_per_l > limit.mg_per_l * (1 - 1e-6)
    if left.sheets:
        assert full.dissolved_mg_per_l <= limit.mg_per_l * (1 + 1e-6)


def test_a_limit_met_to_the_milligram_loses_no_sheet() -> None:
    # 0.01 m² at 1 g/m², half developed, brings 5 mg; 500 mg in a litre are a hundred sheets
    left = remaining(Ledger(100_000, (), Coating(1000, 50)), limit_named("single"), SMALL)
    assert left.sheets == 100
    assert "a single bath, for permanence" in left.assumption
    assert "1 g/m² of silver coated" in left.assumption


@pytest.mark.parametrize(("volume", "sheets"), [(0, 1), (-5, 1), (100, 0), (100, -3)])
def test_no_volume_and_no_sheets_are_refused(volume: int, sheets: int) -> None:
    with pytest.raises(Refused, match="has no ledger"):
        Ledger(volume, (Use(SMALL, sheets),), Coating())


@pytest.mark.parametrize(
    ("today", "days", "left"),
    [(date(2031, 3, 1), 0, 60), (date(2031, 4, 30), 60, 0), (date(2031, 5, 1), 61, -1)],
)
def test_a_working_fixer_ages(today: date, days: int, left: int) -> None:
    found = age(date(2031, 3, 1), today, WORKING_FIXER_DAYS)
    assert (found.days, found.left_days) == (days, left)
    assert found.discard_after == date(2031, 4, 30)


def test_an_open_tray_is_a_week() -> None:
    assert age(date(2031, 3, 1), date(2031, 3, 1), OPEN_TRAY_DAYS).discard_after.day == 8


def test_what_is_mixed_tomorrow_is_refused() -> None:
    with pytest.raises(Refused, match="still to come"):
        age(date(2031, 3, 2), date(2031, 3, 1), 7)


def test_a_one_shot_bath_serves_once() -> None:
    bath = Bath(code="toner", role="thiourea", one_shot=True)
    assert why_unfit(bath, 0) is None
    problem = why_unfit(bath, 1)
    assert problem is not None
    assert "for one use" in problem.what
    assert why_unfit(Bath(code="fix", role="fix"), 30) is None


def test_a_retired_bath_serves_no_more() -> None:
    bath = Bath(code="fix", role="fix", retired_on="2031-03-01", retired_why="spent")
    problem = why_unfit(bath, 0)
    assert problem is not None
    assert problem.what == "fix was retired on 2031-03-01: spent"
    assert problem.record == "fix"
