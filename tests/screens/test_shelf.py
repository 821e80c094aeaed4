"""The shelf: gauges and words, an entry with its recall, retiring, labels, red light."""

import re
from pathlib import Path

import pytest

from provenance.model.chemistry import Bath, Stock
from provenance.screens import reads_aside
from provenance.screens.widgets.gauge import WIDTH, gauge, level
from provenance.studio.shelf import retired
from tests.screens.form_app import SIZES
from tests.screens.goldens import agreed
from tests.screens.house import Printer, at_work, behind_its_back
from tests.screens.reading import screen_colours
from tests.screens.stocked import stocked

PAGES = {
    "shelf": ("4",),
    "shelf-tray": ("4", "enter"),
    "shelf-bottle": ("4", "down", "down", "down", "down", "down", "enter"),
    "shelf-mix": ("4", "m", *"thiourea-A, hydroxide-B", "tab", *"20 ml + 80 ml"),
}


@pytest.fixture
def shelf(tmp_path: Path) -> dict[str, int]:
    return stocked(tmp_path / "studio")


@pytest.fixture
def folder(tmp_path: Path, shelf: dict[str, int]) -> Path:
    return tmp_path / "studio"


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
@pytest.mark.parametrize("page", PAGES)
async def test_the_page_is_as_it_was_agreed(folder: Path, page: str, size: tuple[int, int]) -> None:
    async with at_work(folder, size) as printer:
        keys = {" ": "space", ",": "comma", "-": "minus", "+": "plus"}
        await printer.press(*(keys.get(key, key) for key in PAGES[page]))
        if page == "shelf-mix":
            await printer.press("tab", "tab", "1")
        name = f"{page}-{size[0]}x{size[1]}"
        assert agreed(name, printer.text()), printer.text()
        printer.app.theme = "safelight"
        await printer.settle()
        assert agreed(name, printer.text())
        assert all(re.fullmatch("#..0000", colour) for colour in screen_colours(printer.app))


@pytest.mark.parametrize(
    ("share", "bar"),
    [
        (None, "     "),
        (0, "···· "),
        (0.01, "▄··· "),
        (0.5, "▄▄·· "),
        (0.99, "▄▄▄· "),
        (1, "▄▄▄▄ "),
        (1.01, "▄▄▄▄+"),
        (40, "▄▄▄▄+"),
    ],
)
def test_a_gauge_is_full_only_at_its_limit(share: float | None, bar: str) -> None:
    assert gauge(share) == bar
    assert len(bar) == WIDTH


@pytest.mark.parametrize(
    ("share", "bar"), [(0, "···· "), (0.001, "▄··· "), (0.5, "▄▄·· "), (0.98, "▄▄▄▄ ")]
)
def test_a_level_shows_the_last_drop(share: float, bar: str) -> None:
    assert level(share) == bar


async def test_what_a_tray_is_fit_for_is_said_in_words(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await printer.press("4")
        assert "counted in sheets of 20.32 × 25.40 cm" in printer.line("Shelf")
        assert re.search(r"30 d  ▄▄▄▄\+ 14 sheets +past its limit", printer.line("F-1"))
        assert re.search(r"2 d  ····  fresh +6 to 12 more", printer.line("fixC"))
        assert re.search(r"1 sheet +spent", printer.line("thio "))
        assert "0.54 g/L of silver, at worst 1.1; past its limit" in printer.text()
        assert "limit “single”, 0.5 g/L (second-hand)" in printer.text()


async def test_bottles_say_what_is_left_and_when_to_mix_again(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await printer.press("4")
        assert re.search(r"▄▄▄▄      1 L +1 L  2031-05-01  2031-10-28 ", printer.line("thiourea-A"))
        assert re.search(r"▄···   140 ml .* mix soon", printer.line("140 ml"))


async def test_a_tray_opens_with_its_recall_on_both_sides_of_the_limit(
    folder: Path, shelf: dict[str, int]
) -> None:
    async with at_work(folder, (120, 90)) as printer:
        await printer.press("4", "enter")
        text = printer.text()
        places = [
            text.index(words)
            for words in (
                "within the limit",
                "QUAY Q06",
                "perhaps past the limit",
                "QUAY Q12",
                "past the limit, by the usual estimate",
                "QUAY Q13",
                "QUAY 14/25",
            )
        ]
        assert places == sorted(places)
        assert "14 prints, 1 certificate" in text
        assert re.search(r"certificate DR-\d+-.. issued", text)
        assert "“single”, the studio's choice: 0.5 g/L, a single bath, for permanence" in text
        assert text.count("safety data sheet decides") == 1
        assert text.count("Collect fixer by itself") == 1
        while "QUAY 14/25" not in _under_the_cursor(printer):
            await printer.press("down")
        await printer.press("enter")
        assert printer.text().startswith(" QUAY 14/25")


def _under_the_cursor(printer: Printer) -> str:
    return next(line for line in printer.text().splitlines() if "▸" in line)


async def test_a_bottle_opens_with_its_draws_and_its_danger_once(folder: Path) -> None:
    async with at_work(folder, (100, 40)) as printer:
        await printer.press("4", *["down"] * 5, "enter")
        text = printer.text()
        assert printer.line("hydroxide-B").rstrip().endswith("mix soon")
        assert "potassium hydroxide 85 %, 100 g/L" in text
        assert "860 ml for thio, thiourea" in text
        assert text.count("Burns skin and eyes badly (H314)") == 1
        await printer.press("backspace")
        assert printer.text().startswith(" Shelf")


async def test_retiring_asks_why_and_how_and_reminds_of_the_rules(
    folder: Path, shelf: dict[str, int]
) -> None:
    async with at_work(folder) as printer:
        await printer.press("4", "space", *["down"] * 4, "space", "x")
        assert printer.text().startswith(" Retire  F-1, hydroxide-B")
        assert "Collect fixer by itself: it holds silver." in printer.text()
        assert "Local rules decide what may go down a drain" in printer.text()
        await printer.press("f2")
        assert printer.wrong("why")
        await printer.put(why="past its limit", disposed="to the depot")
        await printer.press("f2")
        assert printer.text().startswith(" Shelf")
        assert "F-1" not in printer.text()
        read = printer.studio.register.read
        bath, stock = read.get(Bath, shelf["F-1"]).body, read.get(Stock, shelf["hydroxide-B"]).body
        assert {(one.retired_on, one.retired_why, one.disposed) for one in (bath, stock)} == {
            ("2031-06-01", "past its limit", "to the depot")
        }
        await printer.press("v", "home")
        assert "retired on 2031-06-01: past its limit" in printer.text()
        await printer.press("x")
        assert printer.said() == "F-1 was retired on 2031-06-01."


async def test_labels_go_into_the_studio_folder(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await printer.press("4", *["down"] * 4, "space", "space", "p")
        await printer.until("y copies where they are")
        path = folder / "labels" / "labels-2031-06-01.pdf"
        assert path.read_bytes().startswith(b"%PDF")
        assert str(path) in printer.said()
        assert printer.said().startswith("2 labels")
        await printer.press("y")
        assert printer.app.clipboard == str(path)
        await printer.press("p")
        await printer.until("labels-2031-06-01-2.pdf")
        await printer.press("end", "p")
        assert "Put the cursor on a tray or a bottle" in printer.said()


async def test_an_empty_shelf_says_what_fills_it(tmp_path: Path) -> None:
    from tests import studios

    studios.new_register(tmp_path / "bare").close()
    async with at_work(tmp_path / "bare") as printer:
        await printer.press("4")
        assert "m mixes a bath" in printer.text()
        assert "b mixes one from a formula" in printer.text()
        await printer.press("enter", "space", "x")
        assert "Put the cursor on a tray" in printer.said()


async def test_every_key_of_the_shelf_fits_the_line_of_keys(folder: Path) -> None:
    async with at_work(folder) as printer:
        await printer.press("4")
        keys = printer.text().splitlines()[-1]
        for key in ("space mark", "m bath", "b bottle", "x retire", "p labels", "? help"):
            assert key in keys


async def test_water_is_fit_for_anything_and_says_nothing(folder: Path) -> None:
    async with at_work(folder) as printer:
        await printer.press("4")
        assert printer.line("W-1").split() == ["W-1", "wash", "fresh"]


async def test_of_what_was_thrown_away_the_rest_is_counted(
    folder: Path, shelf: dict[str, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    # read as in a studio that has grown: aside
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(retired, "RETIRED", 0)
    behind_its_back(folder, shelf["F-1"], retired_on="2031-05-31", retired_why="spent")
    async with at_work(folder) as printer:
        await printer.press("4")
        await printer.until("BOTTLES")
        assert "thrown away" not in printer.text()
        await printer.press("v")
        await printer.until("and 1 more, thrown away earlier")
