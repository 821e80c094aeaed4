import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.solutions.scaling import litres_from_a_litre, scale
from provenance.errors import Refused
from tests.shelf import formula, ingredient

DRY = ingredient("potassium_bromide", mg_per_l=5_000)
WET = ingredient("acetic_acid", hundredth_ml_per_l=10_000)


def test_a_formula_made_up_to_its_volume() -> None:
    batch = scale(formula(DRY, WET), 250_000)
    assert [one.mass_mg for one in batch.measures] == [12_500, None]
    assert [one.volume_hundredth_ml for one in batch.measures] == [None, 25_000]
    assert batch.water_hundredth_ml is None


def test_a_formula_added_to_water_starts_from_less_of_it() -> None:
    # 100 ml in a litre of water give 1.1 L: for 1.1 L a litre of water, for 2.2 L two
    added = formula(DRY, WET, finish="added to")
    assert litres_from_a_litre(added) == pytest.approx(1.1)
    batch = scale(added, 220_000)
    assert batch.water_hundredth_ml == 200_000
    assert [one.mass_mg for one in batch.measures] == [10_000, None]


@given(st.integers(10_000, 10_000_000), st.sampled_from(("made up to", "added to")))
def test_volume_and_mass_are_conserved(volume: int, finish: str) -> None:
    batch = scale(formula(DRY, WET, finish=finish), volume)
    dry, wet = batch.measures
    assert dry.mass_mg is not None
    assert wet.volume_hundredth_ml is not None
    if batch.water_hundredth_ml is not None:
        assert abs(batch.water_hundredth_ml + wet.volume_hundredth_ml - volume) <= 1
        # 5000 mg and 100 ml go into every litre of water
        assert abs(dry.mass_mg - batch.water_hundredth_ml * 5_000 / 100_000) <= 1
    else:
        assert abs(dry.mass_mg - volume * 5_000 / 100_000) <= 0.5


@pytest.mark.parametrize("volume", [0, -100, 5])
def test_a_volume_in_which_something_vanishes_is_refused(volume: int) -> None:
    with pytest.raises(Refused, match="less than can be weighed"):
        scale(formula(DRY), volume)
