"""Certificates from the screen: under a key, many at a stroke, revised, withdrawn."""

import re
from collections.abc import Iterator
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from msgspec import structs

from provenance.errors import Problem
from provenance.model.certificate import Certificate
from provenance.model.prints import Print
from provenance.records.register import Register
from provenance.screens.dialogs.issue import TOLD, Issuance
from provenance.screens.dialogs.passphrase import Passphrase
from provenance.screens.issuing import NAMED, question_of
from provenance.screens.widgets.record_table import RecordTable
from provenance.studio.certifying import batch
from provenance.studio.checking.check import check
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.ring import VARIABLE, make_key
from tests import studios
from tests.screens.house import Printer, at_work
from tests.screens.reading import screen_colours, screen_lines
from tests.screens.test_print_page import to_the_print
from tests.studio.finished import another, desk

PASSPHRASE = "a lantern on the quay"  # noqa: S105 - invented


def with_key(studio: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A studio whose certificates are sealed."""
    monkeypatch.delenv(VARIABLE, raising=False)
    make_key(StudioFolder(studio), lambda: PASSPHRASE)


def issued(printer: Printer, record: int) -> list[Certificate]:
    """The certificates of a print."""
    reader = printer.studio.register.read
    return [one.body for one in reader.linked(record, Certificate, "print")]


@pytest.fixture
def three(tmp_path: Path) -> list[int]:
    """Three prints that owe nothing but their certificate, in `tmp_path / "three"`."""
    held = desk(tmp_path / "three")
    prints = [held.print, another(held, "Q8", "8/25"), another(held, "Q9", "9/25")]
    with held.register.act(studios.WHO) as act:
        spot = {"question": "thiosulfate", "method": "silver-nitrate spot"}
        act.enter(studios.step(held.shelf, *prints[1:], place=1))
        act.enter(studios.step(held.shelf, *prints[1:], place=3, role="wash", bath=held.shelf.wash))
        for one in prints:
            act.enter(studios.silver_test(one, place=5))
            act.enter(studios.silver_test(one, place=6, **spot))
    held.register.close()
    return prints


async def test_the_passphrase_is_asked_for_and_never_shown(
    studio: Path, ids: dict[str, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    with_key(studio, monkeypatch)
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q7")
        await printer.press("c", "y")
        await printer.until("passphrase of the studio")
        await printer.press(*"a slip", "enter")
        await printer.until("not the right one")
        await printer.type(PASSPHRASE)
        assert "lantern" not in printer.text()
        # the page that it is about stays in sight
        assert "back: Q7" in screen_lines(printer.app)[0]
        printer.app.theme = "safelight"
        await printer.settle()
        assert all(re.fullmatch("#..0000", colour) for colour in screen_colours(printer.app))
        await printer.press("enter")
        await printer.until("issued:")
        (one,) = issued(printer, ids["Q7"])
    found = check(studio / "certificates" / one.file_name, StudioFolder(studio))
    assert found.sealed.answer == "yes"


@pytest.mark.parametrize("keys", [("slash", "Q", "7", "enter", "c", "y")])
async def test_who_has_no_passphrase_leaves_and_nothing_is_issued(
    studio: Path, ids: dict[str, int], monkeypatch: pytest.MonkeyPatch, keys: tuple[str, ...]
) -> None:
    with_key(studio, monkeypatch)
    async with at_work(studio) as printer:
        await printer.press(*keys)
        await printer.until("passphrase of the studio")
        assert isinstance(printer.app.screen, Passphrase)
        await printer.press("escape")
        await printer.until("Nothing was issued")
        assert issued(printer, ids["Q7"]) == []


async def test_many_are_issued_at_one_stroke_under_one_passphrase(
    tmp_path: Path, three: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    with_key(tmp_path / "three", monkeypatch)
    async with at_work(tmp_path / "three") as printer:
        await printer.press("5", "down", "enter")
        assert "3 certificates, of QUAY 7/25, QUAY 8/25, QUAY 9/25" in printer.text()
        await printer.press("y")
        await printer.until("passphrase")
        await printer.type(PASSPHRASE)
        await printer.press("enter")
        await printer.until("3 issued")
        assert [len(issued(printer, one)) for one in three] == [1, 1, 1]
        assert "Nothing is owed." in printer.text()


async def test_it_is_stopped_between_two_certificates(
    tmp_path: Path, three: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, each = Event(), batch.certify_each

    def slowly(*given: Any) -> Iterator[batch.Outcome]:
        assert go_on.wait(10)
        return each(*given)

    monkeypatch.setattr(batch, "certify_each", slowly)
    async with at_work(tmp_path / "three") as printer:
        await printer.press("5", "down", "enter", "y")
        await printer.until("Issuing 1 of 3: QUAY 7/25")
        await printer.press("escape")
        assert "once this one is whole" in printer.text()
        go_on.set()
        await printer.until("2 not begun")
        assert [len(issued(printer, one)) for one in three] == [1, 0, 0]
        assert len(list((tmp_path / "three" / "certificates").glob("*.pdf"))) == 1


async def test_what_is_refused_of_many_is_said_and_the_others_are_issued(
    tmp_path: Path, three: list[int]
) -> None:
    with Register.open(tmp_path / "three", clock=studios.clock()) as register:
        studios.enter(
            register,
            studios.silver_test(three[1], verdict="failed", place=7, done_on="2031-03-05"),
        )
    async with at_work(tmp_path / "three") as printer:
        await printer.press("slash", *"Q8", "enter", "escape", "5", "end")
        while "certificate" not in printer.line("▸"):
            await printer.press("up")
        await printer.press("enter", "y")
        await printer.until("issued, in")
        assert [len(issued(printer, one)) for one in three] == [1, 0, 1]


async def test_a_revision_takes_the_place_of_the_certificate_and_says_why(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q7")
        await printer.press("v")
        assert "no certificate in force" in printer.said()
        await printer.press("c", "y")
        await printer.until("issued:")
        await printer.press("c")
        assert "v revises it" in printer.said()
        await printer.press("v")
        assert screen_lines(printer.app)[0].startswith(" Revise")
        await printer.press("ctrl+s")
        assert "a reason is needed" in printer.text()
        await printer.type("the sheet was measured anew")
        await printer.press("ctrl+s")
        await printer.until("revision 2")
        first, second = issued(printer, ids["Q7"])
        assert (first.state, first.state_why) == ("superseded", "the sheet was measured anew")
        assert (second.state, second.revision) == ("issued", 2)


async def test_a_certificate_is_withdrawn_with_its_reason_and_brought_back_by_undo(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q11")
        await printer.press("w")
        await printer.type("the number was mistaken")
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        (one,) = issued(printer, ids["Q11"])
        assert (one.state, one.state_why) == ("withdrawn", "the number was mistaken")
        await printer.press("u", "y")
        await printer.until("is taken back")
        (one,) = issued(printer, ids["Q11"])
        assert one.state == "issued"


async def test_the_marked_prints_of_an_edition_are_certified_after_one_question(
    tmp_path: Path, three: list[int]
) -> None:
    async with at_work(tmp_path / "three") as printer:
        await printer.press("enter")
        await printer.press("space", "space", "space", "c")
        assert "Issue 3 certificates, of QUAY 7/25, QUAY 8/25, QUAY 9/25?" in printer.text()
        await printer.press("n")
        assert [len(issued(printer, one)) for one in three] == [0, 0, 0]
        await printer.press("c", "y")
        await printer.until("3 issued")
        assert [len(issued(printer, one)) for one in three] == [1, 1, 1]
        # the marks have served, and what is certified already is not asked for again
        await printer.press("c")
        assert "No certificate is owed here" in printer.said()


async def test_of_the_marked_prints_only_those_without_a_certificate_are_asked_for(
    tmp_path: Path, three: list[int]
) -> None:
    async with at_work(tmp_path / "three") as printer:
        await printer.press("enter", "c")
        assert "Issue a certificate of QUAY 7/25?" in printer.text()
        await printer.press("y")
        await printer.until("1 issued")
        await printer.press("space", "space", "space", "c")
        assert "Issue 2 certificates, of QUAY 8/25, QUAY 9/25?" in printer.text()
        assert "1 more marked: certified already, or gone." in printer.text()


async def test_who_was_refused_stays_marked_and_a_key_of_the_page_mends_it(
    tmp_path: Path, three: list[int]
) -> None:
    folder = tmp_path / "three"
    with Register.open(folder, clock=studios.clock()) as register:
        held = register.read.get(Print, three[1])
        # one more print, without a picture
        bare = structs.replace(held.body, mark="Q10", designation="10/25")
        studios.enter(register, bare)
    async with at_work(folder) as printer:
        await printer.press("enter", *["space"] * 4, "c", "y")
        await printer.until("3 issued")
        said = printer.said()
        assert "QUAY 10/25: there is no picture of it; g mends that" in said
        assert "[[scan]]" not in said
        (marked,) = printer.app.screen.query_one(RecordTable).marks
        assert marked not in three


def test_a_question_names_so_many_prints_and_counts_the_others() -> None:
    names = [f"QUAY {number}/25" for number in range(1, NAMED + 4)]
    asked = question_of(names)
    assert "QUAY 12/25 and 3 more?" in asked
    assert "QUAY 13/25" not in asked
    assert f"{NAMED + 3} certificates" in asked


def test_what_is_refused_of_very_many_is_said_of_the_first() -> None:
    refused = [
        batch.Outcome(f"QUAY {number}/25", None, (Problem("it is not signed", f"Q{number}"),))
        for number in range(1, TOLD + 6)
    ]
    told = Issuance(tuple(refused), left=0).told("certificates").splitlines()
    assert len(told) == TOLD + 2
    assert told[-1].startswith("and 5 more")
