import pytest

from provenance.craft.atomic import ATOMIC_WEIGHTS, molar_mass
from provenance.errors import Refused


def test_brackets_and_water_are_counted() -> None:
    weight = ATOMIC_WEIGHTS
    water = 2 * weight["H"] + weight["O"]
    assert molar_mass("H2O") == pytest.approx(water)
    assert molar_mass("Na2S·9H2O") == pytest.approx(2 * weight["Na"] + weight["S"] + 9 * water)
    cyanide = weight["C"] + weight["N"]
    potassium_iron = 3 * weight["K"] + weight["Fe"]
    assert molar_mass("K3[Fe(CN)6]") == pytest.approx(potassium_iron + 6 * cyanide)
    assert molar_mass("K3Fe(CN)6") == pytest.approx(molar_mass("K3[Fe(CN)6]"))


@pytest.mark.parametrize(
    ("formula", "reason"),
    [
        ("", "empty"),
        ("NaCl·", "empty"),
        ("Na2S2O3*5H2O", "is not part of a formula"),
        ("Xx2", "Xx is not on hand"),
        ("(NH4", "left open"),
        ("NH4)2", "not opened"),
        ("(NH4]2", "not opened"),
        ("9" * 5000 + "H2O", "five figures"),
        ("Na" + "9" * 5000, "five figures"),
        ("Na2S·12345H2O", "five figures"),
    ],
)
def test_unreadable_formulas_are_refused(formula: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason):
        molar_mass(formula)
