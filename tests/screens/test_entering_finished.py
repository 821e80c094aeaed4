"""What is done to dry prints: tests, numbers, signatures, scans, and their way out."""

from pathlib import Path

import pytest

from provenance.model.custody import CustodyEvent
from provenance.model.finish import Finish
from provenance.model.prints import Print, Scan
from provenance.model.proof import Test
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.screens.dialogs.finish import FinishPrints
from provenance.screens.dialogs.gone import RecordGone
from provenance.screens.dialogs.number import NumberPrints
from provenance.screens.dialogs.release import ReleasePrints
from provenance.screens.dialogs.scan import AddScan
from provenance.screens.dialogs.sign import SignPrints
from provenance.screens.dialogs.test import MarkedTest, NewTest
from provenance.screens.widgets.form import Form
from tests import studios
from tests.screens.form_app import SIZES, Hands, at_the_keyboard, small_studio
from tests.studio.sheets import draw

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


def numbered_studio(folder: Path) -> list[int]:
    """Three sheets, the second of which bears number 2."""
    prints = small_studio(folder, 3)
    with Register.open(folder, clock=studios.clock()) as register:
        studios.revise(register, prints[1], designation="2/25")
    return prints


def designations(hands: Hands, prints: list[int]) -> list[str | None]:
    """The numbers that prints bear."""
    return [hands.app.register.read.get(Print, one).body.designation for one in prints]


@both_sizes
async def test_one_answer_for_many_prints(tmp_path: Path, size: tuple[int, int]) -> None:
    prints = small_studio(tmp_path, 3)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(MarkedTest(prints))
        assert "QUAY Q1, QUAY Q2, QUAY Q3" in hands.text()
        await hands.press("y")
        assert hands.results[0] is not None
        await hands.open(MarkedTest(prints))
        await hands.press("right", "s")
        assert hands.results[1] is not None
        tests = [stored.body for stored in hands.app.register.read.all(Test)]
        assert [(test.question, test.method, test.verdict) for test in tests] == [
            ("silver", "sulfide spot", "passed"),
            ("thiosulfate", "silver-nitrate spot", "failed"),
        ]
        assert all(test.covers == tuple(prints) for test in tests)


@both_sizes
async def test_a_test_can_be_written_out(tmp_path: Path, size: tuple[int, int]) -> None:
    prints = small_studio(tmp_path, 2)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(MarkedTest(prints))
        await hands.press("w")
        await hands.choose(
            question="thiosulfate", method="methylene blue", specimen="companion sheet"
        )
        await hands.choose(verdict="passed")
        await hands.put(measured="0.9", criterion="at most 1.0 µg/cm²", criterion_source="ours")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        (test,) = hands.app.register.read.all(Test)
        assert (test.body.question, test.body.method) == ("thiosulfate", "methylene blue")
        assert test.body.measured_ng_per_cm2 == 900
        # the next one is done as this one was
        await hands.open(MarkedTest(prints, "thiosulfate"))
        assert "methylene blue, companion sheet" in hands.text()


@both_sizes
async def test_numbers_follow_the_order_that_is_chosen(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    prints = numbered_studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(NumberPrints("QUAY", [prints[0], prints[2]]))
        # 1 is free, but 2 is not: the lowest place for two is 3
        assert hands.value("first") == "3"
        await hands.go("order")
        await hands.press("J")
        assert [line.split() for line in hands.text().splitlines() if "/25" in line] == [
            ["QUAY", "Q3", "3/25"],
            ["▸QUAY", "Q1", "4/25"],
        ]
        await hands.press("minus", "plus", "ctrl+s")
        assert hands.results, hands.text()
        assert designations(hands, prints) == ["4/25", "2/25", "3/25"]


@both_sizes
async def test_a_signature_is_proposed_as_the_last_one(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    prints = small_studio(tmp_path, 2)
    with Register.open(tmp_path, clock=studios.clock()) as register:
        for number, record in enumerate(prints, 1):
            studios.revise(register, record, designation=f"{number}/25")
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(SignPrints(prints[:1]))
        await hands.put(medium="pencil", where="on the back, lower left")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        await hands.open(SignPrints(prints[1:]))
        assert hands.value("where") == "on the back, lower left"
        assert hands.value("prints") == "QUAY 2/25"
        await hands.press("ctrl+s")
        signature = hands.app.register.read.get(Print, prints[1]).body.signature
        assert signature is not None
        assert signature.medium == "pencil"


@both_sizes
async def test_what_was_done_after_the_wash_is_proposed_as_the_last_time(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    one, two = small_studio(tmp_path, 2)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(FinishPrints([one]))
        await hands.choose(drying="on screens", spotting="dye", trimmed="no")
        await hands.put(mount="none")
        await hands.put(inscription="Slipway", medium="pencil", where="verso")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        await hands.open(FinishPrints([two]))
        assert (hands.value("drying"), hands.value("mount")) == ("on screens", "none")
        assert hands.value("inscription") == "", "words belong to one sheet"
        await hands.put(condition="flat and clean")
        await hands.press("ctrl+s")
        first, second = (held.body for held in hands.app.register.read.all(Finish))
        assert (first.mount, first.trimmed, first.adhesive) == ("", False, None)
        assert first.inscriptions is not None
        assert first.inscriptions[0].text == "Slipway"
        assert (second.drying, second.mount, second.inscriptions) == ("on screens", "", None)
        assert second.condition is not None


@both_sizes
async def test_a_scan_is_found_by_completing_its_name(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    (one,) = small_studio(tmp_path / "studio", 1)
    draw(tmp_path / "scans" / "quay-one.png", (80, 100))
    async with at_the_keyboard(tmp_path / "studio", size) as hands:
        await hands.open(AddScan(one))
        await hands.put(file=f"{tmp_path}/sc")
        await hands.pilot.pause(0.1)
        await hands.press("right")
        await hands.type("q")
        await hands.pilot.pause(0.1)
        await hands.press("right", "tab")
        assert hands.value("file") == f"{tmp_path}/scans/quay-one.png"
        assert "80 × 100 pixels, 8 bit, grey" in hands.text()
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        (scan,) = hands.app.register.read.all(Scan)
        assert scan.body.print == one
        assert (hands.app.folder.images / f"{scan.body.thumbnail_sha256}.jpg").is_file()


async def test_a_file_that_is_no_picture_or_vanished_is_said(tmp_path: Path) -> None:
    (one,) = small_studio(tmp_path / "studio", 1)
    text, gone = tmp_path / "notes.tif", draw(tmp_path / "gone.png")
    text.write_text("not a picture", encoding="utf-8")
    async with at_the_keyboard(tmp_path / "studio") as hands:
        await hands.open(AddScan(one))
        await hands.put(file=str(tmp_path / "nowhere.tif"))
        await hands.press("tab")
        assert "there is no file" in hands.wrong("file")
        await hands.put(file=str(tmp_path))
        await hands.press("tab")
        assert "folder" in hands.wrong("file")
        await hands.put(file=str(text))
        await hands.press("tab")
        assert "notes.tif" in hands.wrong("file").replace("\n", "")
        await hands.put(file=str(gone))
        await hands.press("tab")
        assert hands.wrong("file") == ""
        gone.unlink()
        await hands.press("ctrl+s")
        assert "there is no file" in hands.wrong("file")
        assert hands.value("file") == str(gone)
        assert hands.results == []


@both_sizes
async def test_a_print_that_is_gone(tmp_path: Path, size: tuple[int, int]) -> None:
    (one,) = small_studio(tmp_path, 1)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(RecordGone(one))
        await hands.press("ctrl+s")
        assert "missing" in hands.wrong("how")
        assert "missing" in hands.wrong("why")
        await hands.go("how")
        await hands.press("d")
        await hands.put(why="torn in the press", date="2031-01-01")
        await hands.press("ctrl+s")
        assert hands.wrong("date")
        await hands.put(date="2031-05-01", prints="QUAY Q9")
        await hands.press("ctrl+s")
        assert "no such print" in hands.wrong("prints")
        await hands.put(prints="QUAY Q1")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        body = hands.app.register.read.get(Print, one).body
        assert (body.existence, body.gone_on) == ("destroyed", "2031-05-01")


@both_sizes
async def test_a_release_names_nobody_in_the_journal(tmp_path: Path, size: tuple[int, int]) -> None:
    prints = small_studio(tmp_path, 2)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(ReleasePrints(prints))
        await hands.put(to="Ottoline Farrowby")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        events = hands.app.register.read.all(CustodyEvent)
        assert [event.body.print for event in events] == prints
        party = events[0].body.party
        assert party is not None
        assert Contacts(tmp_path).get(party).name == "Ottoline Farrowby"
    journal = (tmp_path / "register.db").read_bytes()
    assert b"Farrowby" not in journal


@pytest.mark.parametrize(
    ("open_form", "field", "typed", "said"),
    [
        (lambda one: NumberPrints("QUAY", [one]), "first", "seven", "not a designation"),
        (lambda one: NumberPrints("QUAY", [one]), "first", "26", "more than the 25"),
        (lambda one: NumberPrints("QUAY", [one]), "first", "7/30", "declares 25"),
        (lambda one: NumberPrints("QUAY", [one]), "first", "", "missing"),
        (lambda one: SignPrints([one]), "prints", "QUAY Q9", "no such print"),
        (lambda one: SignPrints([one]), "prints", "QUAY Q1", "no number"),
        (lambda one: SignPrints([one]), "prints", "", "missing"),
        (lambda one: SignPrints([one]), "date", "tomorrow", "tomorrow"),
        (lambda one: NewTest([one]), "contact", "a while", "a while"),
        (lambda one: NewTest([one]), "read", "-3", "-3"),
        (lambda one: NewTest([one]), "measured", "much", "much"),
        (lambda one: NewTest([one]), "date", "2032", "still to come"),
        (lambda one: NewTest([one]), "note", "", ""),
        (lambda one: ReleasePrints([one]), "date", "2030-01-01", "before it was printed"),
        (lambda one: ReleasePrints([one]), "prints", "ROPE 1", "ROPE"),
        (lambda one: AddScan(one), "file", "", "missing"),
    ],
)
async def test_what_is_wrong_is_said_at_its_field(
    tmp_path: Path, open_form: object, field: str, typed: str, said: str
) -> None:
    (one,) = small_studio(tmp_path, 1)
    assert callable(open_form)
    async with at_the_keyboard(tmp_path) as hands:
        form: Form = open_form(one)
        await hands.open(form)
        head = hands.app.register.read.head()
        await hands.put(**{field: typed})
        await hands.press("ctrl+s")
        assert hands.results == []
        if said:
            assert said in hands.wrong(field), (hands.wrong(field), hands.text())
        else:
            assert "missing" in hands.wrong("verdict")
        assert hands.value(field).startswith(typed)
        assert hands.app.register.read.head() == head
