"""What is left of an edition after twenty years, as a buyer and as an heir reads it."""

import pytest

from provenance.craft.roll import Roll
from provenance.documents.roll import draw_roll
from provenance.model.edition import Edition
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.references import resolve_as
from provenance.studio.rolls.text import as_lines
from provenance.studio.rolls.view import edition_list, heirs_page
from tests.studio.sheets import Desk
from tests.studio.test_twenty_years import SHEETS

OWNERS = ("Casimir Oldershaw", "Museum of Tides", "Philippa Wrenmoor")


@pytest.fixture(scope="module")
def lists(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Roll]:
    """The list for anybody, the full one, and the heir's page of the studio."""
    desk = Desk(tmp_path_factory.mktemp("years"))
    for sheet in SHEETS:
        desk.day = sheet.stem
        record_day_sheet(desk.folder, sheet, clock=desk.evening())
    with desk.folder.open(desk.evening()) as register:
        read, now = register.read, register.clock()
        held = resolve_as(read, Edition, "EBB")
        return {
            "anybody": edition_list(read, desk.folder, held, now, full=False),
            "full": edition_list(read, desk.folder, held, now, full=True),
            "heir": heirs_page(read, desk.folder, None, now),
        }


def test_a_buyer_reads_everything_but_who_has_what(lists: dict[str, Roll]) -> None:
    said = [" ".join(line.split()) for line in as_lines(lists["anybody"])]
    for line in (
        "Declared 10 + 2 AP, 12 in all",
        "To be printed nothing: the edition is closed",
        "EBB-L, Ebb, large: 8, image 48.0 × 60.0 cm (2014-02-11)",
        "1/25 2004-03-14 destroyed, replaced by a later print",
        "1/25 2011-05-20 in the studio, replaces an earlier print",
        "2/25 2004-03-14 left the studio",
        "7/10 2021-04-18, posthumous in the studio, stamped, not signed",
        "BAT 2004-03-14 in the studio, not signed, outside the total",
    ):
        assert line in said
    assert any(line.startswith("numbered: 25, then 10.") for line in said)
    assert not any(owner in line for line in said for owner in OWNERS)


def test_an_heir_reads_who_has_what_and_what_must_not_be_done(lists: dict[str, Roll]) -> None:
    said = "\n".join(as_lines(lists["heir"]))
    assert [owner for owner in OWNERS if owner not in said] == []
    for words in (
        "found 2024-07-05, with Philippa Wrenmoor",
        "“The estate may stamp what is printed after me. Nobody signs.”",
        "No print may be made from negative N-31: it is destroyed.",
        "No print may be added to edition EBB: it was closed 20 April 2021.",
        "Fire at the owner's, The insurer's photographs of the charred sheet",
    ):
        assert words in said


def test_all_of_them_can_be_drawn(lists: dict[str, Roll]) -> None:
    assert [draw_roll(roll)[:5] for roll in lists.values()] == [b"%PDF-"] * 3
