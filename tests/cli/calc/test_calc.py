"""`provenance calc`: what is said and what is given agree, and bad input is refused."""

import json
from pathlib import Path

import pytest

from provenance.cli.calc.answer import figure
from tests.cli.calc.conftest import Run, data


def test_a_dilution(calc: Run) -> None:
    _status, out, _err = calc("dilution", "1+9")
    assert out.splitlines() == [
        "calculated",
        "  dilution  1+9",
        "  stock     100 ml",
        "  water     900 ml",
        "  in all    1 L",
    ]
    given = data(calc("dilution", "1+2+100", "--total", "515 ml", "--stock", "10 %", "--json"))
    assert given["stocks_hundredth_ml"] == [500, 1000]
    assert given["water_hundredth_ml"] == 50_000
    assert given["strength_g_per_l"] == pytest.approx(100 / 103)


def test_a_colon_is_refused_until_it_has_a_reading(calc: Run, tmp_path: Path) -> None:
    status, out, err = calc("dilution", "1:9")
    assert (status, out) == (1, "")
    assert "1+9 or as 1+8" in err
    assert data(calc("dilution", "1:9", "--colon", "total", "--json"))["dilution"] == "1+8"
    (tmp_path / "settings.toml").write_text('colon_dilution = "parts"\n', encoding="utf-8")
    assert data(calc("dilution", "1:9", "--json"))["dilution"] == "1+9"


def test_two_strengths(calc: Run) -> None:
    given = data(calc("dilution", "--strong", "28", "--wanted", "1", "--json"))
    assert (given["parts_strong"], given["parts_weak"]) == (1, 27)
    assert given["strong_hundredth_ml"] + given["weak_hundredth_ml"] == 100_000
    assert calc("dilution", "--strong", "1", "--wanted", "28")[0] == 1


def test_stocks_poured_together_both_ways(calc: Run) -> None:
    stocks = ("--stock", "thiourea", "100 g/L", "20 ml", "--stock", "KOH", "100 g/L", "80 ml")
    given = data(calc("mix", *stocks, "--json"))
    up, into = given["readings"]
    assert (up["finish"], into["finish"]) == ("made up to", "added to")
    assert [one["mol_per_l"] for one in up["stocks"]] == pytest.approx([0.02628, 0.1426], abs=5e-5)
    assert [one["mol_per_l"] for one in into["stocks"]] == pytest.approx(
        [0.02389, 0.1296], abs=5e-5
    )
    assert into["finished_hundredth_ml"] == 110_000
    assert given["label"]["h_codes"] == ["H314"]
    assert any("usually sold at 85 %" in one for one in given["heed"])
    _status, out, _err = calc("mix", *stocks, "--assay", "KOH", "85")
    assert "0.1212 mol/L" in out
    assert "0.1102 mol/L" in out
    assert "usually sold" not in out
    assert "assumed: 85 % of what was weighed is KOH" in out


def test_a_stock_that_cannot_be_so_strong_is_warned_of(calc: Run) -> None:
    given = data(calc("mix", "--stock", "thiourea", "900 g/L", "20 ml", "--json"))
    assert given["heed"][0] == (
        "the stock: 900 g/L of thiourea (thiocarbamide) is more than the 136 g/L that dissolve"
        " (read in the source named)"
    )
    given = data(calc("mix", "--stock", "thiourea", "136 g/L", "20 ml", "--json"))
    assert "dissolve" not in " ".join(given["heed"])


def test_a_figure_below_nought_is_no_option(calc: Run) -> None:
    assert data(calc("convert", "-40 C", "F", "--json"))["value"] == pytest.approx(-40)
    status, _out, err = calc("molarity", "thiourea", "-5 g/L")
    assert status == 1
    assert "is no strength" in err
    assert calc("convert", "--nonsense", "C")[0] == 2


def test_what_should_not_meet_is_said(calc: Run) -> None:
    _status, out, _err = calc(
        "mix",
        *("--stock", "sodium_sulfide_nonahydrate", "20 g/L", "50 ml"),
        *("--stock", "citric_acid", "15 g/L", "50 ml"),
    )
    assert "heed: danger: Hydrogen sulfide comes off" in out


def test_a_formula_weighed_out(calc: Run) -> None:
    given = data(calc("mix", "sepia-bleach", "--volume", "2.5 L", "--json"))
    assert [part["mass_mg"] for part in given["parts"]] == [50_000, 12_500]
    assert given["grade"] == "P"
    _status, out, _err = calc("mix", "hydroxide-stock")
    assert "100 g    potassium hydroxide, 85 %" in out
    assert "dissolving the potassium hydroxide gives off 87.3 kJ" in out
    assert "Danger: H314" in out
    assert out.count("safety data sheet decides") == 1


def test_molarity_both_ways(calc: Run) -> None:
    given = data(calc("molarity", "KOH", "100 g/L", "--assay", "85", "--json"))
    assert given["mol_per_l"] == pytest.approx(1.515, abs=5e-4)
    assert given["heed"] == []
    back = data(calc("molarity", "KOH", "1.515 mol/L", "--assay", "85", "--json"))
    assert back["g_per_l"] == pytest.approx(100, abs=0.02)
    over = data(calc("molarity", "thiourea", "200 g/L", "--json"))
    assert over["heed"] == [
        "more than the 136 g/L that dissolve at 20 °C (read in the source named)"
    ]


def test_silver(calc: Run) -> None:
    given = data(calc("silver", "25 x 20 cm", "--sheets", "10", "--json"))
    assert given["area_m2"] == pytest.approx(0.5)
    assert given["to_fixer_mg"] == pytest.approx(375)
    assert given["to_fixer_at_worst_mg"] == pytest.approx(750)
    left = {one["limit"]: one["sheets_left"] for one in given["limits"]}
    assert left == {"strictest": 0, "commercial": 0, "single": 3, "first of two": 43}
    _status, out, _err = calc("silver", "25 x 20 cm", "--coating", "2")
    assert "assumed: 2 g/m² of silver coated" in out
    assert "at worst" in out


def test_conversions(calc: Run) -> None:
    assert calc("convert", "68 F", "C")[1] == "calculated\n  68 F  20 C\n"
    assert data(calc("convert", "1 mg/in2", "g/m2", "--json"))["value"] == pytest.approx(1.550003)
    crystal = data(calc("convert", "1 g", "g", "--of", "ion", "--as", "crystal", "--json"))
    assert crystal["value"] == pytest.approx(2.2135, abs=5e-5)
    flake = data(
        calc(
            *("convert", "240.175 g", "g", "--of", "sodium_sulfide_nonahydrate"),
            *("--as", "sodium_sulfide_anhydrous", "--as-assay", "60", "--json"),
        )
    )
    assert flake["value"] == pytest.approx(78.04 / 0.6, abs=0.01)


@pytest.mark.parametrize(
    ("args", "status", "said"),
    [
        (("dilution",), 2, "give a DILUTION"),
        (("dilution", "1+9", "--total", "-1 L"), 1, "less than the smallest"),
        (("dilution", "1+0"), 1, "above zero"),
        (("mix",), 2, "give a FORMULA"),
        (("mix", "gin"), 1, "no formula gin"),
        (("mix", "--stock", "unobtainium", "1 %", "1 ml"), 1, "no substance"),
        (("mix", "--stock", "thiourea", "1 %", "2 L"), 1, "more is poured in"),
        (("mix", "--stock", "selenium_toner_concentrate", "1 %", "1 ml"), 1, "is a mixture"),
        (
            ("mix", "--stock", "thiourea", "1 %", "1 ml", "--assay", "KOH", "85"),
            2,
            "none of the stocks",
        ),
        (("molarity", "KOH", "lots"), 1, "is not a strength"),
        (("molarity", "KOH", "10 g/L", "--assay", "0"), 1, "assay"),
        (("silver", "8x10"), 1, "unit at its end"),
        (("silver", "8x10 in", "--coating", "100"), 1, "no paper is coated"),
        (("silver", "8x10 in", "--sheets", "0"), 2, "--sheets"),
        (("convert", "10 oz", "ml"), 1, "US fl oz"),
        (("convert", "1 g/m²", "g"), 2, "per area"),
        (("convert", "1 g", "g", "--of", "ion"), 2, "give both"),
        (("convert", "1 g", "g", "--of", "thiourea", "--as", "NH4SCN"), 1, "not forms of one"),
    ],
)
def test_bad_input_is_refused(calc: Run, args: tuple[str, ...], status: int, said: str) -> None:
    ended, out, err = calc(*args)
    assert (ended, out) == (status, "")
    assert said in err
    ended, out, err = calc(*args, "--json")
    assert (ended, out) == (status, "")
    assert said in json.loads(err)["problems"][0]["what"] + err


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.026275, "0.02627 g"),
        (1063.4, "1063 g"),
        (123456.7, "123457 g"),
        (20.0, "20 g"),
        (0.0, "0 g"),
        (0.0000251, "0.0000251 g"),
        (-12.5, "-12.5 g"),
    ],
)
def test_figures_have_no_power_of_ten(value: float, text: str) -> None:
    assert figure(value, "g") == text
