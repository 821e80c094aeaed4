from fractions import Fraction

import pytest

from provenance.craft.hazards.contents import Content, contents_of
from provenance.craft.hazards.label import (
    alkaline_ph,
    label_of,
    label_of_mix,
    pictograms_for,
)
from provenance.craft.substances import Substance
from tests.shelf import formula, hazards, ingredient, substances


@pytest.mark.parametrize("substance", list(substances()), ids=lambda one: str(one.id))
def test_codes_lead_to_the_pictograms_and_the_word_of_the_label(substance: Substance) -> None:
    # The tables of statements and of substances come from different sources; they must agree.
    hazard = substance.hazard
    assert pictograms_for(hazard.h_codes, hazards()) == hazard.pictograms
    words = {hazards().statement[code].signal for code in hazard.h_codes} - {""}
    expected = "Danger" if "Danger" in words else "Warning" if words else ""
    assert hazard.signal_word == expected


def test_a_substance_has_its_own_label_and_precautions() -> None:
    label = label_of(substances().by_id("silver_nitrate"), hazards())
    assert label.codes == ("H272", "H314", "H410")
    assert label.some_suppliers == ("H290",)
    assert label.signal_word == "Danger"
    assert {"P210", "P280", "P273"} <= set(label.precautions)
    assert label_of(substances().by_id("silver"), hazards()).not_known == ("silver",)


@pytest.mark.parametrize(
    ("percent", "codes", "word"),
    [
        # general limits for acetic acid: 25 % burns, 10 % irritates (M)
        (80.0, ("H226", "H314"), "Danger"),
        (25.0, ("H314",), "Danger"),
        (24.9, ("H315", "H319"), "Warning"),
        (10.0, ("H315", "H319"), "Warning"),
        (9.9, (), ""),
    ],
)
def test_a_solution_is_labelled_by_its_strength(
    percent: float, codes: tuple[str, ...], word: str
) -> None:
    label = label_of_mix((Content("acetic_acid", percent),), substances(), hazards())
    assert (label.codes, label.signal_word) == (codes, word)
    assert set(label.codes) | set(label.beneath) >= {"H226", "H314"}


def test_shares_of_several_substances_add_up() -> None:
    # H302 holds from 25 %: neither reaches it, both together do
    half = Content("ammonium_chloride", 13.0)
    other = Content("copper_sulfate_pentahydrate", 13.0)
    assert "H302" in label_of_mix((half,), substances(), hazards()).beneath
    assert "H302" in label_of_mix((half, other), substances(), hazards()).codes


def test_thiourea_as_stock_and_as_toner() -> None:
    stock = label_of_mix((Content("thiourea", 10.0),), substances(), hazards())
    assert stock.codes == ("H351", "H361d", "H412")
    assert stock.beneath == ("H302", "H411")
    toner = label_of_mix((Content("thiourea", 0.2),), substances(), hazards())
    assert toner.codes == ()
    assert set(toner.beneath) == {"H351", "H361d", "H302", "H411"}


@pytest.mark.parametrize(
    ("mg_per_l", "burns"),
    [
        # pH 11.5 is 0.003162 mol of hydroxide in a litre, 177.4 mg of KOH (C)
        (177, False),
        (178, True),
        (8_000, True),
    ],
)
def test_hydroxide_burns_above_its_ph(mg_per_l: int, burns: bool) -> None:
    mix = contents_of(formula(ingredient("potassium_hydroxide", mg_per_l=mg_per_l)))
    label = label_of_mix(mix, substances(), hazards())
    assert ("H314" in label.codes) is burns
    assert (label.ph_at_least is not None) is burns
    assert label.signal_word == ("Danger" if burns else "")


def test_impure_hydroxide_is_counted_by_its_assay() -> None:
    pellets = ingredient("potassium_hydroxide", mg_per_l=200, assay_hundredth_percent=8_500)
    [content] = contents_of(formula(pellets))
    assert content.mol_per_l == pytest.approx(0.2 * 0.85 / 56.105, rel=1e-4)
    assert "H314" not in label_of_mix((content,), substances(), hazards()).codes
    ph = alkaline_ph((content,), hazards())
    assert ph is not None
    assert ph < hazards().burns_above_ph


def test_sulfide_is_alkaline_too_and_carbonate_is_not_counted() -> None:
    sulfide = contents_of(formula(ingredient("sodium_sulfide_nonahydrate", mg_per_l=20_000)))
    assert "H314" in label_of_mix(sulfide, substances(), hazards()).codes
    carbonate = contents_of(formula(ingredient("sodium_carbonate", mg_per_l=20_000)))
    assert alkaline_ph(carbonate, hazards()) is None


def test_contents_follow_the_share_and_the_volume() -> None:
    acid = ingredient("acetic_acid", hundredth_ml_per_l=10_000)
    assert contents_of(formula(acid))[0].percent == pytest.approx(10)
    assert contents_of(formula(acid), Fraction(1, 10))[0].percent == pytest.approx(1)
    added = formula(acid, finish="added to")
    assert contents_of(added)[0].percent == pytest.approx(100 / 11)


def test_milder_codes_go_where_a_graver_one_says_it() -> None:
    both = (Content("sulfuric_acid", 50.0), Content("citric_acid", 50.0))
    assert label_of_mix(both, substances(), hazards()).codes == ("H314", "H335")
