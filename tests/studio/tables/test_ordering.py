"""Moves are put in the order of their days by one sort, however many there are."""

from datetime import date, timedelta
from functools import total_ordering

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.studio.tables import custody
from provenance.studio.tables.mapping import Mapped
from provenance.studio.tables.ordering import Span, by_day, span

FIRST = date(2000, 1, 1)
days = st.integers(0, 40).map(lambda day: FIRST + timedelta(day))
spans = st.tuples(days, days).map(lambda ends: (min(ends), max(ends)))


@given(st.lists(spans, max_size=12))
def test_nothing_stands_behind_what_begins_after_its_end(given_: list[Span]) -> None:
    places = by_day(given_)
    assert sorted(places) == list(range(len(given_)))
    ordered = [given_[place] for place in places]
    for at, (first, _) in enumerate(ordered):
        assert not any(last < first for _, last in ordered[at + 1 :])


@pytest.mark.parametrize(
    ("texts", "ordered"),
    [
        # where days overlap, as they came
        (["2031", "2031-05"], [0, 1]),
        (["2031-05", "2031"], [0, 1]),
        (["2031-05", "2031-05", "2031-04"], [2, 0, 1]),
        (["2032", "2031", "2031-05"], [1, 2, 0]),
        (["soon", "2031"], [0, 1]),
    ],
)
def test_what_overlaps_stays_as_it_came(texts: list[str], ordered: list[int]) -> None:
    assert by_day([span(text) for text in texts]) == ordered


@total_ordering
class Counted:
    """A day that counts how often it was held against another."""

    compared = 0

    def __init__(self, day: int) -> None:
        self.day = day

    def __eq__(self, other: object) -> bool:
        Counted.compared += 1
        return isinstance(other, Counted) and self.day == other.day

    def __lt__(self, other: "Counted") -> bool:
        Counted.compared += 1
        return self.day < other.day

    __hash__ = None  # type: ignore[assignment]


def test_a_list_from_the_newest_on_is_not_held_row_against_row() -> None:
    many = 20_000
    backwards = [(Counted(many - place),) * 2 for place in range(many)]
    assert by_day(backwards) == list(range(many - 1, -1, -1))  # type: ignore[arg-type]
    # sorting halves, so a row meets about fifteen others, not thousands
    assert Counted.compared < 60 * many


def test_each_date_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    read = list[str]()

    def counted(text: str) -> Span:
        read.append(text)
        return span(text)

    monkeypatch.setattr(custody, "span", counted)
    mapped = Mapped((("print", "print"), ("on", "on")), {})
    rows = [(at + 2, ("QUAY 1", f"{2031 - at % 9}")) for at in range(900)]
    unnamed = [(at + 902, ("", "2031")) for at in range(100)]
    arranged = custody.Moves.arrange(object.__new__(custody.Moves), [*rows, *unnamed], mapped)
    assert len(read) == len(rows)
    assert [cells[1] for _, cells in arranged[:900]] == sorted(cells[1] for _, cells in rows)
    assert arranged[900:] == unnamed
