"""The six places: each by one key, its list under the cursor at once, its keys on one line."""

from pathlib import Path

import pytest
from rich.cells import cell_len

from tests.screens.form_app import SIZES
from tests.screens.house import at_work
from tests.screens.reading import line_widths, screen_lines

PLACES = {
    "1": "Editions",
    "2": "Dry side",
    "3": "Wet side",
    "4": "Shelf",
    "5": "Finishing",
    "6": "Desk",
}
both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


@both_sizes
async def test_each_place_is_one_key_away(studio: Path, size: tuple[int, int]) -> None:
    async with at_work(studio, size) as printer:
        for key, name in PLACES.items():
            await printer.press(key)
            lines = screen_lines(printer.app)
            assert lines[0].startswith(f" {name}")
            assert "1-6 places" in lines[-1]
            assert line_widths(printer.app) == {size[0]}


@both_sizes
async def test_the_line_of_keys_fits_and_ends_with_help(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        for keys in (*PLACES, "1 enter", "enter", "enter"):
            await printer.press(*keys.split())
            line = screen_lines(printer.app)[-1]
            assert line.endswith("1-6 places")
            assert cell_len(line) <= size[0] - 1
            named = line.removesuffix("1-6 places").split("   ")
            assert len([one for one in named if one.strip()]) <= 6
            assert "? help" in line


@both_sizes
async def test_every_place_can_be_walked_at_once(studio: Path, size: tuple[int, int]) -> None:
    async with at_work(studio, size) as printer:
        for key in PLACES:
            await printer.press(key)
            assert printer.app.focused is not None
            assert sum("▸" in line for line in screen_lines(printer.app)) == 1


async def test_a_studio_with_nothing_in_it_says_what_to_do(tmp_path: Path) -> None:
    from tests import studios

    studios.new_register(tmp_path).close()
    async with at_work(tmp_path) as printer:
        assert "n enters the first one" in printer.text()
        # nothing that needs an edition is offered
        assert screen_lines(printer.app)[-1] == " n new   / find   ? help   1-6 places"
        for key in PLACES:
            await printer.press(key)
            assert screen_lines(printer.app)[0].startswith(f" {PLACES[key]}")
        await printer.press("5")
        assert "Nothing is owed." in printer.text()


async def test_escape_leads_back_and_never_out(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("enter", "enter", "enter")
        assert "Evidence" in printer.text()
        titles = []
        for _ in range(5):
            await printer.press("escape")
            titles.append(screen_lines(printer.app)[0].split()[0])
        assert titles == ["QUAY", "QUAY", "Editions", "Editions", "Editions"]
        assert printer.app.is_running


async def test_a_record_opens_from_its_list(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("6", "right", "enter")
        assert "certificate DR-" in printer.text()
        await printer.press("h")
        assert screen_lines(printer.app)[0].startswith(" History")
        assert "entered by printer" in printer.text()
        await printer.press("backspace", "backspace")
        assert screen_lines(printer.app)[0].startswith(" Desk")


async def test_history_says_what_changed_in_plain_words(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q11", "enter", "h")
        text = printer.text()
        assert "40.6 × 30.5 cm" not in text  # the builder's sheet is 30.5 x 40.6
        assert "30.5 × 40.6 cm" in text
        assert "tenth" not in text
        assert "11/25" in text


async def test_help_gives_the_keys_of_the_page_and_the_words(studio: Path) -> None:
    async with at_work(studio, (120, 60)) as printer:
        await printer.press("enter", "question_mark")
        text = printer.text()
        assert "Number the marked prints" in text
        assert "Enter a new edition" not in text
        await printer.press("end")
        assert "spoiled, destroyed or lost" in printer.text()
        await printer.press("escape")
        assert screen_lines(printer.app)[0].startswith(" QUAY")


async def test_commands_are_found_by_their_words_and_done(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("ctrl+p")
        assert screen_lines(printer.app)[0].startswith(" Commands")
        await printer.press(*"owes", "enter")
        assert screen_lines(printer.app)[0].startswith(" Finishing")
        await printer.press("ctrl+p", *"zzz", "enter")
        assert screen_lines(printer.app)[0].startswith(" Commands")
        await printer.press("escape")
        assert screen_lines(printer.app)[0].startswith(" Finishing")
