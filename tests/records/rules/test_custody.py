"""Out and back, in turn."""

import pytest

from provenance.errors import Refused
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import WHO, Shelf, enter, release, revise, sheet


@pytest.fixture
def one(register: Register, shelf: Shelf) -> int:
    """A print."""
    return enter(register, sheet(shelf, "1"))


def test_a_print_leaves_and_comes_back_in_turn(
    register: Register, refuses: Refuses, one: int
) -> None:
    refuses("it has not left the studio", release(one, event="returned"))
    enter(register, release(one, on="2031-04-01"))
    refuses(r"it left the studio on 2031-04-01 \(#\d+\) already", release(one, on="2031-04-02"))
    refuses("it has not left the studio", release(one, event="returned", on="2031-03-31"))
    enter(register, release(one, event="returned", on="2031-04-05"))
    refuses("it came back on 2031-04-05", release(one, event="returned", on="2031-04-06"))
    enter(register, release(one, on="2031-04-06"))


@pytest.mark.parametrize(
    ("on", "words"),
    [
        ("2031-03-01", "before it was printed on 2031-03-02"),
        ("2031-06-02", "still to come"),
        ("spring", "is not a date"),
    ],
)
def test_when(refuses: Refuses, one: int, on: str, words: str) -> None:
    refuses(words, release(one, on=on))


@pytest.mark.parametrize("party", ["A. Collector", "", "ab" * 31, "AB" * 32])
def test_the_register_holds_no_person(refuses: Refuses, one: int, party: str) -> None:
    refuses("the register never holds a person", release(one, party=party))


def test_a_print_that_is_gone_does_not_move_any_more(
    register: Register, refuses: Refuses, one: int
) -> None:
    revise(register, one, existence="destroyed", gone_on="2031-05-01")
    refuses("the print was destroyed on 2031-05-01", release(one, on="2031-05-02"))
    sold = enter(register, release(one, on="2031-04-01"))
    revise(register, sold, verb="correct", on="2031-04-02")


def test_a_move_that_later_ones_rest_on_stays(
    register: Register, refuses: Refuses, one: int
) -> None:
    out = enter(register, release(one, on="2031-04-01"))
    back = enter(register, release(one, event="returned", on="2031-04-05"))
    refuses("then what is on record after it cannot be", out, verb="correct", on="2031-04-06")
    refuses("it has not left the studio", out, verb="correct", event="returned")
    with pytest.raises(Refused, match="a later move of the print rests on it"):
        void(register, out)
    void(register, back)
    void(register, out)
    enter(register, release(one, on="2031-04-02"))


def test_a_move_is_not_corrected_away_to_another_print(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    other = enter(register, sheet(shelf, "2"))
    out = enter(register, release(one))
    back = enter(register, release(one, event="returned"))
    refuses("a later move of the other print", out, verb="correct", print=other)
    void(register, back)
    revise(register, out, verb="correct", print=other)


def void(register: Register, record: int) -> None:
    with register.act(WHO) as act:
        act.void(record, record, "entered twice")


PARTY, OTHER = "ab" * 32, "cd" * 32


@pytest.mark.parametrize(
    ("before", "event", "words"),
    [
        ([], {"event": "sold", "giver": PARTY}, "whoever is named never had it"),
        (
            [{"event": "sold", "party": PARTY}],
            {"event": "sold", "party": OTHER},
            r"QUAY 1/25 event: it was sold on 2031-04-01 \(#\d+\) already; record its return",
        ),
        (
            [{"event": "sold", "party": PARTY}],
            {"event": "lent"},
            r"it was sold on 2031-04-01 \(#\d+\) and is not the studio's to be lent",
        ),
        (
            [{"event": "lent", "party": PARTY}],
            {"event": "returned", "giver": OTHER},
            r"it has been lent since 2031-04-01 \(#\d+\); whoever is named .* never had it",
        ),
        (
            [{"event": "lent", "party": PARTY}],
            {"event": "sold", "party": OTHER},
            "a loan and a sale overlap; record its return first",
        ),
        (
            [{"event": "consigned", "party": PARTY}],
            {"event": "lent", "party": OTHER},
            r"it has been consigned since 2031-04-01 \(#\d+\) already",
        ),
        ([], {"event": "found"}, "it was not lost"),
        ([{"event": "sold"}], {"event": "found"}, "name who has it now"),
        ([], {"event": "lost"}, "not on record as lost"),
        ([], {"event": "destroyed"}, "not on record as destroyed"),
        ([], {"event": "sold", "until": "2032"}, "what was sold has no end"),
        ([], {"event": "lent", "until": "2031-03-20"}, "2031-03-20 lies before 2031-04-09"),
        ([], {"event": "lent", "giver": PARTY}, "said of a return, a sale or a gift"),
        ([], {"event": "lent", "rights": "stay"}, "when a print is sold or given"),
        ([{"event": "lent"}], {"event": "returned", "party": PARTY}, "went to nobody"),
    ],
    ids=[
        "never left",
        "sold twice",
        "lent when sold",
        "returned by another",
        "sold on loan",
        "lent on consignment",
        "found unlost",
        "found with nobody",
        "lost by event alone",
        "destroyed by event alone",
        "a sale that ends",
        "a loan that ended",
        "lent by another",
        "rights of a loan",
        "returned to somebody",
    ],
)
def test_what_cannot_follow_is_refused_with_the_record(
    register: Register,
    refuses: Refuses,
    one: int,
    before: list[dict[str, str]],
    event: dict[str, str],
    words: str,
) -> None:
    revise(register, one, designation="1/25")
    for earlier in before:
        enter(register, release(one, on="2031-04-01", **earlier))
    refuses(words, release(one, **{"on": "2031-04-09"} | event))


def test_a_loan_that_is_entered_late_may_not_overlap_a_sale(
    register: Register, refuses: Refuses, one: int
) -> None:
    sold = enter(register, release(one, event="sold", on="2031-05-01"))
    words = rf"then what is on record after it cannot be: sold of 2031-05-01 \(#{sold}\)"
    refuses(words, release(one, event="lent", on="2031-04-20"))
    with register.act(WHO) as act:
        act.enter(release(one, event="released", on="2031-04-20"))


def test_a_lost_print_comes_to_light(register: Register, refuses: Refuses, one: int) -> None:
    revise(register, one, existence="lost", gone_on="2031-04-10")
    enter(register, release(one, event="lost", on="2031-04-10"))
    refuses("it was lost on 2031-04-10", release(one, event="sold", on="2031-04-10"))
    revise(register, one, existence="exists", gone_on=None)
    enter(register, release(one, event="found", on="2031-05-10"))
    enter(register, release(one, event="sold", on="2031-05-11"))
