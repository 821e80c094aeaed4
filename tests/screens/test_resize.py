"""A terminal of any size, even one that is hardly there."""

from pathlib import Path

import pytest

from tests.screens.house import at_work
from tests.screens.reading import line_widths, screen_lines

SMALL = [(59, 15), (20, 5), (10, 3), (1, 1)]


@pytest.mark.parametrize("small", SMALL, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_every_page_lives_through_it(studio: Path, small: tuple[int, int]) -> None:
    async with at_work(studio) as printer:
        for keys in ("enter", "enter", "5", "question_mark"):
            await printer.press(keys)
            before = printer.text()
            await printer.pilot.resize_terminal(*small)
            await printer.press("down", "up")
            assert line_widths(printer.app) <= {small[0]}
            await printer.pilot.resize_terminal(80, 24)
            await printer.press("home")
            assert screen_lines(printer.app)[0] == before.splitlines()[0]


async def test_a_small_window_is_said_and_still_works(studio: Path) -> None:
    async with at_work(studio, (50, 12)) as printer:
        assert "60 by 16 shows more" in printer.text()
        await printer.press("5")
        assert screen_lines(printer.app)[0].startswith(" Finishing")
        assert "residual-silver" in printer.text()


async def test_what_is_typed_survives(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "n")
        await printer.put(first="9")
        for size in ((10, 3), (20, 5), (200, 60), (80, 24)):
            await printer.pilot.resize_terminal(*size)
            await printer.settle()
        assert printer.value("first") == "9"
        await printer.press("ctrl+s")
        await printer.until("saved: act")


async def test_the_picture_stands_beside_only_where_there_is_room(studio: Path) -> None:
    async with at_work(studio, (80, 24)) as printer:
        await printer.press("enter", "enter")
        assert "▀▀" not in printer.text()
        await printer.pilot.resize_terminal(120, 40)
        await printer.until("▀▀")
