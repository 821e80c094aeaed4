"""What a print owes stands in its row, and follows whatever is entered of it."""

import pytest

from provenance.records.audit import audit
from provenance.records.register import Register
from tests.studios import (
    WHO,
    Shelf,
    certificate,
    enter,
    finish,
    release,
    revise,
    scan,
    sheet,
    signature,
    silver_test,
    step,
)


@pytest.fixture
def sheet_id(register: Register, shelf: Shelf) -> int:
    """A sheet of which nothing else is on record."""
    return enter(register, sheet(shelf, "a"))


def void(register: Register, record: int) -> None:
    stored = register.read.find(record)
    assert stored is not None
    with register.act(WHO) as act:
        act.void(record, stored.version, "a duplicate")


def row(register: Register, record: int) -> tuple[str, str | None, str | None]:
    """What a print owes, and why its tests do not count; the view is as the journal has it."""
    assert [f for f in audit(register.folder).findings if f.what.startswith("view")] == []
    found: tuple[str, str | None, str | None] = register.read.connection.execute(
        "SELECT owes, why_silver, why_thiosulfate FROM impression WHERE id = ?", (record,)
    ).fetchone()
    return found


def washed(register: Register, shelf: Shelf, record: int) -> None:
    """Fixed, washed, tested twice."""
    enter(
        register,
        step(shelf, record, place=1),
        step(shelf, record, place=2, role="wash", bath=shelf.wash),
        silver_test(record, place=3),
        silver_test(record, place=4, question="thiosulfate", method="silver-nitrate spot"),
    )


def test_a_sheet_owes_all_but_what_waits_for_other_things(
    register: Register, sheet_id: int
) -> None:
    assert row(register, sheet_id) == ("stnp", None, None)
    revise(register, sheet_id, designation="7/25")
    assert row(register, sheet_id) == ("stgp", None, None)
    revise(register, sheet_id, signature=signature())
    assert row(register, sheet_id) == ("stp", None, None)


def test_a_picture_that_comes_and_goes_shows(
    register: Register, shelf: Shelf, sheet_id: int
) -> None:
    other = enter(register, sheet(shelf, "b"))
    picture = enter(register, scan(sheet_id, b"1"))
    assert row(register, sheet_id)[0] == "stn"
    revise(register, picture, verb="correct", print=other)
    assert (row(register, sheet_id)[0], row(register, other)[0]) == ("stnp", "stn")
    void(register, picture)
    assert row(register, other)[0] == "stnp"


def test_a_finish_that_comes_changes_and_goes_shows(
    register: Register, shelf: Shelf, sheet_id: int
) -> None:
    washed(register, shelf, sheet_id)
    assert row(register, sheet_id)[0] == "fnp"
    finished = enter(register, finish(sheet_id))
    assert row(register, sheet_id)[0] == "np"
    revise(register, finished, verb="correct", drying=None)
    assert row(register, sheet_id)[0] == "fnp"
    revise(register, finished, verb="correct", drying="with heat")
    void(register, finished)
    assert row(register, sheet_id)[0] == "fnp"


def test_why_a_test_does_not_count_stands_in_the_row(
    register: Register, shelf: Shelf, sheet_id: int
) -> None:
    enter(register, step(shelf, sheet_id, place=1), silver_test(sheet_id, place=2))
    assert row(register, sheet_id) == ("stnp", "before the wash", None)


def test_what_is_certified_released_or_spoiled_owes_nothing(
    register: Register, shelf: Shelf, sheet_id: int
) -> None:
    washed(register, shelf, sheet_id)
    revise(register, sheet_id, designation="7/25", signature=signature())
    enter(register, finish(sheet_id), scan(sheet_id, b"1"))
    assert row(register, sheet_id)[0] == "c"
    enter(register, certificate(register, sheet_id, b"%PDF-"))
    assert row(register, sheet_id)[0] == ""
    gone, sold = enter(register, sheet(shelf, "b")), enter(register, sheet(shelf, "c"))
    revise(register, gone, existence="spoiled", gone_on="2031-03-05", gone_why="creased")
    enter(register, release(sold))
    assert (row(register, gone)[0], row(register, sold)[0]) == ("", "")
