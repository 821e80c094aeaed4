from pathlib import Path

import pytest

from provenance.craft.hazards.contents import contents_of
from provenance.craft.hazards.label import label_of_mix
from provenance.craft.hazards.meetings import meetings_in_mix
from provenance.craft.solutions.solubility import too_much
from provenance.errors import NotFound, Refused
from provenance.resources import resource
from provenance.studio.chemicals import load_hazards, load_substances
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import load_formula, parse_amount, read_formula
from tests.shelf import hazards, substances

NAMES = sorted(path.stem for path in resource("templates", "formulas").glob("*.toml"))
GOOD = """code = "brine"
name = "Brine"
role = "washing aid"
use = "stock"
finish = "made up to"
source = "a test"
standing = "P"

[[part]]
substance = "sodium_chloride"
amount = "10 g"
"""


def test_the_formulas_that_come_along() -> None:
    assert NAMES == [
        "alkaline-rapid-fixer",
        "citric-stop",
        "hydroxide-stock",
        "plain-hypo",
        "residual-silver-test",
        "selenium-working",
        "sepia-bleach",
        "silver-nitrate-test",
        "sulfide-toner",
        "thiourea-stock",
        "washing-aid",
    ]


@pytest.mark.parametrize("name", NAMES)
def test_each_is_whole_dissolves_and_does_not_meet_itself(name: str) -> None:
    formula = load_formula(name, substances())
    assert formula.code == name
    assert (formula.role is None) is (formula.test is not None)
    ids = [one.substance for one in formula.ingredients]
    assert meetings_in_mix(ids, hazards()) == ()
    for one in formula.ingredients:
        assert too_much(substances().by_id(one.substance), one.mg_per_l or 0) is None


@pytest.mark.parametrize(
    ("name", "codes"),
    [
        ("hydroxide-stock", {"H314"}),
        ("sulfide-toner", {"H314", "EUH031"}),
        ("thiourea-stock", {"H351", "H361d", "H412"}),
        ("silver-nitrate-test", {"H410"}),
        ("washing-aid", set()),
        ("citric-stop", set()),
    ],
)
def test_cautions_come_from_the_tables_of_hazards(name: str, codes: set[str]) -> None:
    formula = load_formula(name, substances())
    assert set(label_of_mix(contents_of(formula), substances(), hazards()).codes) == codes


def test_published_proportions() -> None:
    # S: Radiography in Modern Industry, 125.0 ml of 28 % acid and 7.5 g in a litre.
    acid, silver = load_formula("silver-nitrate-test", substances()).ingredients
    assert (acid.hundredth_ml_per_l, acid.assay_hundredth_percent) == (12_500, 2_800)
    assert silver.mg_per_l == 7_500
    # M: formula handbooks, 2 g of anhydrous sulfide in 125 ml, used 1+9.
    test = load_formula("residual-silver-test", substances())
    assert test.ingredients[0].mg_per_l == 2_000 * 1000 // 125
    assert test.dilution is not None
    assert test.dilution.parts_hundredths == (100, 900)


def test_a_studio_has_its_own_formulas_and_tables(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    (tmp_path / "templates" / "formulas").mkdir(parents=True)
    (tmp_path / "templates" / "data").mkdir()
    (tmp_path / "templates" / "formulas" / "brine.toml").write_text(GOOD, encoding="utf-8")
    assert load_formula("brine", substances(), folder).ingredients[0].mg_per_l == 10_000
    assert load_formula("citric-stop", substances(), folder).code == "citric-stop"
    table = (resource("templates", "data") / "substances.csv").read_text(encoding="utf-8")
    own = tmp_path / "templates" / "data" / "substances.csv"
    own.write_text(table + "lye,lye,NaOH,,,,,,,,,,,\n", encoding="utf-8")
    read = load_substances(folder)
    assert read.by_id("lye").hazard.grade is None
    assert load_hazards(read, folder).decides == hazards().decides
    own.write_text(table + "Lye\n", encoding="utf-8")
    with pytest.raises(Refused, match="too many or too few"):
        load_substances(folder)


def test_an_unknown_formula_is_answered_with_those_there_are() -> None:
    with pytest.raises(NotFound, match="no formula gin") as refused:
        load_formula("gin", substances())
    assert "citric-stop" in refused.value.problems[0].mend


@pytest.mark.parametrize(
    ("old", "new", "line", "reason"),
    [
        ("sodium_chloride", "sodium_chlorine", 10, "no substance"),
        ("10 g", "10", 11, "has no unit"),
        ("10 g", "1 pint", 11, "US pint"),
        ("10 g", "10 m", 11, "not a mass"),
        ('"10 g"', '"10 g"\nassay = "120"', 12, "assay"),
        ('use = "stock"', 'use = "stock"\ndilution = "1:9"', 5, "can be read as"),
        ('standing = "P"', 'standing = "X"', 7, "none of the words"),
        ("[[part]]", "[[parts]]", 9, "is not known here"),
    ],
)
def test_a_formula_that_does_not_fit_is_refused_with_its_line(
    old: str, new: str, line: int, reason: str
) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        read_formula(GOOD.replace(old, new), substances(), name="brine.toml")
    assert line in [problem.line for problem in refused.value.problems]


def test_amounts_are_by_weight_or_by_volume() -> None:
    assert parse_amount("7.5 g") == (7_500, None)
    assert parse_amount("50 ml") == (None, 5_000)
    assert parse_amount("1 oz") == (28_350, None)
