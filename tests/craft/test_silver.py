import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.residual import area_m2
from provenance.craft.silver import Coating, silver_in
from provenance.errors import Refused
from provenance.model.quantities import Size

SIZES = st.builds(
    Size, height_tenth_mm=st.integers(1, 20_000), width_tenth_mm=st.integers(1, 20_000)
)
COATINGS = st.builds(
    Coating, mg_per_m2=st.integers(1, 20_000), developed_percent=st.integers(0, 99)
)


@given(SIZES, COATINGS)
def test_silver_is_conserved(size: Size, coating: Coating) -> None:
    silver = silver_in(size, coating)
    assert silver.image_mg + silver.to_fixer_mg == pytest.approx(silver.coated_mg)
    assert silver.coated_mg == pytest.approx(area_m2(size) * coating.mg_per_m2)
    assert silver.image_mg <= silver.to_fixer_at_worst_mg == silver.coated_mg


@pytest.mark.parametrize(("mg_per_m2", "percent"), [(0, 50), (-1, 50), (20_001, 50)])
def test_a_coating_that_no_paper_has_is_refused(mg_per_m2: int, percent: int) -> None:
    with pytest.raises(Refused, match="no paper is coated"):
        Coating(mg_per_m2, percent)


@pytest.mark.parametrize("percent", [-1, 100, 101])
def test_a_share_that_cannot_be_developed_is_refused(percent: int) -> None:
    with pytest.raises(Refused, match="cannot be developed"):
        Coating(1500, percent)


def test_an_assumption_is_said_with_its_worth() -> None:
    assert str(Coating()) == (
        "1.5 g/m² of silver coated, 50 % of it developed: an emulsion engineer,"
        " 50 to 150 mg on a square foot (second-hand: a source quoted by another)"
    )
