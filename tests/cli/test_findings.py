"""`show` tells what the rules of the trade find."""

from tests.cli.conftest import Desk

STEPS = """\
[day]
date = 2031-06-01
[[treatment]]
sheets = ["QUAY 7/25"]
[[treatment.step]]
do = "selenium"
time = "3 min"
[[treatment.step]]
do = "wash"
time = "20 min"
"""


def worked(studio: Desk, text: str = STEPS) -> None:
    """Enter a sheet that ends in a wash that is too short."""
    sheet = studio.path.parent / "sheet.toml"
    sheet.write_text(text, encoding="utf-8")
    assert studio.run("record", str(sheet)).status == 0


def test_a_print_is_shown_with_its_findings(studio: Desk) -> None:
    worked(studio)
    told = studio.run("show", "QUAY", "7/25").out
    heading = "what the rules of the trade find\n"
    assert (
        "  Q7, error: 20 min of washing without washing aid after selenium\n"
        in told.partition(heading)[2]
    )
    (shown,) = studio.run("show", "QUAY", "7/25", "--json").data
    (finding,) = [one for one in shown["findings"] if one["rule"] == "Q7"]
    assert (finding["level"], finding["blocks"], finding["basis"]) == ("E", True, "shown")
    assert len(finding["evidence"]) == 2
    assert any("20 min of washing" in one["what"] for one in shown["obstacles"])


def test_a_certificate_is_refused_with_what_would_mend_it(studio: Desk) -> None:
    worked(studio)
    refused = studio.run("certify", "QUAY", "7/25")
    assert refused.status == 1
    assert "aid and wash, or 60 min on fibre" in refused.err


def test_a_process_sheet_is_shown_with_its_findings_before_it_is_used(studio: Desk) -> None:
    own = studio.path / "templates" / "process" / "own.toml"
    own.parent.mkdir(parents=True)
    step = '[[step]]\nname = "{0}"\nrole = "{0}"\n'
    own.write_text(
        'code = "own"\nname = "Own"\nbase = "fibre"\n'
        + "".join(map(step.format, ("fix", "bleach", "rinse", "sulfide", "wash"))),
        encoding="utf-8",
    )
    assert "Q2, error: no wash between fix and bleach" in studio.run("show", "own").out
    (shown,) = studio.run("show", "own", "--json").data
    assert [one["rule"] for one in shown["findings"]] == ["Q2", "Q16"]
    (shown,) = studio.run("show", "fibre-plain", "--json").data
    assert shown["findings"] == []
    assert studio.run("show", "nowhere").status == 1
