"""Tests: in time, of sheets that shared their baths, read by a scale that holds for them."""

from typing import Any

import pytest

from provenance.model.chemistry import Bath
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.proof import Attached
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import (
    PRINTED_ON,
    Shelf,
    enter,
    revise,
    sheet,
    silver_test,
    spot_calibration,
    step,
)

SPOT = {
    "question": "thiosulfate",
    "method": "silver-nitrate spot",
    "contact_ms": 120_000,
    "read_ms": 120_000,
}


@pytest.fixture
def one(register: Register, shelf: Shelf) -> int:
    """A print."""
    return enter(register, sheet(shelf, "1"))


@pytest.fixture
def two(register: Register, shelf: Shelf) -> int:
    """Another."""
    return enter(register, sheet(shelf, "2"))


def test_a_test_is_not_earlier_than_the_first_fixing(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    enter(register, step(shelf, one, done_on="2031-03-04", place=3))
    words = "lies before sheet 1 was fixed on 2031-03-04"
    refuses(words, silver_test(one, done_on="2031-03-03"))
    refuses(words, silver_test(one, **SPOT, done_on="2031-03-03"))
    refuses(words, silver_test(one, done_on="2031-03-04", place=2))
    enter(register, silver_test(one, done_on="2031-03-04", place=4))
    # what may have come after is no contradiction
    enter(register, silver_test(one, done_on="2031-03"))


def test_one_specimen_speaks_for_sheets_that_shared_the_last_fix(
    register: Register, refuses: Refuses, shelf: Shelf, one: int, two: int
) -> None:
    other = enter(register, Bath(code="F-9", role="fix"))
    enter(register, step(shelf, one, two, place=1), step(shelf, two, place=2, bath=other))
    words = "sheets 1 and 2 did not share the last fix: F-1 and F-9"
    refuses(words, silver_test(one, two))
    refuses(words, silver_test(one, two, **SPOT))
    enter(register, silver_test(one), silver_test(two))
    enter(register, step(shelf, one, place=3, bath=other))
    enter(register, silver_test(one, two))


def test_one_specimen_speaks_for_sheets_that_shared_the_wash(
    register: Register, refuses: Refuses, shelf: Shelf, one: int, two: int
) -> None:
    enter(register, step(shelf, one, two, place=1))
    enter(register, step(shelf, one, place=2, role="wash", bath=shelf.wash))
    refuses(
        "sheets 1 and 2 did not share the last wash: W-1 and none on record",
        silver_test(one, two, **SPOT),
    )
    enter(register, silver_test(one, two))


def test_a_repeat_names_what_failed(
    register: Register, refuses: Refuses, shelf: Shelf, one: int, two: int
) -> None:
    failed = enter(register, silver_test(one, verdict="failed"))
    passed = enter(register, silver_test(one, place=10))
    refuses(f"#{passed} passed; only what failed", silver_test(one, repeats=passed))
    refuses(f"#{failed} covers none", silver_test(two, repeats=failed))
    refuses(
        f"#{failed} asked for silver, this for thiosulfate",
        silver_test(one, **SPOT, repeats=failed),
    )
    held = enter(register, silver_test(one, place=12, repeats=failed, done_on="2031-03-04"))
    refuses("repeats itself", held, repeats=held)
    revise(register, failed, verb="correct", done_on="2031-03-05")
    refuses(f"lies before #{failed} of 2031-03-05", held, repeats=failed, place=13)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"darker_md": None}, "does not say how much darker the spot was"),
        ({"darker_md": 5}, "SPOT-1: a spot darker by 0.005 lies outside the scale"),
        ({"darker_md": 900}, "SPOT-1: a spot darker by 0.9 lies outside the scale"),
        ({"contact_ms": 60_000}, "SPOT-1 holds for 120 s, the test has 60 s"),
        ({"contact_ms": None}, "the test does not say how long"),
        ({"calibration": 999}, "#999 is not on record, not a spot-calibration"),
    ],
)
def test_a_scale_holds_for_its_own_test_and_time(
    register: Register,
    refuses: Refuses,
    shelf: Shelf,
    one: int,
    fields: dict[str, Any],
    words: str,
) -> None:
    scale = enter(register, spot_calibration(shelf.paper, contact_ms=120_000))
    given = {**SPOT, "darker_md": 70, "calibration": scale}
    enter(register, silver_test(one, **given))
    refuses(words, silver_test(one, **given | fields))


def test_a_scale_holds_for_its_own_paper(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    scale = enter(register, spot_calibration(shelf.paper))
    other = enter(register, Paper(code="FB-2", base="fibre"))
    printing = Printing(negative=shelf.negative, done_on=PRINTED_ON, paper=other)
    stranger = enter(register, sheet(shelf, "S", printing=enter(register, printing)))
    refuses(
        "SPOT-1 is of another paper than sheet S",
        silver_test(stranger, **SPOT, darker_md=70, calibration=scale),
    )


def test_figures_belong_to_what_was_asked(refuses: Refuses, one: int) -> None:
    refuses("silver is reckoned as itself", silver_test(one, reckoned_as="ion"))
    blue = SPOT | {"method": "methylene blue"}
    refuses("methylene blue leaves no spot to read", silver_test(one, **blue, darker_md=70))


def report(**other: str) -> Attached:
    """A report of a laboratory, kept whole."""
    fields = {"file_name": "a.pdf", "file_sha256": "ab" * 32, "kept_sha256": "ab" * 32} | other
    return Attached(what="report", **fields)


def test_a_file_beside_a_test_has_a_plain_name_and_digests(
    register: Register, refuses: Refuses, one: int
) -> None:
    enter(register, silver_test(one, attached=(report(),)))
    for digests in ({"kept_sha256": "../a"}, {"file_sha256": "AB" * 32}):
        refuses("is not a SHA-256 in hex", silver_test(one, attached=(report(**digests),)))
    named = report(file_name="../a.pdf")
    refuses("is not a plain file name", silver_test(one, attached=(named,)))
