"""What is broken is said on the page, and the application goes on as far as it can."""

import sqlite3
from pathlib import Path

import pytest

from provenance.records.register import Register
from provenance.studio.settings import read_settings
from tests.screens.house import at_work
from tests.screens.reading import screen_lines


async def test_a_register_that_is_deleted_while_open_is_said_and_nothing_is_written(
    studio: Path,
) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "n")
        (studio / "register.db").rename(studio / "elsewhere.db")
        await printer.press("ctrl+s")
        await printer.until("moved or deleted")
        assert printer.value("first")
        # once the file is back, nothing is lost
        (studio / "elsewhere.db").rename(studio / "register.db")
        await printer.press("ctrl+s")
        await printer.until("saved: act")


async def test_a_register_that_is_deleted_is_said_without_a_key(studio: Path) -> None:
    async with at_work(studio) as printer:
        (studio / "register.db").rename(studio / "elsewhere.db")
        await printer.until("moved or deleted")
        await printer.press("5")
        assert screen_lines(printer.app)[0].startswith(" Finishing")
        await printer.until("moved or deleted")


async def test_a_register_that_is_damaged_while_open_is_said_and_every_page_answers(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work(studio) as printer:

        def broken(*_given: object) -> None:
            error = sqlite3.DatabaseError("database disk image is malformed")
            error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
            raise error

        monkeypatch.setattr("provenance.records.reader.Reader.find", broken)
        # which asks the view alone
        monkeypatch.setattr("provenance.screens.places.finishing.read_owed", broken)
        for key in ("2", "4", "5", "6"):
            await printer.press(key)
            await printer.until("the register is damaged")
        monkeypatch.undo()
        await printer.press("2")
        await printer.press("4")
        assert "F-1" in printer.text()


@pytest.mark.parametrize("how", ["zeroed", "cut off"])
async def test_a_file_that_is_spoiled_under_the_open_register(studio: Path, how: str) -> None:
    async with at_work(studio) as printer:
        register = studio / "register.db"
        with register.open("r+b") as file:
            if how == "zeroed":
                file.seek(4096)
                file.write(bytes(register.stat().st_size - 4096))
            else:
                file.truncate(8192)
        # pages, forms and searches: each says it, none dies
        for keys in (("5",), ("6",), ("2", "n"), ("4", "n"), ("1", "n"), ("1", "p")):
            await printer.press(*keys)
            assert printer.app.is_running
            await printer.press("escape")
        await printer.press("6")
        await printer.until("the register is damaged")
        await printer.press("q")
        assert printer.app.return_code == 0


async def test_a_page_outlives_what_its_handler_was_refused(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter")
        with Register.open(studio, clock=printer.studio.register.clock) as other:
            other.read.connection.execute("UPDATE record SET live = 0 WHERE id = ?", (ids["Q8"],))
            other.read.connection.commit()
        await printer.until("no print with this id")
        await printer.press("n")
        await printer.until("no print with this id")
        await printer.press("escape")
        assert screen_lines(printer.app)[0].startswith(" Editions")


async def test_a_thumbnail_that_is_gone_is_said_where_it_would_be(studio: Path) -> None:
    for thumbnail in (studio / "images").rglob("*.jpg"):
        thumbnail.unlink()
    async with at_work(studio, (120, 40)) as printer:
        await printer.press("enter", "enter")
        await printer.until("no picture to show")


async def test_a_scan_that_vanished_is_said_at_its_field(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "g")
        await printer.put(file="gone.tif")
        await printer.press("ctrl+s")
        assert "there is no file" in printer.wrong("file")


async def test_a_folder_that_cannot_be_written_to_is_said(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "n")

        def full(*_given: object) -> None:
            error = sqlite3.OperationalError("database or disk is full")
            error.sqlite_errorcode = sqlite3.SQLITE_FULL
            raise error

        with monkeypatch.context() as patch:
            patch.setattr("provenance.records.act.Act.finish", full)
            await printer.press("ctrl+s")
            await printer.until("the disk is full")
        assert printer.value("first")
        await printer.press("ctrl+s")
        await printer.until("saved: act")


async def test_settings_that_cannot_be_read_are_refused_before_the_screen(studio: Path) -> None:
    from provenance.errors import Refused
    from provenance.screens.app import StudioApp
    from provenance.studio.folder import StudioFolder

    (studio / "settings.toml").write_text('[keys]\nnumber = "t"\n', encoding="utf-8")
    assert read_settings(StudioFolder(studio)).keys == {"number": "t"}
    with pytest.raises(Refused, match="taken by test"):
        StudioApp(StudioFolder(studio))
