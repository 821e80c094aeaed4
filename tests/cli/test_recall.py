"""`provenance recall`"""

from provenance.model.chemistry import Bath
from provenance.records.register import Register
from tests.cli.conftest import Desk
from tests.studios import clock, revise


def with_volume(studio: Desk, **fields: object) -> None:
    with Register.open(studio.path, clock=clock()) as register:
        fix = register.read.by_code(Bath, "F-1")
        assert fix is not None
        revise(register, fix.id, **{"volume_hundredth_ml": 100_000} | fields)


def test_a_bath_is_told_with_its_prints_and_its_limit(studio: Desk) -> None:
    with_volume(studio)
    told = studio.run("recall", "f-1")
    assert told.status == 0
    assert told.lines[0].split() == [
        *("PRINT", "DONE", "ON", "SHEETS", "SILVER,", "G/L", "LIMIT", "WHERE", "CERTIFICATES")
    ]
    row = "QUAY 7/25  2031-03-02       1  0.093, at worst 0.186  within  in the studio"
    assert told.lines[1] == row
    assert told.lines[2].startswith("calculated: 1 sheet of 1 print, 0.12 m²; 1 within 0.5 g/L; 0")
    assert told.lines[3].startswith("assumed: limit “single”, the studio's choice: 0.5 g/L")
    assert told.err == "1 print met F-1\n"


def test_both_sides_of_the_limit_and_the_certificates_as_json(studio: Desk) -> None:
    number = studio.run("certify", "QUAY", "7/25", "--json").data[0]["certificate"]
    with_volume(studio, limit="strictest")
    *prints, whole = studio.run("recall", "F-1", "--json").data
    (one,) = prints
    assert one["side"] == "past"
    assert one["certificates"] == [{"number": number, "state": "issued"}]
    assert (one["where"], one["where_on"], one["fixed_before"]) == ("in the studio", "", False)
    assert whole["limit"] == {"name": "strictest", "mg_per_l": 50, "grade": "S2", "own": True}
    counted = {name: whole[name] for name in ("prints", "within", "perhaps_past", "past")}
    assert counted == {"prints": 1, "within": 0, "perhaps_past": 0, "past": 1}
    assert (whole["certificates"], whole["standing"]) == (1, "calculated")
    assert "Haist" in whole["assumed"]


def test_a_bath_that_is_no_fixer_and_one_without_a_volume(studio: Desk) -> None:
    wash = studio.run("recall", "W-1")
    assert wash.lines[0].split() == ["PRINT", "DONE", "ON", "SHEETS", "WHERE", "CERTIFICATES"]
    assert not any(line.startswith("assumed") for line in wash.lines)
    assert studio.run("recall", "W-1", "--json").data[-1]["limit"] is None
    bare = studio.run("recall", "F-1")
    assert "not known" in bare.lines[1]
    assert "volume of the bath is not on record" in bare.out


def test_what_is_no_bath_is_refused(studio: Desk) -> None:
    wrong = studio.run("recall", "F-9", "--json")
    assert (wrong.status, wrong.out) == (1, "")
    assert "F-1" in wrong.problem["mend"]
    assert studio.run("recall", f"#{studio.print}").status == 1
    assert studio.run("recall").status == 2
