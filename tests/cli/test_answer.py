"""`provenance answer`: text, Markdown, letter, values; whom it finds and whom it refuses."""

from pathlib import Path

import pypdf
import pytest

from tests.cli.conftest import Desk


def test_it_answers_every_question_with_how_each_sentence_is_known(studio: Desk) -> None:
    done = studio.run("answer", "QUAY", "7/25")
    assert done.status == 0
    assert [one for one in done.lines if one.endswith("?")] == [
        "Is it toned, and with what?",
        "How was it fixed and washed, and how do you know?",
        "What was not tested, or is not known?",
        "What was done after the wash?",
        "Is it one of the edition, and how many exist in all sizes?",
        "Was it printed when the negative was made?",
        "How should it be kept and shown?",
    ]
    assert "  No toning is on record. [not on record]" in done.lines
    assert max(map(len, done.lines)) <= 78


def test_values_carry_the_records_behind_each_sentence(studio: Desk) -> None:
    (told,) = studio.run("answer", "QUAY", "7/25", "--json").data
    sentences = {one["id"]: one for held in told["questions"] for one in held["sentences"]}
    assert studio.print in sentences["edition.member"]["evidence"]
    assert sentences["unknown.thiosulfate"]["standing"] == "not on record"
    assert sentences["kept.advice"]["standing"] is None
    assert told["designation"] == "7/25"


@pytest.mark.parametrize("ending", ["pdf", "md", "txt"])
def test_the_ending_of_the_file_says_what_it_is(studio: Desk, tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"answer.{ending}"
    done = studio.run("answer", "QUAY", "7/25", "--out", str(path))
    assert (done.status, done.lines) == (0, [str(path)])
    if ending == "pdf":
        text = pypdf.PdfReader(path).pages[0].extract_text()
        assert text.startswith("Answer about a print")
    else:
        assert ("# Slipway 7/25" in path.read_text("utf-8")) is (ending == "md")


def test_an_ending_that_says_nothing_is_asked_about(studio: Desk, tmp_path: Path) -> None:
    out = tmp_path / "letter.docx"
    ran = studio.run("answer", "QUAY 7/25", "--out", str(out))
    assert ran.status == 2
    assert "what .docx stands for is not known: say --format" in ran.err
    assert not out.exists()
    assert studio.run("answer", "QUAY 7/25", "--out", str(out), "--format", "text").status == 0


def test_a_letter_wants_a_file(studio: Desk) -> None:
    assert studio.run("answer", "QUAY", "7/25", "--format", "pdf").status == 2


def test_it_answers_in_another_language(studio: Desk) -> None:
    done = studio.run("answer", "QUAY", "7/25", "--language", "fr")
    assert "  Aucun virage n’est consigné. [non consigné]" in done.lines


def test_the_number_of_its_certificate_names_a_print_and_a_slip_is_told(studio: Desk) -> None:
    path = Path(studio.run("certify", "QUAY", "7/25").lines[0])
    number = path.name.split(".")[0]
    assert studio.run("answer", number).lines[0] == "Slipway 7/25"
    slip = number[:-1] + ("1" if number[-1] != "1" else "2")
    done = studio.run("answer", slip)
    assert done.status == 1
    assert f"perhaps {number}" in done.err


def test_words_of_the_title_are_enough_where_one_print_bears_them(studio: Desk) -> None:
    assert studio.run("answer", "slipw").lines[0] == "Slipway 7/25"
    done = studio.run("answer", "QUAY")
    assert done.status == 1
    assert "an answer is about a print" in done.err
    assert studio.run("answer", "nothing", "such").status == 1


def test_what_a_record_says_is_never_markup(studio: Desk) -> None:
    done = studio.run("answer", "QUAY", "7/25", "--format", "md")
    assert r"- Fixing\: on 2 March 2031, a drop of sodium sulfide" in done.out
    assert r" *later, from notes*" in done.out


def test_nobody_but_the_artist_is_named(studio: Desk, tmp_path: Path) -> None:
    sheet = tmp_path / "day.toml"
    sheet.write_text(
        """
        [day]
        date = 2031-05-01
        who = "printer"

        [[custody]]
        prints = ["QUAY 7/25"]
        event = "consigned"
        to = "Someone Unmistakable"
        until = 2031-12-31
        conditions = "Half each, at Nowhere Lane"
        """
    )
    assert studio.run("record", str(sheet)).status == 0
    told = [studio.run("answer", "QUAY", "7/25", *how).out for how in ((), ("--json",))]
    path = tmp_path / "letter.pdf"
    assert studio.run("answer", "QUAY", "7/25", "--out", str(path)).status == 0
    told.append(pypdf.PdfReader(path).pages[0].extract_text())
    assert all("A. Printer" in one for one in told)
    assert not any(word in one for one in told for word in ("Unmistakable", "Nowhere", "Half"))
