"""Pages of a fixed studio, as text, at two sizes; safelight shows the same in red."""

import re
from pathlib import Path

import pytest

from tests.screens.form_app import SIZES
from tests.screens.goldens import agreed
from tests.screens.house import at_work
from tests.screens.reading import screen_colours

PAGES: dict[str, tuple[str, ...]] = {
    "editions": (),
    "edition": ("enter", "down", "space"),
    "print": ("slash", "Q", "7", "enter"),
    "evidence": ("slash", "Q", "7", "enter", "down", "down", "down", "enter"),
    "history": ("slash", "Q", "1", "1", "enter", "h"),
    "finishing": ("5", "down", "right", "down", "space"),
    "refused": ("slash", "Q", "8", "enter", "c"),
    "question": ("slash", "Q", "7", "enter", "c"),
    "desk": ("6", "space"),
    "desk-certificates": ("6", "right"),
    "custody": ("6", "k"),
    "disclosure": ("6", "right", "right", "enter"),
    "answer": ("slash", "Q", "7", "enter", "a"),
    "edition-list": ("enter", "e"),
    "heirs-page": ("6", "i"),
}

LAST = {"refused": "mends that", "question": "issue it"}
"""What a page shows last."""


def without_digests(text: str) -> str:
    """The screen without figures that change with every field that a record gains."""
    return re.sub(r"[0-9a-f]{4}( [0-9a-f]{4}){2,}", lambda found: "." * len(found[0]), text)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
@pytest.mark.parametrize("page", PAGES)
async def test_the_page_is_as_it_was_agreed(studio: Path, page: str, size: tuple[int, int]) -> None:
    async with at_work(studio, size) as printer:
        await printer.press(*PAGES[page])
        if size[0] >= 100 and page == "print":
            await printer.until("▀▀")
        await printer.until(LAST.get(page, ""))
        name = f"{page}-{size[0]}x{size[1]}"
        assert agreed(name, without_digests(printer.text())), printer.text()
        printer.app.theme = "safelight"
        await printer.settle()
        assert agreed(name, without_digests(printer.text()))
        assert all(re.fullmatch("#..0000", colour) for colour in screen_colours(printer.app))
