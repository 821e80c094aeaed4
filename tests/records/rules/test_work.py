"""Printings, steps and tests: in order, in the right bath, by a method that answers."""

from typing import Any

import pytest

from provenance.model.printing import OwnTime, Printing
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import Shelf, enter, release, revise, sheet, signature, silver_test, step


@pytest.fixture
def one(register: Register, shelf: Shelf) -> int:
    """A print."""
    return enter(register, sheet(shelf, "1"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"sheets": ()}, "names no sheets"),
        ({"role": "wash"}, "bath F-1 is for fix, the step is wash"),
        ({"done_on": "2031-03-01"}, "before sheet 1 was printed on 2031-03-02"),
        ({"done_on": "2031-06-02"}, "still to come"),
        ({"done_on": "Monday"}, "is not a date"),
        ({"duration_ms": 0}, "not between 1 ms and 7 days"),
        ({"duration_ms": 8 * 24 * 3_600_000}, "not between 1 ms and 7 days"),
        ({"temperature_tenth_c": 601}, "not between 0 and 60"),
        ({"temperature_tenth_c": -1}, "not between 0 and 60"),
        ({"own": (OwnTime(sheet=999, duration_ms=1),)}, "#999, which is not in the step"),
        ({"bath": 999}, "#999 is not on record, not a bath"),
    ],
)
def test_a_step_is_refused(
    refuses: Refuses, shelf: Shelf, one: int, fields: dict[str, Any], words: str
) -> None:
    refuses(words, step(shelf, *fields.pop("sheets", (one,)), **fields))


def test_a_sheet_is_in_a_step_once(refuses: Refuses, shelf: Shelf, one: int) -> None:
    refuses("names a sheet twice", step(shelf, one, one))


def test_a_sheet_that_is_gone_is_in_no_tray(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    revise(register, one, existence="spoiled", gone_on="2031-03-03")
    enter(register, step(shelf, one, done_on="2031-03-03"))
    refuses("sheet 1 was spoiled on 2031-03-03", step(shelf, one, done_on="2031-03-04"))
    refuses("sheet 1 was spoiled on", silver_test(one, done_on="2031-03-04"))


def test_a_bath_serves_while_it_stands(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    spent = {"retired_on": "2031-03-10", "retired_why": "spent"}
    revise(register, shelf.fix, verb="correct", made_on="2031-03-03", **spent)
    refuses("bath F-1 was made on 2031-03-03, after the step", step(shelf, one))
    refuses("bath F-1 was retired on", step(shelf, one, done_on="2031-03-11"))
    enter(register, *(step(shelf, one, done_on=f"2031-03-{day}") for day in ("03", "10")))


def test_a_bath_is_not_redated_away_from_its_steps(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    used = enter(register, step(shelf, one))
    refuses(f"step #{used} used it on 2031-03-02", shelf.fix, made_on="2031-03-03")
    refuses(f"step #{used} used it on 2031-03-02", shelf.fix, retired_on="2031-03-01")
    refuses(f"step #{used} used it as fix", shelf.fix, verb="correct", role="wash")
    revise(register, shelf.fix, retired_on="2031-03-02", retired_why="spent")


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"covers": ()}, "names no sheets"),
        ({"method": "silver-nitrate spot"}, "does not test for residual silver; use one of"),
        ({"method": "methylene blue"}, "does not test for residual silver"),
        ({"question": "thiosulfate"}, "sulfide spot does not test for residual thiosulfate"),
        ({"contact_ms": 120_000, "read_ms": 60_000}, "read before the contact time was over"),
        ({"done_on": "2031-03-01"}, "before sheet 1 was printed"),
        ({"done_on": "2031-06-02"}, "still to come"),
    ],
)
def test_a_test_is_refused(refuses: Refuses, one: int, fields: dict[str, Any], words: str) -> None:
    refuses(words, silver_test(*fields.pop("covers", (one,)), **fields))


@pytest.mark.parametrize(
    ("question", "method"),
    [
        ("silver", "sulfide spot"),
        ("silver", "selenium spot"),
        ("silver", "laboratory analysis"),
        ("thiosulfate", "silver-nitrate spot"),
        ("thiosulfate", "methylene blue"),
        ("thiosulfate", "iodine-amylose"),
        ("thiosulfate", "silver-sulfide densitometric"),
        ("thiosulfate", "laboratory analysis"),
    ],
)
def test_each_method_answers_its_question(
    register: Register, one: int, question: str, method: str
) -> None:
    enter(register, silver_test(one, question=question, method=method))


@pytest.mark.parametrize(
    ("done_on", "words"),
    [
        ("1998-02", "printed on 1998-02 from a negative made 1998-03"),
        ("2032", "still to come"),
        ("2031-02-30", "February 2031 has 28 days"),
    ],
)
def test_a_printing_is_refused(refuses: Refuses, shelf: Shelf, done_on: str, words: str) -> None:
    refuses(words, Printing(negative=shelf.negative, done_on=done_on))


def test_a_printing_may_lie_in_the_month_of_the_negative(register: Register, shelf: Shelf) -> None:
    enter(register, Printing(negative=shelf.negative, done_on="1998-03"))


def test_a_printing_is_not_redated_past_what_its_sheets_went_through(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    revise(register, shelf.printing, verb="correct", done_on="2031-03-03")
    revise(register, shelf.printing, verb="correct", done_on="2031-03-02")
    enter(register, step(shelf, one, role="wash", bath=shelf.wash, done_on="2031-03-05"))
    words = "for sheet 1, before it was printed"
    refuses(words, shelf.printing, verb="correct", done_on="2031-03-06")
    enter(register, silver_test(one, done_on="2031-03-04"))
    refuses(words, shelf.printing, verb="correct", done_on="2031-03-05")
    revise(register, one, designation="1/25", signature=signature(on="2031-03-03"))
    refuses(words, shelf.printing, verb="correct", done_on="2031-03-04")
    enter(register, release(one, on="2031-03-02"))
    refuses(words, shelf.printing, verb="correct", done_on="2031-03-03")
