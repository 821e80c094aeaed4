"""What a print may be, and what it may be called."""

from typing import Any

import pytest

from provenance.errors import Refused
from provenance.model.edition import Edition
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.quantities import Size
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import (
    IMAGE,
    WHO,
    Shelf,
    certificate,
    edition,
    enter,
    negative,
    release,
    revise,
    sheet,
    signature,
)

SMALLER = Size(height_tenth_mm=2000, width_tenth_mm=2500)
TURNED = Size(height_tenth_mm=4060, width_tenth_mm=2500)
GONE = {
    "existence": "destroyed",
    "gone_on": "2031-05-01",
    "gone_why": "torn",
    "gone_evidence": "the pieces, photographed",
}


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"sheet": SMALLER}, "smaller than the image; check both sizes"),
        ({"sheet": TURNED}, "smaller than the image; .*turn the sheet's size round"),
        ({"mark": " "}, "mark: is empty; mark the back in pencil"),
        ({"designation": "26/25"}, "number 26 is more than the 25"),
        ({"designation": "26/30"}, "26/30 is outside the edition, which declares 25"),
        ({"designation": "7/30"}, "does not say that 25 are declared; write it as one of 25"),
        ({"designation": "7"}, "does not say of how many"),
        ({"designation": "7 / 25"}, "is written 7/25"),
        ({"designation": "AP 1/2"}, "is written AP I/II"),
        ({"designation": "AP III/III"}, "outside the edition, which declares 2"),
        ({"designation": "PP I/I"}, "which declares none of that kind"),
        ({"designation": "HC"}, "which declares none of that kind"),
        ({"designation": "unnumbered"}, "which declares none of that kind"),
        ({"designation": "seven"}, "is not a designation"),
        ({"signature": signature()}, "it has no number yet; number it first"),
        (
            {"designation": "7/25", "signature": signature(on="2031-03-01")},
            "signed on 2031-03-01, before it was printed on 2031-03-02",
        ),
        (
            {"designation": "7/25", "signature": signature(on="2031-07-01")},
            "signed.on: 2031-07-01 is still to come",
        ),
        ({"designation": "7/25", "signature": signature(on="soon")}, "is not a date"),
        ({"existence": "lost"}, "no date says when it was lost"),
        ({"existence": "spoiled", "gone_on": "2031-03-01"}, "before it was made"),
        ({"existence": "destroyed", "gone_on": "2032"}, "still to come"),
    ],
)
def test_refused(refuses: Refuses, shelf: Shelf, fields: dict[str, Any], words: str) -> None:
    refuses(words, sheet(shelf, **{"mark": "1"} | fields))


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"sheet": IMAGE},
        {"designation": "7/25"},
        {"designation": "AP II/II"},
        {"designation": "AP"},
        {"designation": "BAT"},
        {"designation": "TP"},
        {"designation": "7/25", "signature": signature()},
        {"designation": "7/25", "signature": signature(on="2031")},
        {"designation": "7/25", "signature": signature(means="stamp")},
        {"existence": "spoiled", "gone_on": "2031-03-02"},
        {"designation": "7/25", **GONE},
    ],
)
def test_accepted(register: Register, shelf: Shelf, fields: dict[str, Any]) -> None:
    body = sheet(shelf, "1", **fields)
    assert register.read.get(Print, enter(register, body)).body == body


def test_every_problem_is_told_at_once(register: Register, shelf: Shelf) -> None:
    body = sheet(shelf, " ", sheet=SMALLER, designation="30/25", signature=signature(on="soon"))
    with pytest.raises(Refused) as caught:
        enter(register, body)
    fields = [problem.field for problem in caught.value.problems]
    assert fields == ["sheet", "mark", "designation", "signed.on"]


def test_a_mark_is_of_one_sheet(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    enter(register, sheet(shelf, "3a"))
    refuses("the mark 3A is on the back of print", sheet(shelf, "3A"))
    other = enter(register, edition(shelf.negative, code="PIER"))
    enter(register, sheet(shelf, "3a", edition=other))


def test_a_number_is_of_one_print(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    enter(register, sheet(shelf, "1", designation="7/25"))
    refuses("7/25 is taken by the print marked 1", sheet(shelf, "2", designation="7/25"))
    second = enter(register, sheet(shelf, "2", designation="8/25"))
    refuses("7/25 is taken", second, designation="7/25")


def test_proofs_without_a_number_are_counted_with_the_others(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    enter(register, sheet(shelf, "1", designation="AP"))
    enter(register, sheet(shelf, "2", designation="AP II/II"))
    refuses("2 are declared and exist", sheet(shelf, "3", designation="AP I/II"))
    refuses("2 are declared and exist", sheet(shelf, "3", designation="AP"))


def test_trial_proofs_are_outside_the_promise(register: Register, shelf: Shelf) -> None:
    enter(register, *(sheet(shelf, str(n), designation="TP") for n in range(4)))


def test_the_edition_and_the_printing_are_of_one_negative(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    other = enter(register, negative(code="N-2"))
    printing = enter(register, Printing(negative=other, done_on="2031-03-02"))
    refuses("of another negative", sheet(shelf, "1", printing=printing))


@pytest.mark.parametrize("state", ["destroyed", "cancelled", "lost"])
def test_no_print_comes_from_a_negative_that_is_gone(
    register: Register, refuses: Refuses, shelf: Shelf, state: str
) -> None:
    revise(register, shelf.negative, state=state)
    refuses(f"negative N-1 is {state}; no new print", sheet(shelf, "1"))
    revise(register, shelf.negative, state_since="2031-03-01")
    refuses(f"negative N-1 is {state}; no new print", sheet(shelf, "1"))


def test_an_earlier_print_of_a_negative_since_destroyed(register: Register, shelf: Shelf) -> None:
    revise(register, shelf.negative, state="destroyed", state_since="2031-03-20")
    enter(register, sheet(shelf, "1"))


def test_a_retired_negative_prints_on(register: Register, shelf: Shelf) -> None:
    revise(register, shelf.negative, state="retired")
    enter(register, sheet(shelf, "1"))


def test_a_print_on_record_is_numbered_though_its_negative_is_gone(
    register: Register, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1"))
    revise(register, shelf.negative, state="destroyed")
    revise(register, one, designation="1/25")


def test_a_closed_edition(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    revise(register, shelf.edition, closed="2031-04")
    enter(register, sheet(shelf, "1"))
    late = enter(register, Printing(negative=shelf.negative, done_on="2031-05-04"))
    refuses("edition QUAY was closed on 2031-04", sheet(shelf, "2", printing=late))


def test_a_number_is_final_once_the_print_has_left(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    revise(register, one, designation="2/25")
    enter(register, release(one))
    for verb in ("change", "correct"):
        refuses("it was released as 2/25", one, verb=verb, designation="3/25")
        refuses("it was released as 2/25", one, verb=verb, designation=None)
    other = enter(register, edition(shelf.negative, code="PIER"))
    refuses("it was released as 2/25", one, verb="correct", edition=other)
    revise(register, one, features="a crease")


def test_a_number_is_final_once_it_is_certified(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    enter(register, certificate(register, one, b"%PDF"))
    refuses("it was certified as 1/25", one, designation="2/25")


def test_what_was_numbered_under_an_earlier_promise_goes_on(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    enter(register, certificate(register, one, b"%PDF"))
    revise(register, shelf.edition, verb="correct", numbered=30)
    revise(register, one, signature=signature())
    revise(register, one, **GONE)
    refuses("does not say that 30", sheet(shelf, "2", designation="2/25"))
    enter(register, sheet(shelf, "2", designation="2/30"))


def test_a_lost_print_keeps_its_number(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    revise(register, one, existence="lost", gone_on="2031-05-01")
    refuses("taken by the print marked 1 .*, which is lost", sheet(shelf, "2", designation="1/25"))
    refuses("not on record as destroyed; .*a lost print may", sheet(shelf, "2", replaces=one))


def test_a_destroyed_prints_number_passes_to_its_replacement_only(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    refuses("not on record as destroyed", sheet(shelf, "2", designation="1/25", replaces=one))
    revise(register, one, **GONE)
    refuses("which is destroyed", sheet(shelf, "2", designation="1/25"))
    two = enter(register, sheet(shelf, "2", designation="1/25", replaces=one))
    refuses("taken by the print marked 2", sheet(shelf, "3", designation="1/25", replaces=one))
    refuses("1/25 is taken", one, verb="correct", existence="exists", gone_on=None)
    revise(register, one, verb="correct", gone_why="burnt")
    revise(register, two, **GONE)
    three = enter(register, sheet(shelf, "3", designation="1/25", replaces=two))
    revise(register, two, verb="correct", gone_why="burnt")
    revise(register, three, signature=signature())


def test_a_replaced_proof_does_not_use_up_the_edition(register: Register, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1", designation="AP I/II"))
    revise(register, one, **GONE)
    enter(register, sheet(shelf, "2", designation="AP I/II", replaces=one))
    enter(register, sheet(shelf, "3", designation="AP II/II"))


def test_a_replacement_is_of_the_same_edition(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    other = enter(register, edition(shelf.negative, code="PIER"))
    one = enter(register, sheet(shelf, "1", edition=other))
    revise(register, one, **GONE)
    refuses("is not another print of this edition", sheet(shelf, "2", replaces=one))
    refuses("is not another print of this edition", one, replaces=one)


def test_what_is_gone_is_not_numbered(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1", **GONE))
    refuses("it is destroyed; number another sheet", one, designation="1/25")


def test_what_is_gone_comes_back_by_a_correction(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    one = enter(register, sheet(shelf, "1", **GONE))
    refuses("it is destroyed; correct the record", one, existence="exists", gone_on=None)
    revise(register, one, verb="correct", existence="exists", gone_on=None)
    revise(register, one, existence="lost", gone_on="2031-05-02")
    revise(register, one, existence="exists", gone_on=None)


def test_an_edition_never_declares_less_than_there_is(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    enter(register, sheet(shelf, "1", designation="7/25"))
    refuses("7/25 exists already, and 6 are declared", shelf.edition, verb="correct", numbered=6)
    revise(register, shelf.edition, verb="correct", numbered=7)


@pytest.mark.parametrize(
    "fields",
    [
        {"promise": "A hundred prints."},
        {"numbered": 30},
        {"artist_proofs": 3},
        {"printers_proofs": 1},
        {"hors_commerce": 1},
        {"unnumbered": 1},
    ],
)
def test_a_promise_is_only_ever_corrected(
    register: Register, refuses: Refuses, shelf: Shelf, fields: dict[str, Any]
) -> None:
    refuses("a promise is only ever corrected, with the reason", shelf.edition, **fields)
    revise(register, shelf.edition, verb="correct", **fields)
    kept = register.read.get(Edition, shelf.edition).body
    assert {name: getattr(kept, name) for name in fields} == fields


def test_prints_do_not_change_their_negative(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    other = enter(register, negative(code="N-2"))
    enter(register, sheet(shelf, "1"))
    words = "another negative"
    refuses(words, shelf.edition, verb="correct", negative=other)
    refuses(words, shelf.printing, verb="correct", negative=other)


def test_several_at_once_are_held_to_each_other(register: Register, shelf: Shelf) -> None:
    before = register.read.head()
    two = [sheet(shelf, mark, designation="1/25") for mark in ("1", "2")]
    with pytest.raises(Refused, match="1/25 is taken"), register.act(WHO) as act:
        assert [act.enter(body) for body in two] == []
    assert register.read.head() == before
