"""Molar masses of everything on the shelf against other tables, and CAS numbers."""

import re

import periodictable
import pytest
from stdnum import casrn

from provenance.craft.substance_rows import is_cas
from provenance.craft.substances import Substance
from tests.shelf import substances

PURE = [one for one in substances() if one.formula]


@pytest.mark.parametrize("substance", PURE, ids=lambda one: str(one.id))
def test_molar_mass_agrees_with_an_independent_table(substance: Substance) -> None:
    # C: the periodictable package, which keeps its own weights.
    theirs = re.sub(r"·(\d*)", r"+\1", substance.formula.replace("[", "(").replace("]", ")"))
    expected = periodictable.formula(theirs).mass
    assert substance.molar_mass_g_per_mol == pytest.approx(expected, abs=0.02)


def test_isomers_are_told_apart_by_everything_but_their_mass() -> None:
    # C: both 76.117.
    thiourea, thiocyanate = (
        substances().by_id(name) for name in ("thiourea", "ammonium_thiocyanate")
    )
    assert thiourea.molar_mass_g_per_mol == pytest.approx(thiocyanate.molar_mass_g_per_mol)
    assert substances().by_cas("62-56-6") == thiourea
    assert substances().find("NH4SCN") == thiocyanate


def test_cas_numbers_agree_with_an_independent_check() -> None:
    # C: python-stdnum, which checks the last digit.
    numbers = [one.cas for one in substances() if one.cas]
    assert len(numbers) > 50
    for number in numbers:
        assert casrn.is_valid(number)
        assert is_cas(number)
        wrong = number[:-1] + str((int(number[-1]) + 1) % 10)
        assert is_cas(wrong) is casrn.is_valid(wrong) is False
