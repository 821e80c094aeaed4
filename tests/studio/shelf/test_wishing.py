"""What somebody wishes to mix, as it is written."""

from pathlib import Path

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.formula import Formula
from provenance.model.quantities import Dilution
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder
from provenance.studio.shelf.wishing import bottle_codes, find_sources, known_formulas, read_taken
from tests import shelf as table
from tests.studios import enter, revise, stock


@pytest.mark.parametrize(
    ("text", "hundredth_ml"),
    [
        ("20 ml + 80 ml", (2_000, 8_000)),
        ("20+80 ml", (2_000, 8_000)),
        ("20 ml + 80", (2_000, 8_000)),
        ("1 L", (100_000,)),
        ("0.5 L+250 ml", (50_000, 25_000)),
    ],
)
def test_volumes_are_what_is_poured(text: str, hundredth_ml: tuple[int, ...]) -> None:
    assert read_taken(text, colon_means=None) == hundredth_ml


def test_figures_alone_are_parts_and_what_was_typed_is_kept() -> None:
    read = read_taken("20+80+900", colon_means=None)
    assert isinstance(read, Dilution)
    assert read.parts_hundredths == (2_000, 8_000, 90_000)
    assert read.typed == "20+80+900"


def test_a_colon_is_refused_until_the_studio_has_chosen() -> None:
    with pytest.raises(Refused, match=r"1\+9 or as 1\+8"):
        read_taken("1:9", colon_means=None)
    read = read_taken("1:9", colon_means="total")
    assert isinstance(read, Dilution)
    assert read.parts_hundredths == (100, 800)


def test_what_is_neither_is_refused_with_both_ways_to_write_it() -> None:
    with pytest.raises(Refused, match="20 ml \\+ 80 ml") as refusal:
        read_taken("900", colon_means=None)
    assert refusal.value.problems[0].field == "dilution"
    with pytest.raises(Refused):
        read_taken("20 ml + 80 apples", colon_means=None)


def test_bottles_by_name_else_one_formula(register: Register, tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "studio")
    one, two = enter(register, stock(code="A-1")), enter(register, stock(code="B-1"))

    def found(*names: str) -> object:
        return find_sources(register.read, folder, names, table.substances())

    bottles = found("a-1", "B-1")
    assert isinstance(bottles, tuple)
    assert [bottle.id for bottle in bottles] == [one, two]
    formula = found("sepia-bleach")
    assert isinstance(formula, Formula)
    assert formula.role == "bleach"
    with pytest.raises(Refused, match="of what is not said"):
        found()
    with pytest.raises(NotFound, match="no bottle is called sepia-bleach"):
        found("A-1", "sepia-bleach")
    with pytest.raises(NotFound, match="no formula soda, and no bottle"):
        found("soda")


def test_a_formula_on_record_comes_before_its_template(register: Register, tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "studio")
    own = table.formula(table.ingredient("potassium_bromide"), code="sepia-bleach", name="Ours")
    enter(register, own, table.formula(table.ingredient("thiourea"), code="ours-2"))
    found = find_sources(register.read, folder, ["sepia-bleach"], table.substances())
    assert found == own
    codes = known_formulas(register.read, folder)
    assert codes.count("sepia-bleach") == 1
    assert "ours-2" in codes
    assert "plain-hypo" in codes


def test_bottles_in_use_are_offered(register: Register) -> None:
    enter(register, stock(code="A-1"))
    revise(register, enter(register, stock(code="B-1")), retired_on="2031-05-01", retired_why="old")
    assert bottle_codes(register.read) == ["A-1"]
