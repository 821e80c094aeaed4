"""`provenance label`: a file, what it says of it, and what it refuses."""

from pathlib import Path

import pypdf

from tests.cli.conftest import Desk


def test_labels_go_into_a_file(studio: Desk, tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    done = studio.run("label", "F-1", "--formula", "hydroxide-stock", "--out", str(out))
    assert (done.status, done.lines) == (0, [str(out)])
    assert "2 on 1 of A4" in done.err
    text = pypdf.PdfReader(out).pages[0].extract_text()
    assert "F-1" in text
    assert "H314" in text


def test_a_program_is_told_the_codes_and_that_they_are_estimated(
    studio: Desk, tmp_path: Path
) -> None:
    out = str(tmp_path / "labels.pdf")
    words = ["--formula", "hydroxide-stock", "--page", "letter", "--from", "6", "--out", out]
    (told,) = studio.run("label", "--formula", "citric-stop", *words, "--json").data
    stop, hydroxide = told.pop("labels")
    assert told == {"path": out, "page": "letter", "sheets": 2}
    assert (stop["codes"], stop["signal_word"]) == ([], "")
    assert "estimated" in stop["no_codes"]
    assert (hydroxide["codes"], hydroxide["pictograms"]) == (["H314"], ["GHS05"])
    assert "estimated from contents" in hydroxide["basis"]
    assert hydroxide["left_off"] == []


def test_what_had_no_room_is_told(studio: Desk, tmp_path: Path) -> None:
    out = str(tmp_path / "labels.pdf")
    done = studio.run("label", "--formula", "selenium-working", "--page", "A4", "--out", out)
    assert done.status == 0
    assert "selenium-working: no room for" in done.err
    assert "Waste" not in done.err


def test_a_formula_needs_no_studio(studio: Desk, tmp_path: Path) -> None:
    studio.path = tmp_path / "nowhere"
    out = tmp_path / "labels.pdf"
    assert studio.run("label", "--formula", "citric-stop", "--out", str(out)).status == 0
    assert out.exists()
    assert not studio.path.exists()


def test_refusals_write_nothing(studio: Desk, tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    for words, status, said in [
        (["QUAY"], 1, "edition"),
        (["F-1", "--from", "9"], 1, "1 to 8"),
        (["--formula", "nothing"], 1, "citric-stop"),
        ([], 2, "--formula CODE"),
        (["F-1", "--from", "0"], 2, "--from"),
    ]:
        done = studio.run("label", *words, "--out", str(out))
        assert (done.status, said in done.err) == (status, True), done.err
    assert studio.run("label", "F-1").status == 2
    assert not out.exists()
