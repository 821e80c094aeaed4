"""The desk: lists of what is away, custody, disclosure, questions, and lists on paper, by keys."""

from pathlib import Path

import pytest

from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.disclosure import Disclosure
from provenance.records.private import Contacts
from provenance.records.witness import Head
from provenance.screens.dialogs.custody import RecordCustody
from provenance.screens.widgets.record_table import RecordTable
from provenance.studio.custody import custody_of
from provenance.studio.handover.last_backup import note_backup
from tests.screens.form_app import SIZES
from tests.screens.house import Printer, at_work
from tests.screens.reading import screen_lines
from tests.screens.test_print_page import to_the_print

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
PERSON = "Ottoline Farrowby"


async def to_the_list(printer: Printer, name: str) -> None:
    """Go to the desk and on to one of its lists."""
    await printer.press("6")
    for _ in range(4):
        shown = next(one for one in printer.app.screen.query(RecordTable) if one.display)
        if shown.id == f"desk-{name}":
            return
        await printer.press("right")
    raise AssertionError(f"there is no list of {name}")


def events(printer: Printer, record: int) -> list[CustodyEvent]:
    """The custody events of a print."""
    reader = printer.studio.register.read
    return [one.body for one in reader.linked(record, CustodyEvent, "print")]


async def lend_both(printer: Printer) -> None:
    """Lend the two prints that lie here, to somebody new."""
    await to_the_list(printer, "here")
    await printer.press("space", "space", "k")
    await printer.choose(event="lent")
    await printer.put(date="2031-05-01", to=PERSON, until="2031-05-31")
    await printer.put(conditions="insured by the borrower", condition="a crease, upper left")
    await printer.press("ctrl+s")
    await printer.until("saved: act")


@both_sizes
async def test_marked_prints_are_lent_together_and_come_back(
    studio: Path, size: tuple[int, int], ids: dict[str, int]
) -> None:
    async with at_work(studio, size) as printer:
        await lend_both(printer)
        lent = [events(printer, ids[mark])[-1] for mark in ("Q7", "Q11")]
        assert [(one.event, one.on, one.until) for one in lent] == [
            ("lent", "2031-05-01", "2031-05-31")
        ] * 2
        ((key, page),) = Contacts(studio).list()
        assert (page.name, {one.party for one in lent}) == (PERSON, {key})
        assert "No numbered and signed print lies here." in printer.text()
        await to_the_list(printer, "away")
        assert printer.line("QUAY 7/25").strip(" ▸").split()[2:5] == [
            "lent",
            "2031-05-01",
            "2031-05-31",
        ]
        assert PERSON[:8] in printer.line("QUAY 7/25")
        assert "insured by the borrower" in " ".join(printer.text().split())
        # it begins as the last one must go on: they come back, from whoever had them
        await printer.press("k")
        assert (printer.value("event"), printer.value("giver")) == ("returned", PERSON)
        await printer.put(date="2031-05-30")
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        assert (
            custody_of(
                printer.studio.register.read, printer.studio.folder, ids["Q7"], private=True
            ).where.where
            == "in the studio"
        )
        # the same page, not another one for the same name
        assert len(Contacts(studio).list()) == 1


async def test_a_print_comes_back_from_whoever_had_it_though_the_page_is_spoiled(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await lend_both(printer)
        (page,) = (studio / "contacts").glob("*.json")
        page.write_bytes(b"{")
        await to_the_list(printer, "away")
        assert "not legible" in printer.text()
        await printer.press("k")
        assert (printer.value("event"), printer.value("giver")) == ("returned", "")
        # who had it is asked for again, and the form goes on without
        await printer.choose(event="lent")
        await printer.choose(event="returned")
        assert "not the one that was entered" not in printer.text()
        await printer.put(date="2031-05-30")
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        assert events(printer, ids["Q7"])[-1].event == "returned"


async def test_what_cannot_be_is_refused_at_the_form_and_nothing_is_kept(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await to_the_list(printer, "here")
        await printer.press("k")
        await printer.choose(event="returned")
        await printer.put(to=PERSON)
        await printer.press("ctrl+s")
        await printer.until("it has not left the studio")
        assert isinstance(printer.app.screen, RecordCustody)
        assert events(printer, ids["Q7"]) == []
        assert Contacts(studio).list() == []


async def test_undo_takes_an_event_back_by_new_entries(studio: Path, ids: dict[str, int]) -> None:
    async with at_work(studio) as printer:
        await lend_both(printer)
        await printer.press("u", "y")
        await printer.until("is taken back")
        assert events(printer, ids["Q7"]) == []
        assert "QUAY 7/25" in printer.text()


@pytest.mark.parametrize("keys", [("enter",), ()])
async def test_custody_is_entered_from_the_edition_and_from_the_print(
    studio: Path, keys: tuple[str, ...]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("enter", *keys, "k")
        assert isinstance(printer.app.screen, RecordCustody)
        assert printer.value("prints") == "QUAY 7/25"


async def test_certificates_are_withdrawn_and_revised_from_the_desk(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await to_the_list(printer, "certificates")
        assert printer.line("QUAY 11/25").endswith("in force")
        await printer.press("y")
        assert printer.studio.clipboard.endswith(".pdf")
        await printer.press("v")
        assert screen_lines(printer.app)[0].startswith(" Revise")
        await printer.press("escape", "w")
        await printer.type("the number was mistaken")
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        (one,) = printer.studio.register.read.linked(ids["Q11"], Certificate, "print")
        assert one.body.state == "withdrawn"
        assert printer.line("QUAY 11/25").endswith("withdrawn")
        assert "the number was mistaken" in printer.text()
        await printer.press("w")
        assert "No certificate in force" in printer.said()


@both_sizes
async def test_an_open_item_of_disclosure_is_answered_by_itself(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        await to_the_list(printer, "disclosure")
        assert "open: whether it reproduces" in printer.text()
        await printer.press("enter")
        assert "reproduces" in printer.line("▸")
        await printer.press("up", "enter")
        assert "The record says this" in printer.said()
        await printer.press("down", "enter", "ctrl+s")
        assert "stated in no words" in printer.text()
        await printer.choose(reply="disclaimed")
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        assert "disclaimed" in printer.line("reproduces")
        (held,) = printer.studio.register.read.all(Disclosure)
        assert [(one.item, one.reply) for one in held.body.answers] == [
            ("reproduction", "disclaimed")
        ]


async def test_a_question_is_asked_by_a_number_with_a_slip_in_it(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q7")
        await printer.press("c", "y")
        await printer.until("issued:")
        (one,) = printer.studio.register.read.linked(ids["Q7"], Certificate, "print")
        number = one.body.number
        slip = number.replace("-2031-", "-2037-")
        await printer.press("6", "a")
        assert screen_lines(printer.app)[0] == " Question"
        await printer.type(slip)
        await printer.until("one slip away")
        assert number in printer.text()
        await printer.press("enter")
        assert screen_lines(printer.app)[0].startswith(" Answer   QUAY 7/25")


@pytest.mark.parametrize(
    ("words", "page"), [("QUAY 7/25", " Answer   QUAY 7/25"), ("slipway", " QUAY   Quay")]
)
async def test_a_question_is_asked_by_a_name_or_by_words(
    studio: Path, words: str, page: str
) -> None:
    async with at_work(studio) as printer:
        await printer.press("6", "a")
        await printer.type(words)
        await printer.settle()
        await printer.press("enter")
        await printer.until(page)
        assert screen_lines(printer.app)[0].startswith(page)


@both_sizes
async def test_the_list_of_an_edition_is_read_and_written(
    studio: Path, size: tuple[int, int], tmp_path: Path
) -> None:
    async with at_work(studio, size) as printer:
        await lend_both(printer)
        await printer.press("1", "enter", "e")
        text = printer.text()
        assert screen_lines(printer.app)[0].endswith("for anybody")
        assert "1–6, 8–10, 12–25, AP I–II" in text
        assert PERSON not in text
        await printer.press("v")
        assert screen_lines(printer.app)[0].endswith("in full")
        await printer.press("end")
        while "7/25" not in printer.line("▸"):
            await printer.press("up")
        assert PERSON in printer.text().replace("\n", " ")
        await printer.press("p")
        await printer.put(file=str(studio / "list.pdf"))
        await printer.press("ctrl+s")
        await printer.until("could no longer be erased")
        await printer.put(file=str(tmp_path / "list.pdf"))
        await printer.press("ctrl+s")
        await printer.until("written, and its path copied")
        assert (tmp_path / "list.pdf").read_bytes().startswith(b"%PDF")
        await printer.press("enter")
        assert "back: Q7" in screen_lines(printer.app)[0]


async def test_the_heirs_page_says_what_is_open_and_what_must_not_be_done(studio: Path) -> None:
    async with at_work(studio, (120, 60)) as printer:
        await printer.press("6", "i")
        text = printer.text()
        assert "names persons and terms" in text
        assert "still to be printed" in text
        assert "Nobody may sign for the artist" in text
        await printer.press("v")
        assert screen_lines(printer.app)[0].endswith("in full")
        await printer.press("backspace", "1", "enter", "i")
        assert screen_lines(printer.app)[0].startswith(" Heir’s page   QUAY")


@both_sizes
async def test_the_desk_says_when_a_backup_is_due_and_is_quiet_after_it(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        await printer.press("6")
        assert "No backup yet" in screen_lines(printer.app)[0]
        register = printer.studio.register
        head = Head(*register.read.head(), "")
        note_backup(printer.studio.folder.path, register.clock(), head, "b.zip")
        await printer.press("1", "6")
        assert "backup" not in screen_lines(printer.app)[0]
