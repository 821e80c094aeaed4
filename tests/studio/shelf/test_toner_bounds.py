"""What a bleach or toner can never exceed, by its equation."""

from pathlib import Path

import pytest

from provenance.craft.silver import Coating
from provenance.model.chemistry import Bath
from provenance.model.quantities import Size
from provenance.records.register import Register
from provenance.studio.chemicals import load_chemicals
from provenance.studio.formulas import load_formula, use_formula
from provenance.studio.shelf.toner_bounds import TonerBound, toner_bound
from tests import studios

A1 = Size(height_tenth_mm=2000, width_tenth_mm=2500)
"""0.0500 m², the sheet of the checks of silver."""


@pytest.fixture
def register(tmp_path: Path) -> Register:
    return studios.new_register(tmp_path / "studio")


def bound_of(register: Register, code: str, **body: object) -> TonerBound | None:
    formula = load_formula(code, load_chemicals().substances)
    with register.act(studios.WHO) as act:
        made = use_formula(act, formula)
        bath = Bath(code="tray", role=formula.role or "wash", formula=made, **body)  # type: ignore[arg-type]
        act.enter(bath)
    return toner_bound(register.read, bath, A1, Coating())


def test_a_bleach_is_bound_by_its_bromide(register: Register) -> None:
    """A4: 20 g/L ferricyanide and 5 g/L bromide, 121 prints a litre (calculated)."""
    found = bound_of(register, "sepia-bleach", volume_hundredth_ml=100_000)
    assert found is not None
    assert (found.sheets, found.reagent) == (120, "KBr")
    assert "never more than 120 sheets" in found.text()
    assert "when the bromide is used up: a bound, not a capacity" in found.text()


def test_a_bound_goes_with_the_volume(register: Register) -> None:
    found = bound_of(register, "sepia-bleach", volume_hundredth_ml=50_000)
    assert found is not None
    assert found.sheets == 60


def test_sulfide_is_counted_by_its_own_hydrate(register: Register) -> None:
    """A3: 41.7 mg of nonahydrate for an image of 37.5 mg (calculated)."""
    found = bound_of(register, "sulfide-toner", volume_hundredth_ml=100_000)
    assert found is not None
    assert found.sheets == int(20_000 / 41.75)


@pytest.mark.parametrize("code", ["selenium-working", "plain-hypo"])
def test_what_is_not_known_is_not_bound(register: Register, code: str) -> None:
    assert bound_of(register, code, volume_hundredth_ml=100_000) is None


def test_a_tray_without_a_volume_has_no_bound(register: Register) -> None:
    assert bound_of(register, "sepia-bleach") is None
