"""Promises, answers to disclosure, instructions; signing and approving."""

from typing import Any

import pytest

from provenance.model.disclosure import Answer, Disclosure
from provenance.model.instruction import Instruction
from provenance.model.printing import Printing
from provenance.model.prints import Approval, Print
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import WHO, Shelf, edition, enter, revise, sheet, signature


def warned(register: Register, body: Any) -> str:
    """What the act that enters `body` warns of."""
    with register.act(WHO) as act:
        act.enter(body)
        return " ".join(map(str, act.warnings))


@pytest.mark.parametrize(
    ("numbered", "proofs", "words"),
    [(25, 3, ""), (25, 4, "16 %, a large"), (10, 2, "20 %, a large"), (10, 3, "30 %, a very")],
)
def test_many_proofs_are_warned_of_and_never_refused(
    register: Register, shelf: Shelf, numbered: int, proofs: int, words: str
) -> None:
    said = warned(
        register,
        edition(
            shelf.negative, code="P", numbered=numbered, artist_proofs=proofs, disclosed="told"
        ),
    )
    assert words in said
    assert bool(said) == bool(words)


def test_a_second_edition_is_disclosed(register: Register, shelf: Shelf) -> None:
    plain = {"code": "P", "artist_proofs": 0}
    assert "another edition of this negative is on record: QUAY" in warned(
        register, edition(shelf.negative, **plain)
    )
    assert not warned(register, edition(shelf.negative, **plain | {"code": "R", "disclosed": "!"}))


def test_a_closed_edition_is_opened_by_a_correction_only(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    revise(register, shelf.edition, closed="2031-05-01")
    refuses("opened again only by a correction", shelf.edition, closed=None)
    revise(register, shelf.edition, verb="correct", closed=None)


@pytest.mark.parametrize("state", ["cancelled", "defaced", "effaced", "destroyed"])
def test_a_negative_does_not_come_back(
    register: Register, refuses: Refuses, shelf: Shelf, state: str
) -> None:
    revise(register, shelf.negative, state=state, state_since="2031-04-01")
    refuses(f"it was {state} on 2031-04-01, and does not come back", shelf.negative, state="in use")
    late = enter(register, Printing(negative=shelf.negative, done_on="2031-05-02"))
    refuses(f"is {state}; no new print", sheet(shelf, "9", printing=late))
    revise(register, shelf.negative, verb="correct", state="in use", state_since=None)


def test_a_lost_negative_may_be_found(register: Register, shelf: Shelf) -> None:
    revise(register, shelf.negative, state="lost", state_since="2031-04-01")
    revise(register, shelf.negative, state="in use", state_since="2031-05-01")


@pytest.mark.parametrize(
    ("answers", "words"),
    [
        ((), "answers nothing"),
        ((Answer(item="total", reply="disclaimed"),) * 2, "answers “total” twice"),
        ((Answer(item="total", reply="stated", words=" "),), "is stated in no words"),
    ],
)
def test_answers_are_given_one_by_one(
    refuses: Refuses, shelf: Shelf, answers: tuple[Answer, ...], words: str
) -> None:
    refuses(words, Disclosure(edition=shelf.edition, answers=answers))


def test_a_blanket_disclaimer_is_none(refuses: Refuses, shelf: Shelf) -> None:
    # S: New York ACAL 13.05, California Civ. 1742
    from provenance.craft.disclosing import ITEMS

    all_of_it = tuple(Answer(item=item, reply="disclaimed") for item in ITEMS)
    refuses("a disclaimer of nothing", Disclosure(edition=shelf.edition, answers=all_of_it))


def test_one_record_holds_the_answers(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    answers = (Answer(item="workshop", reply="disclaimed"),)
    enter(register, Disclosure(edition=shelf.edition, answers=answers))
    refuses("are in #", Disclosure(edition=shelf.edition, answers=answers))


def test_an_instruction_names_nobody(refuses: Refuses) -> None:
    fields: dict[str, Any] = {"topic": "print", "words": "Nobody prints.", "given_on": "2031"}
    refuses("is empty", Instruction(**fields | {"words": " "}))
    refuses("never holds a person", Instruction(**fields, person="A. Nephew"))
    refuses("still to come", Instruction(**fields | {"given_on": "2045"}))


def test_the_dead_sign_nothing(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    later = enter(register, Printing(negative=shelf.negative, done_on="2031-05-10"))
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    two = enter(register, sheet(shelf, "2", designation="2/25", printing=later))
    revise(register, 1, died="2031-04-30")
    refuses("signed on 2031-05-01, and the artist died", one, signature=signature(on="2031-05-01"))
    refuses("cannot bear the artist's signature", two, signature=signature(on="2031-05-11"))
    stamp = signature(on="2031-05-11", by="other", means="stamp", role="estate")
    revise(register, two, signature=stamp)
    revise(register, one, signature=signature(on="2031-04-01"))
    refuses("QUAY 1/25 was signed on 2031-04-01", 1, died="2031-03-20")
    revise(register, 1, died=None)


@pytest.mark.parametrize(
    ("passed", "words"),
    [
        ({"on": "2031-03-01"}, "before it was printed on 2031-03-02"),
        ({"on": "2031-05-01"}, "and the artist died on 2031-04-30"),
        ({"on": "spring"}, "is not a date"),
    ],
)
def test_who_passes_a_print(
    register: Register, refuses: Refuses, shelf: Shelf, passed: dict[str, Any], words: str
) -> None:
    revise(register, 1, died="2031-04-30")
    one = enter(register, sheet(shelf, "1"))
    refuses(words, one, approved=Approval(**passed))
    revise(register, one, approved=Approval(by="other", role="estate", on="2031-05-01"))


def test_a_replacement_needs_evidence(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    revise(register, one, existence="destroyed", gone_on="2031-05-01", gone_why="burnt")
    new = sheet(shelf, "2", designation="1/25", replaces=one)
    refuses(r"nothing on record shows that print 1 \(#\d+\) is destroyed", new)


def test_a_place_is_given_once_whatever_the_total_was(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    enter(register, sheet(shelf, "1", designation="2/25"))
    revise(register, shelf.edition, verb="correct", numbered=30)
    refuses("2/25 is taken by the print marked 1", sheet(shelf, "2", designation="2/30"))
    enter(register, sheet(shelf, "3", designation="20/30"))


def test_prints_from_before_the_records_have_no_mark(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    refuses("mark the back in pencil", sheet(shelf, ""))
    one = enter(register, sheet(shelf, "", designation="1/25", opening=True))
    enter(register, sheet(shelf, "", designation="2/25", opening=True))
    refuses("1/25 is taken", sheet(shelf, "1", designation="1/25"))
    refuses("is only corrected", one, opening=False)


def test_only_some_proofs_are_said_to_count(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    small = enter(register, edition(shelf.negative, code="S", numbered=1, artist_proofs=0))
    of = {"edition": small}
    refuses("only a bon à tirer or an exhibition", sheet(shelf, "1", counted="inside", **of))
    enter(register, sheet(shelf, "1", designation="EX", counted="outside", **of))
    two = enter(register, sheet(shelf, "2", designation="BAT", counted="inside", **of))
    refuses(
        "1 are declared and 1 are on record",
        sheet(shelf, "3", designation="EX", counted="inside", **of),
    )
    assert register.read.get(Print, two).body.counted == "inside"
