"""Answers from a studio's records: sizes counted, gaps said."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from provenance.errors import Refused
from provenance.model.prints import Print
from provenance.studio.answering.answer import Answer, answer
from provenance.studio.answering.asked import asked_about
from provenance.studio.answering.letter import draw_answer
from tests import studios
from tests.studio.finished import Desk, another, desk
from tests.studios import enter, revise


@pytest.fixture
def held(tmp_path: Path) -> Iterator[Desk]:
    made = desk(tmp_path / "studio")
    yield made
    made.register.close()


def told(held: Desk, record: int | None = None, **other: Any) -> Answer:
    register = held.register
    return answer(register.read, held.folder, record or held.print, register.clock(), **other)


def sentences(answer: Answer, question: str) -> list[str]:
    (found,) = [one for one in answer.answered if one.name == question]
    return [one.text for one in found.sentences]


def test_every_size_of_the_negative_is_counted_with_what_is_gone(held: Desk) -> None:
    lost = another(held, "Q8", "8/25")
    revise(held.register, lost, existence="lost", gone_on="2031-04-01")
    edition = held.register.read.get(Print, held.print).body.edition
    negative = held.register.read.get(studios.Edition, edition).body.negative
    enter(held.register, studios.edition(negative, code="SMALL", name="Slipway, small"))
    said = " ".join(sentences(told(held), "edition"))
    assert "2 of 27, 1 of them no longer in existence" in said
    assert "Slipway, small" in said


def test_what_bears_no_number_is_counted_beside(held: Desk) -> None:
    enter(held.register, studios.sheet(held.shelf, "Q9"))
    assert any("1 existing sheet" in one for one in sentences(told(held), "edition"))


def test_a_failed_test_leaves_its_question_open(held: Desk) -> None:
    failed = studios.silver_test(held.print, place=5, verdict="failed", reading="yellow stain")
    enter(held.register, failed)
    answer = told(held)
    assert any("failed" in one for one in sentences(answer, "treated"))
    assert not any("no gap of these kinds" in one for one in sentences(answer, "untested"))


def test_the_standings_that_stand_in_it_are_explained_and_no_others(held: Desk) -> None:
    answer = told(held)
    known = {one.known for found in answer.answered for one in found.sentences}
    assert {name for name, _meaning in answer.meanings} == known - {"advice"}


def test_what_a_record_says_of_itself_is_held_to_the_rules_of_a_certificate(held: Desk) -> None:
    revise(held.register, held.wash, agent="archival wash")
    with pytest.raises(Refused, match="archival"):
        told(held)


def test_the_same_answer_draws_the_same_letter(held: Desk) -> None:
    assert draw_answer(told(held), held.folder) == draw_answer(told(held), held.folder)


def test_words_that_find_several_prints_offer_them(held: Desk) -> None:
    another(held, "Q8", "8/25")
    with pytest.raises(Refused, match=r"QUAY 7/25 \(#\d+\), QUAY 8/25 \(#\d+\)"):
        asked_about(held.register.read, "slipway")


@pytest.mark.parametrize(
    ("made", "says"),
    [
        ("1998-04", "at least 32 and less than 33 years later"),
        ("1998~", "do not say how many years later"),
        ("1998?", "do not say how many years later"),
        ("../1998", "do not say how many years later"),
        ("1998/..", "do not say how many years later"),
        ("2031-01", "less than two years later"),
    ],
)
def test_a_number_of_years_is_said_only_where_both_dates_have_bounds(
    held: Desk, made: str, says: str
) -> None:
    revise(held.register, held.shelf.negative, made=made)
    said = " ".join(sentences(told(held), "time"))
    assert says in said
    assert ("less than" in said) == ("less than" in says)
