"""Volumes, strengths, draws, hydrates: what holds whatever the figures are."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.dilution import parse_dilution, part_volumes_hundredth_ml
from provenance.craft.solutions.drawing import left_hundredth_ml
from provenance.craft.solutions.heat import heat_of_dissolving_kj, temperature_rise_k
from provenance.craft.solutions.molar import mass_for_mol_per_l_mg, mol_per_l, moles
from provenance.craft.solutions.purity import Ware, equivalent_mass_mg
from provenance.craft.solutions.solubility import too_much
from provenance.craft.solutions.strength import (
    at_percent_of_stock,
    diluted_mg_per_l,
    strength_mg_per_l,
)
from provenance.craft.solutions.two_stocks import Pour, blend
from provenance.craft.solutions.volumes import mix_volumes
from provenance.errors import Refused
from provenance.model.chemistry import Finish
from provenance.model.quantities import Dilution
from tests.shelf import substances

FINISHES = st.sampled_from(("made up to", "added to"))
VOLUMES = st.integers(1, 10_000_000)
ASSAYS = st.integers(1, 100).map(Fraction)
SALTS = (("Na2CO3", "Na2CO3·H2O", "Na2CO3·10H2O"), ("Na2S", "Na2S·9H2O"))


@given(FINISHES, VOLUMES, st.lists(st.integers(1, 100_000), min_size=1, max_size=4))
def test_volume_is_conserved(finish: Finish, volume: int, liquids: list[int]) -> None:
    poured = sum(liquids)
    if finish == "made up to" and poured > volume:
        with pytest.raises(Refused, match="more is poured in"):
            mix_volumes(finish, volume, tuple(liquids))
        return
    made = mix_volumes(finish, volume, tuple(liquids))
    assert made.finished_hundredth_ml == poured + made.water_hundredth_ml
    assert made.finished_hundredth_ml == volume + (poured if finish == "added to" else 0)


@pytest.mark.parametrize(("volume", "liquid"), [(0, 5), (-1, 5), (100, 0), (100, -5)])
def test_volumes_that_are_none_are_refused(volume: int, liquid: int) -> None:
    with pytest.raises(Refused, match="not above zero"):
        mix_volumes("added to", volume, (liquid,))


@given(FINISHES, st.integers(1, 50_000), st.integers(1, 50_000), ASSAYS)
def test_moles_are_conserved_in_a_blend(finish: Finish, a: int, b: int, assay: Fraction) -> None:
    pours = (
        Pour("thiourea", Ware("CS(NH2)2"), Fraction(100_000), a),
        Pour("potassium_hydroxide", Ware("KOH", assay), Fraction(100_000), b),
    )
    made = blend(pours, finish, 100_000)
    for pour in made.pours:
        assert made.mol_per_l(pour) * made.litres == pytest.approx(pour.moles)
        assert made.g_per_l(pour) * made.litres == pytest.approx(float(pour.mass_mg) / 1000)
    assert made.mole_ratio[1] * pours[0].moles == pytest.approx(pours[1].moles)


@given(st.sampled_from(SALTS).flatmap(lambda forms: st.permutations(forms)), ASSAYS, ASSAYS)
def test_moles_are_conserved_from_one_hydrate_to_another(
    forms: list[str], assay: Fraction, other: Fraction
) -> None:
    ware, wanted = Ware(forms[0], assay), Ware(forms[1], other)
    mass = equivalent_mass_mg(1000, ware, wanted)
    assert moles(mass, wanted) == pytest.approx(moles(1000, ware))
    assert equivalent_mass_mg(mass, wanted, ware) == pytest.approx(1000)


def test_isomers_are_not_forms_of_one_substance() -> None:
    with pytest.raises(Refused, match="not forms of one substance"):
        equivalent_mass_mg(1000, Ware("CS(NH2)2"), Ware("NH4SCN"))


@pytest.mark.parametrize("assay", [0, -1, 101])
def test_an_assay_that_is_none_is_refused(assay: int) -> None:
    with pytest.raises(Refused, match="assay"):
        Ware("KOH", Fraction(assay))


@given(st.integers(1, 9_999), st.integers(1, 9_999), st.integers(1, 1_000_000), VOLUMES)
def test_what_is_dissolved_is_conserved_in_a_dilution(
    stock: int, water: int, strength: int, total: int
) -> None:
    dilution = Dilution(parts_hundredths=(stock, water), typed="trial")
    diluted = diluted_mg_per_l(strength, dilution)
    assert diluted * (stock + water) == Fraction(strength) * stock
    poured = part_volumes_hundredth_ml(dilution, total)
    # measured to half a hundredth of a millilitre
    assert abs(diluted * total - Fraction(strength) * poured[0]) <= Fraction(strength, 2)


def test_a_percentage_of_a_stock_is_parts() -> None:
    assert at_percent_of_stock(10).parts_hundredths == (1000, 9000)
    wanted = parse_dilution("1+9", colon_means=None)
    assert diluted_mg_per_l(7, at_percent_of_stock(10)) == diluted_mg_per_l(7, wanted)
    for none in (0, 100, -5, Fraction(1, 3)):
        with pytest.raises(Refused, match="cannot be measured out"):
            at_percent_of_stock(none)


def test_a_solution_without_volume_has_no_strength() -> None:
    with pytest.raises(Refused, match="has no strength"):
        strength_mg_per_l(100, 0)


@given(st.integers(1, 10_000_000), st.lists(st.integers(1, 100_000), max_size=20))
def test_a_bottle_holds_what_was_not_drawn(held: int, draws: list[int]) -> None:
    if sum(draws) > held:
        with pytest.raises(Refused, match="is more than the"):
            left_hundredth_ml(held, draws)
    else:
        assert left_hundredth_ml(held, draws) + sum(draws) == held


def test_a_draw_of_nothing_is_refused() -> None:
    with pytest.raises(Refused, match="not above zero"):
        left_hundredth_ml(100, [0])


def test_drawing_too_much_says_what_is_left() -> None:
    with pytest.raises(Refused, match="200 ml is more than the 150 ml"):
        left_hundredth_ml(25_000, [10_000, 20_000])


@given(st.floats(0.001, 5), st.integers(1_000, 1_000_000), ASSAYS)
def test_a_molarity_is_weighed_to_the_milligram(
    molarity: float, volume: int, assay: Fraction
) -> None:
    ware = Ware("KOH", assay)
    mass = mass_for_mol_per_l_mg(molarity, volume, ware)
    found = mol_per_l(float(strength_mg_per_l(mass, volume)), ware)
    half_a_milligram = mol_per_l(float(strength_mg_per_l(0.5, volume)), ware)
    assert abs(found - molarity) <= half_a_milligram * (1 + 1e-6)


@pytest.mark.parametrize(("molarity", "volume"), [(0, 100), (-1, 100), (1, 0)])
def test_no_molarity_weighs_nothing(molarity: float, volume: int) -> None:
    with pytest.raises(Refused, match="not above zero"):
        mass_for_mol_per_l_mg(molarity, volume, Ware("KOH"))


def test_more_than_dissolves_is_a_warning_with_its_figure() -> None:
    thiourea, acid = (substances().by_id(name) for name in ("thiourea", "acetic_acid"))
    assert too_much(thiourea, 136_000) is None
    found = too_much(thiourea, 136_001)
    assert found is not None
    assert (found.limit.g_per_l, found.limit.grade) == (136, "S")
    # acetic acid mixes with water in any proportion: no limit is on record
    assert too_much(acid, 1e6) is None


def test_heat_is_known_for_hydroxides_only() -> None:
    with pytest.raises(Refused, match="KBr"):
        heat_of_dissolving_kj(1000, "KBr")
    with pytest.raises(Refused, match="no water"):
        temperature_rise_k(10, 1000, 0)
