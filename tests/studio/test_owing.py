"""What all prints owe: counted, the first ones named, the rest when asked for."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.records.register import Register
from provenance.studio import owing
from provenance.studio.owing import debtor_ids, names_in_drawer, owing_no_more, read_owed
from tests.studios import (
    WHO,
    Shelf,
    edition,
    enter,
    furnish,
    new_register,
    sheet,
    silver_test,
    step,
)


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[tuple[Register, Shelf]]:
    """A register with sheets in two editions; one of them was tested in vain."""
    with new_register(tmp_path / "studio") as register:
        with register.act(WHO) as act:
            held = furnish(act)
            other = act.enter(edition(held.negative, code="AFT", name="Aft"))
            for mark in ("Q1", "Q2", "Q3"):
                act.enter(sheet(held, mark))
            named = act.enter(sheet(held, "Q4", designation="4/25"))
            act.enter(sheet(Shelf(held.negative, other, 0, held.printing, 0, 0), "A1"))
        enter(register, step(held, named, place=1), silver_test(named, place=2))
        yield register, held


def told(register: Register) -> dict[str, str]:
    """What is owed, in short."""
    owed = read_owed(register.read.connection)
    return {one.key: one.in_short() for one in owed.things}


def test_what_is_owed_is_told_by_edition_and_number(shelf: tuple[Register, Shelf]) -> None:
    every = "AFT A1   QUAY 4/25, Q1, Q2, Q3"
    assert told(shelf[0]) == {
        "silver": every,
        "thiosulfate": every,
        "number AFT": "AFT A1",
        "number QUAY": "QUAY Q1, Q2, Q3",
        "signature": "QUAY 4/25",
        "scan": every,
    }
    assert read_owed(shelf[0].read.connection).prints == 5


def test_of_many_the_first_are_named_and_the_rest_counted(
    shelf: tuple[Register, Shelf], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(owing, "NAMED", 2)
    assert told(shelf[0])["silver"] == "AFT A1   QUAY 4/25   and 3 more"


def test_editions_left_out_are_counted(
    shelf: tuple[Register, Shelf], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(owing, "EDITIONS", 1)
    owed = read_owed(shelf[0].read.connection)
    assert [one.key for one in owed.things if one.what == "number"] == ["number AFT"]
    assert owed.editions_left_out == 1


def test_why_a_test_does_not_count_is_counted_and_stands_at_the_print(
    shelf: tuple[Register, Shelf],
) -> None:
    silver = read_owed(shelf[0].read.connection).things[0]
    assert silver.discounted == (("before the wash", 1),)
    assert [one.discounted for one in silver.first] == ["", "before the wash", "", "", ""]


def test_all_that_owe_a_thing_come_in_the_same_order(shelf: tuple[Register, Shelf]) -> None:
    connection = shelf[0].read.connection
    silver = read_owed(connection).things[0]
    ids = debtor_ids(connection, silver)
    assert list(ids) == [one.record for one in silver.first]
    names = [name for _id, name in names_in_drawer(connection, ids)]
    assert names == ["AFT A1", "QUAY 4/25", "QUAY Q1", "QUAY Q2", "QUAY Q3"]


def test_who_owes_a_thing_no_more_is_told(
    shelf: tuple[Register, Shelf], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(owing, "_AT_ONCE", 2)
    connection = shelf[0].read.connection
    silver = read_owed(connection).things[0]
    ids = set(debtor_ids(connection, silver))
    assert owing_no_more(connection, "silver", ids) == set()
    assert len(owing_no_more(connection, "number", ids)) == 1
    assert owing_no_more(connection, "silver", {*ids, 99_999}) == {99_999}
