"""What a sheet takes along, and what that makes of the ledger of the next bath."""

import pytest

from provenance.craft.baths import Ledger, Use
from provenance.craft.carry_over import carried_over_mg
from provenance.craft.silver import Coating
from provenance.model.quantities import Size

SHEET = Size(height_tenth_mm=2032, width_tenth_mm=2540)
HALF = Size(height_tenth_mm=2032, width_tenth_mm=1270)


def test_a_sheet_carries_twenty_millilitres_on_eight_by_ten_inches() -> None:
    # 20 ml of 60 g/L, the figures of the handbook's example of a wash (W4)
    assert carried_over_mg(SHEET, 60_000) == pytest.approx(1200)
    assert carried_over_mg(HALF, 60_000) == pytest.approx(600)
    assert carried_over_mg(SHEET, 0) == 0


def test_a_sheet_fixed_before_is_counted_and_brings_only_what_it_carries() -> None:
    first = Ledger(100_000, (Use(SHEET, 3),), Coating())
    second = Ledger(100_000, (Use(SHEET, 3, fixed_before=True),), Coating(), 6.0, 12.0)
    assert (first.sheets, first.area_m2) == (second.sheets, second.area_m2)
    assert second.silver.coated_mg == 0
    assert second.dissolved_mg_per_l == 6.0
    assert second.dissolved_at_worst_mg_per_l == 12.0
    both = Ledger(100_000, first.uses + second.uses, Coating(), 6.0, 12.0)
    assert both.dissolved_mg_per_l == pytest.approx(first.dissolved_mg_per_l + 6.0)
