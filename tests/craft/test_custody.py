"""Where prints are: the state machine against a plain account of its own, and its lines."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from provenance.craft.custody import Break, Move, Whereabouts, follow, in_order, whereabouts
from provenance.craft.provenance_line import Holder, provenance_line
from provenance.model.custody import CustodyEvent, CustodyKind
from provenance.model.dates import earliest, latest

PEOPLE = ("ab" * 32, "cd" * 32, "ef" * 32)
KINDS: tuple[CustodyKind, ...] = (
    "released",
    "sold",
    "consigned",
    "lent",
    "given",
    "returned",
    "lost",
    "found",
    "destroyed",
)


def move(number: int, event: CustodyKind, on: str, **other: str | None) -> Move:
    return Move(number, CustodyEvent(print=1, event=event, on=on, **other))  # type: ignore[arg-type]


class AtTheDesk(RuleBasedStateMachine):
    """Tries every event in every state; who has the print is kept in plain words beside it."""

    def __init__(self) -> None:
        super().__init__()
        self.moves: list[Move] = []
        self.has = "studio"
        self.owner = "studio"
        self.missing = False
        self.gone = False

    def tried(self, event: CustodyKind, party: str | None = None, giver: str | None = None) -> bool:
        """Whether the event was taken."""
        day = f"{2031 + len(self.moves)}-05-01"
        one = move(len(self.moves) + 1, event, day, party=party, giver=giver)
        reached = list(follow([*self.moves, one]))
        if isinstance(reached[-1], Break):
            assert reached[-1].move == one
            assert reached[-1].why
            assert reached[-1].mend
            return False
        self.moves.append(one)
        return True

    @property
    def here(self) -> bool:
        return self.has == "studio" and not self.missing and not self.gone

    @rule(event=st.sampled_from(("released", "lent", "consigned")), party=st.sampled_from(PEOPLE))
    def goes_out(self, event: CustodyKind, party: str) -> None:
        unsaid = bool(self.moves) and self.moves[-1].body.event == "released"
        may = self.here or (unsaid and event != "released" and not self.missing)
        assert self.tried(event, party=party) == (may and not self.gone)
        if may and not self.gone:
            self.has = party

    @rule(event=st.sampled_from(("sold", "given")), party=st.sampled_from(PEOPLE))
    def the_studio_sells(self, event: CustodyKind, party: str) -> None:
        last = self.moves[-1].body.event if self.moves else ""
        may = self.owner == "studio" and not self.missing and not self.gone and not self.lent(last)
        assert self.tried(event, party=party) == may
        if may:
            self.has = self.owner = party

    def lent(self, last: str) -> bool:
        state = whereabouts(self.moves)
        return state.where == "lent" and last != "destroyed"

    @rule(party=st.sampled_from(PEOPLE), giver=st.sampled_from(PEOPLE))
    def somebody_sells(self, party: str, giver: str) -> None:
        may = self.has == giver and not self.missing and not self.gone and not self.lent("")
        assert self.tried("sold", party=party, giver=giver) == may
        if may:
            self.has = self.owner = party

    @rule(giver=st.sampled_from(PEOPLE))
    def comes_back(self, giver: str) -> None:
        may = self.has == giver and not self.missing and not self.gone
        assert self.tried("returned", giver=giver) == may
        if may:
            self.has = self.owner = "studio"

    @rule()
    def is_lost(self) -> None:
        may = not self.missing and not self.gone
        assert self.tried("lost") == may
        self.missing = self.missing or may

    @precondition(lambda self: self.missing)
    @rule()
    def turns_up_where_it_was(self) -> None:
        assert self.tried("found") == (not self.gone)
        self.missing = self.missing and self.gone

    @rule(party=st.sampled_from(PEOPLE))
    def turns_up_with(self, party: str) -> None:
        may = not self.gone and (self.missing or self.owner != "studio")
        assert self.tried("found", party=party) == may
        if may:
            self.has = self.owner = party
            self.missing = False

    @rule()
    def is_destroyed(self) -> None:
        assert self.tried("destroyed") == (not self.gone)
        self.gone = True

    @invariant()
    def agrees(self) -> None:
        now = whereabouts(self.moves)
        if self.gone:
            assert now.where == "destroyed"
        elif self.missing:
            assert now.where == "lost"
        elif self.has == "studio":
            assert now.where == "in the studio"
            assert not now.away
        else:
            assert now.away
            assert now.holder == self.has
            assert (now.where == "owned") == (self.owner != "studio")

    @invariant()
    def has_a_line_that_ends(self) -> None:
        assert provenance_line(self.moves, named).endswith(".")


def named(event: CustodyEvent) -> Holder:
    return Holder((event.party or "somebody")[:2])


TestAtTheDesk = AtTheDesk.TestCase


@given(
    st.lists(
        st.tuples(st.sampled_from(KINDS), st.sampled_from(("2031", "2031-05", "2032-01-01"))),
        max_size=6,
    )
)
def test_events_stand_by_their_days_and_else_as_entered(
    events: list[tuple[CustodyKind, str]],
) -> None:
    moves = [move(place, kind, on) for place, (kind, on) in enumerate(events, 1)]
    ordered = in_order(reversed(moves))
    assert sorted(one.id for one in ordered) == [one.id for one in moves]
    for earlier, later in pairwise(ordered):
        assert not latest(later.body.on) < earliest(earlier.body.on)
    assert in_order(ordered) == ordered


def test_what_is_entered_late_finds_its_place() -> None:
    sold = move(1, "sold", "2033", party=PEOPLE[0])
    lent = move(2, "lent", "2031", party=PEOPLE[1])
    back = move(3, "returned", "2032")
    assert whereabouts([sold, lent, back]).holder == PEOPLE[0]
    *_, last = follow([sold, lent])
    assert isinstance(last, Break)
    assert "a loan and a sale overlap" in last.why


def test_a_print_from_before_the_records_may_be_anywhere() -> None:
    assert whereabouts([], opening=True).where == "unknown"
    for event in ("sold", "returned", "found"):
        reached = list(follow([move(1, event, "2031")], opening=True))
        assert isinstance(reached[0], Whereabouts)


@pytest.mark.parametrize(
    ("moves", "line"),
    [
        ([], "The artist."),
        (
            [move(1, "lent", "2031", party=PEOPLE[0]), move(2, "returned", "2032")],
            "The artist.",
        ),
        (
            [
                move(1, "consigned", "2031", party=PEOPLE[0]),
                move(2, "returned", "2032"),
                move(3, "sold", "2033-05", party=PEOPLE[1]),
                move(4, "lost", "2040"),
                move(5, "found", "2044", party=PEOPLE[2]),
                move(6, "sold", "2045", party=PEOPLE[1], giver=PEOPLE[2]),
            ],
            "The artist; (Rooms, Town, on consignment 2031); returned to the artist’s studio, 2032;"
            " Owner [1961-2043], 2033-05; lost 2040. Finder, by 2044; Owner [1961-2043], 2045.",
        ),
    ],
    ids=["nothing", "a loan is no transfer", "all of it"],
)
def test_lines_in_the_form_of_the_museums(moves: list[Move], line: str) -> None:
    # S (AAM): ";" for a direct transfer, "." for a gap, dealers in parentheses, life in brackets
    people = {
        PEOPLE[0]: Holder("Rooms", "Town", dealer=True),
        PEOPLE[1]: Holder("Owner", life="1961-2043"),
        PEOPLE[2]: Holder("Finder"),
    }
    assert provenance_line(moves, lambda event: people[event.party or ""]) == line
