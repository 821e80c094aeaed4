import pytest

from provenance.craft.substance_rows import COLUMNS, read_substances
from provenance.errors import NotFound, Refused
from tests.shelf import substances

HEAD = ",".join(COLUMNS)
GOOD = "salt,common salt,NaCl,7647-14-5,,,,,,,M,359,M,"


def test_a_row_is_read_with_what_its_figures_are_worth() -> None:
    pellets = substances().by_id("potassium_hydroxide")
    assert pellets.usual_assay is not None
    assert (pellets.usual_assay.percent, pellets.usual_assay.grade) == (85, "S")
    assert pellets.hazard.h_codes == ("H314", "H302")
    assert pellets.hazard.some_suppliers == ("H290",)
    assert pellets.solubility is not None
    assert (pellets.solubility.g_per_l, pellets.solubility.grade) == (1120, "M")


def test_no_source_is_not_no_hazard() -> None:
    assert substances().by_id("silver").hazard.grade is None
    assert substances().by_id("ascorbic_acid").hazard.grade == "M"


def test_a_hydrate_is_a_substance_of_its_own() -> None:
    crystals, dry = (
        substances().by_id(f"sodium_thiosulfate_{form}") for form in ("pentahydrate", "anhydrous")
    )
    assert (crystals.water_moles, dry.water_moles) == (5, 0)
    assert crystals.cas != dry.cas


@pytest.mark.parametrize(
    "text", ["thiourea", "62-56-6", "CS(NH2)2", "Thiourea (thiocarbamide)", " thiocarbamide "]
)
def test_found_by_id_number_formula_or_name(text: str) -> None:
    assert substances().find(text).id == "thiourea"


def test_an_exact_name_wins_over_part_of_one() -> None:
    assert substances().find("silver").id == "silver"


def test_a_name_of_several_is_refused_with_all_of_them() -> None:
    with pytest.raises(Refused, match="potassium thiocyanate") as refused:
        substances().find("thiocyanate", field="stock")
    assert refused.value.problems[0].field == "stock"
    assert "ammonium_thiocyanate, potassium_thiocyanate" in refused.value.problems[0].mend


@pytest.mark.parametrize("text", ["unobtainium", "", "76.117"])
def test_what_is_not_there_is_refused(text: str) -> None:
    with pytest.raises(NotFound):
        substances().find(text)


def test_a_misspelt_name_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotFound, match="perhaps thiourea"):
        substances().find("tiourea")


def test_a_mixture_has_no_molar_mass() -> None:
    with pytest.raises(Refused, match="is a mixture"):
        _ = substances().by_id("selenium_toner_concentrate").molar_mass_g_per_mol


@pytest.mark.parametrize(
    ("row", "field", "reason"),
    [
        (GOOD.replace("salt,", "Salt,", 1), "id", "is not an id"),
        (GOOD.replace("common salt", ""), "name", "name is missing"),
        (GOOD.replace("NaCl", "NaCl2("), "formula", "left open"),
        (GOOD.replace("NaCl", "Xx"), "formula", "not on hand"),
        (GOOD.replace("14-5", "14-6"), "cas", "is not a CAS number"),
        (GOOD.replace("-5,,,", "-5,120,M,"), "assay_percent", "120 %"),
        (GOOD.replace("-5,,,", "-5,85,,"), "assay_standing", "is no standing"),
        (GOOD.replace("-5,,,,", "-5,,,H99,"), "h_codes", "H99"),
        (GOOD.replace("-5,,,,", "-5,,,H302 (H290,"), "h_codes", "left open"),
        (GOOD.replace("-5,,,,,", "-5,,,,EUH31,"), "euh_codes", "EUH31"),
        (GOOD.replace("-5,,,,,,", "-5,,,,,Peril,"), "signal_word", "Peril"),
        (GOOD.replace("-5,,,,,,,", "-5,,,,,,GHS10,"), "pictograms", "GHS10"),
        (GOOD.replace(",M,359", ",Q,359"), "hazard_standing", "is no standing"),
        (GOOD.replace("359", "much"), "solubility_g_per_l", "much"),
        (GOOD.replace("359,M", "359,"), "solubility_standing", "is no standing"),
        (GOOD + ",more", "", "too many or too few"),
        ("salt,common salt", "", "too many or too few"),
    ],
)
def test_a_malformed_row_is_refused_with_its_line(row: str, field: str, reason: str) -> None:
    first = GOOD.replace("salt,", "other,", 1).replace("7647-14-5", "")
    with pytest.raises(Refused, match=reason) as refused:
        read_substances(f"{HEAD}\n{first}\n{row}\n")
    [problem] = refused.value.problems
    assert (problem.line, problem.field) == (3, field)


def test_every_bad_row_is_named_at_once() -> None:
    bad = GOOD.replace("NaCl", "Xx")
    with pytest.raises(Refused) as refused:
        read_substances(f"{HEAD}\n{bad}\n{GOOD}\n{bad.replace('salt', 'b')}\n")
    assert [problem.line for problem in refused.value.problems] == [2, 4]


def test_an_id_or_number_that_stands_there_twice_is_refused() -> None:
    again = GOOD.replace("salt,", "brine,", 1)
    with pytest.raises(Refused, match="also in line 2") as refused:
        read_substances(f"{HEAD}\n{GOOD}\n{again}\n")
    assert refused.value.problems[0].line == 3


def test_other_heads_are_refused() -> None:
    with pytest.raises(Refused, match="heads of the columns"):
        read_substances("id,name\nsalt,common salt\n")


def test_composed_letters_are_kept_as_one() -> None:
    [salt] = read_substances(f"{HEAD}\n{GOOD.replace('common', 'cafe' + chr(0x301))}\n")
    assert salt.name == "caf" + chr(0xE9) + " salt"
