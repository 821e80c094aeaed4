"""What `provenance record` says of things that it enters all the same."""

from pathlib import Path

from tests.cli.conftest import Desk

SHEET = """\
[day]
date = 2031-05-01
who = "artist"

[[stock]]
code = "A"
made_from = "toner"
mixed = 2030-05-01
keeps_until = 2030-11-01
volume = "1 L"

[[bath]]
code = "B"
role = "selenium"
draw = { A = "50 ml" }
volume = "1 L"
"""


def test_a_warning_goes_beside_the_data_and_the_sheet_is_entered(
    studio: Desk, tmp_path: Path
) -> None:
    path = tmp_path / "day.toml"
    path.write_text(SHEET, encoding="utf-8")
    tried = studio.run("record", str(path), "--dry-run")
    done = studio.run("record", str(path))
    assert (tried.status, done.status) == (0, 0)
    said = (
        "warning: line 15 bath B draw: A was good until 2030-11-01, and B was made from it on"
        " 2031-05-01; test it before use, or mix it anew"
    )
    for ran in (tried, done):
        assert said in ran.err.splitlines()
        assert "warning" not in ran.out
    assert studio.run("show", "B").status == 0


def test_warnings_as_json_have_the_shape_of_problems(studio: Desk, tmp_path: Path) -> None:
    path = tmp_path / "day.toml"
    path.write_text(SHEET, encoding="utf-8")
    (done,) = studio.run("record", str(path), "--json").data
    (warning,) = done["warnings"]
    assert set(warning) == {"what", "record", "field", "mend", "line"}
    assert (warning["line"], warning["field"]) == (15, "draw")
    path.write_text(
        SHEET.replace("2030", "2031")
        .replace('"A"', '"C"')
        .replace('"B"', '"D"')
        .replace("A =", "C =")
        .replace("2031-11", "2032-11"),
        encoding="utf-8",
    )
    assert studio.run("record", str(path), "--json").data[0]["warnings"] == []
