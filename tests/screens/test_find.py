import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.app import App
from textual.pilot import Pilot
from textual.widgets import Input

from provenance.model.check_characters import with_check_characters
from provenance.records.register import Register
from provenance.screens.dialogs.find import Find
from provenance.screens.theme import LIGHTS
from provenance.screens.widgets.record_table import RecordTable
from provenance.studio import finding
from tests.screens.reading import line_widths, screen_lines, screen_text
from tests.studios import certificate, enter, furnish, new_register, revise, sheet, signature

NOTHING_YET = object()


class Asking(App[None]):
    """Asks once, and keeps the answer."""

    def __init__(self, register: Register) -> None:
        super().__init__()
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = "day"
        self.register = register
        self.answer: object = NOTHING_YET

    def on_mount(self) -> None:
        self.push_screen(Find(), self.take)

    def take(self, answer: int | None) -> None:
        self.answer = answer


class Studio:
    """Two prints, the first with a certificate."""

    def __init__(self, folder: Path) -> None:
        self.register = new_register(folder)
        with self.register.act("printer") as act:
            self.shelf = furnish(act)
        self.first = enter(self.register, sheet(self.shelf, "Q7", designation="7/25"))
        self.second = enter(self.register, sheet(self.shelf, "Q8", designation="8/25"))
        revise(self.register, self.first, signature=signature())
        self.number = with_check_characters("DR-2031-0007")
        self.certificate = enter(
            self.register, certificate(self.register, self.first, b"", number=self.number)
        )


@asynccontextmanager
async def asked(
    studio: Studio, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[tuple[Asking, Pilot[None]]]:
    app = Asking(studio.register)
    try:
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            yield app, pilot
    finally:
        studio.register.close()


async def type_in(pilot: Pilot[None], text: str) -> None:
    await pilot.press(*("space" if letter == " " else letter for letter in text))
    await settle(pilot)


async def settle(pilot: Pilot[None]) -> None:
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_one_letter_finds_across_all_kinds(tmp_path: Path, size: tuple[int, int]) -> None:
    async with asked(Studio(tmp_path), size) as (app, pilot):
        await type_in(pilot, "q")
        lines = screen_lines(app)
        assert lines[0] == " Find"
        assert lines[2] == "  q"
        assert lines[4].split() == ["KIND", "NAME", "ABOUT"]
        kinds = {line[2:].split()[0] for line in lines[5:] if line[1:2] in ("▸", " ") and line[2:3]}
        assert {"edition", "print"} <= kinds
        assert lines[-1] == " enter open   up down choose   esc leave"
        assert line_widths(app) == {size[0]}


async def test_enter_opens_the_best_and_arrows_choose(tmp_path: Path) -> None:
    studio = Studio(tmp_path)
    async with asked(studio) as (app, pilot):
        await type_in(pilot, "QUAY 8/25")
        await pilot.press("enter")
        assert app.answer == studio.second
    studio = Studio(tmp_path / "other")
    async with asked(studio) as (app, pilot):
        await type_in(pilot, "Quay 25")
        found = list(finding.look_up(studio.register.read, "Quay 25").ids)
        await pilot.press("down", "enter")
        assert app.answer == found[1]


async def test_escape_leaves_without_an_answer(tmp_path: Path) -> None:
    async with asked(Studio(tmp_path)) as (app, pilot):
        await type_in(pilot, "quay")
        await pilot.press("escape")
        assert app.answer is None


async def test_enter_on_nothing_stays(tmp_path: Path) -> None:
    async with asked(Studio(tmp_path)) as (app, pilot):
        await pilot.press("enter")
        await type_in(pilot, "zzz")
        assert "nothing here holds “zzz”" in screen_text(app)
        await pilot.press("enter", "down")
        assert app.answer is NOTHING_YET
        assert isinstance(app.screen, Find)


async def test_more_letters_bring_the_cursor_back_to_the_best(tmp_path: Path) -> None:
    async with asked(Studio(tmp_path)) as (app, pilot):
        await type_in(pilot, "q")
        await pilot.press("down", "down")
        await type_in(pilot, "u")
        assert screen_lines(app)[5].startswith(" ▸")


async def test_a_mistyped_certificate_offers_the_near_one(tmp_path: Path) -> None:
    studio = Studio(tmp_path)
    async with asked(studio) as (app, pilot):
        typed = studio.number.replace("07-", "70-")
        app.screen.query_one(Input).value = typed
        await settle(pilot)
        text = screen_text(app)
        assert "one slip away from it is this one" in text
        assert studio.number in text
        await pilot.press("enter")
        assert app.answer == studio.certificate


@pytest.mark.parametrize(
    "typed",
    ['"', '"a', "*", "NEAR(a b)", "words: q", "-", "q AND", "NOT", "(", "'; --", "^", "[b]"],
)
async def test_the_query_language_is_harmless(tmp_path: Path, typed: str) -> None:
    async with asked(Studio(tmp_path)) as (app, pilot):
        await type_in(pilot, "q")
        app.screen.query_one(Input).value = typed
        await settle(pilot)
        assert not app.screen.query_one(RecordTable).busy
        assert screen_lines(app)[2] == f"  {typed}"
        app.screen.query_one(Input).value = "QUAY 7/25"
        await settle(pilot)
        assert "QUAY 7/25" in screen_lines(app)[5]


async def test_enter_waits_for_the_last_letter_in_a_large_register(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(finding, "SMALL", 0)
    studio = Studio(tmp_path)
    async with asked(studio) as (app, pilot):
        # no pause between the keys: what was found for QUAY alone must not be opened
        for letter in "QUAY Q8":
            app.screen.query_one(Input).insert_text_at_cursor(letter)
        await pilot.press("enter")
        for _ in range(100):
            if app.answer is not NOTHING_YET:
                break
            await asyncio.sleep(0.05)
        assert app.answer == studio.second
