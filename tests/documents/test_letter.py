"""Letters: every sentence and its standing, one page where possible, the same bytes twice."""

import io
from dataclasses import replace

import pypdf
import pytest

from provenance.documents.letter import draw_letter
from provenance.errors import Refused
from tests.documents.letters import LONG, ORDINARY, letter


def texts(pdf: bytes) -> list[str]:
    """The text of each page, with white space of any length as one space."""
    leaves = pypdf.PdfReader(io.BytesIO(pdf), strict=True).pages
    return [" ".join(leaf.extract_text().split()) for leaf in leaves]


def test_every_sentence_stands_with_its_standing_and_what_that_means() -> None:
    (text,) = texts(draw_letter(ORDINARY))
    assert text.startswith("Answer about a print")
    for _question, sentences in ORDINARY.sections:
        for sentence, known in sentences:
            assert f"{sentence} {known}" in text
    for known, meaning in ORDINARY.meanings:
        assert f"{known} {meaning}" in text
    assert "page 1" not in text, "a single page needs no number"


def test_what_does_not_fit_runs_on_and_nothing_is_lost() -> None:
    pages = texts(draw_letter(LONG))
    assert len(pages) > 1
    assert [f"page {at} of {len(pages)}" in page for at, page in enumerate(pages, 1)] == [
        True
    ] * len(pages)
    assert " ".join(pages).count("Washed for 1 h.") == 36
    assert "continued" in pages[1]


def test_equal_letters_are_equal_bytes_and_others_are_not() -> None:
    assert draw_letter(ORDINARY) == draw_letter(letter())
    assert draw_letter(ORDINARY) != draw_letter(letter(day="2 June 2031"))


def test_markup_is_printed_as_it_was_typed() -> None:
    (text,) = texts(draw_letter(letter(sections=(("<b>?</b>", (("a & <i>b", "logged"),)),))))
    assert "<b>?</b>" in text
    assert "a & <i>b" in text


def test_a_letter_needs_no_picture_and_no_number() -> None:
    (text,) = texts(draw_letter(letter(picture=None, designation="", particulars=())))
    assert "Quay steps" in text


def test_a_character_that_cannot_be_set_is_named() -> None:
    with pytest.raises(Refused) as caught:
        draw_letter(letter(sections=(("Who?", (("A \U0001f600 sign.", "logged"),)),)))
    (problem,) = caught.value.problems
    assert problem.record == "QUAY 7/25"
    assert "1F600" in problem.what.upper()


def test_a_time_without_a_zone_is_a_fault_of_ours() -> None:
    naive = ORDINARY.answered_at_utc.replace(tzinfo=None)
    with pytest.raises(ValueError, match="time zone"):
        draw_letter(replace(ORDINARY, answered_at_utc=naive))
