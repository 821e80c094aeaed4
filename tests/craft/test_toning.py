import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.atomic import molar_mass
from provenance.craft.toning import BLEACH, REACTIONS, Reaction, bound, reagents_taken_mg
from provenance.errors import Refused


@given(st.sampled_from(REACTIONS), st.floats(0.001, 1e6))
def test_moles_are_conserved(reaction: Reaction, silver_mg: float) -> None:
    silver_moles = silver_mg / molar_mass("Ag")
    for formula, mass_mg in reagents_taken_mg(silver_mg, reaction).items():
        share = float(reaction.moles[formula])
        assert mass_mg / molar_mass(formula) == pytest.approx(silver_moles * share)


@given(st.floats(0.1, 1000), st.floats(1, 1e5), st.floats(1, 1e5))
def test_at_its_bound_a_bath_has_spent_one_reagent_and_not_overdrawn_another(
    silver_mg: float, ferricyanide: float, bromide: float
) -> None:
    bath = {"K3[Fe(CN)6]": ferricyanide, "KBr": bromide}
    limit = bound(silver_mg, BLEACH, bath)
    spent = {
        formula: mass * limit.sheets_per_l
        for formula, mass in reagents_taken_mg(silver_mg, BLEACH).items()
    }
    assert spent[limit.reagent] == pytest.approx(bath[limit.reagent])
    assert all(spent[formula] <= bath[formula] * (1 + 1e-9) for formula in bath)


def test_a_bath_with_a_reagent_left_out_is_refused() -> None:
    with pytest.raises(Refused, match="strength of KBr is not given"):
        bound(37.5, BLEACH, {"K3[Fe(CN)6]": 20_000})


def test_a_sheet_without_silver_has_no_bound() -> None:
    with pytest.raises(Refused, match="takes nothing"):
        bound(0, BLEACH, {"K3[Fe(CN)6]": 20_000, "KBr": 5_000})
