"""The dry side: what is on record, papers as curves, a reprint planned, a match decided."""

import re
from pathlib import Path

import pytest

from provenance.model.matching import MatchReport
from provenance.model.readings import Reading, Wedge
from provenance.screens import reads_aside
from provenance.studio import dry_side
from tests.screens.form_app import SIZES
from tests.screens.goldens import agreed
from tests.screens.house import Printer, at_work
from tests.screens.measured import measured
from tests.screens.reading import screen_colours

PAGES: dict[str, tuple[str, ...]] = {
    "dry-side": ("2",),
    "dry-side-negative": ("2", "enter"),
    "dry-side-paper": ("2", "down", "enter"),
    "dry-side-reprint": ("2", "p", "*FB-2", "tab", "*5", "f2"),
    "dry-side-match": ("2", "down", "down", "down", "m", "*QUAY Q1", "f2"),
}
LAST = {"dry-side-paper": "R 110", "dry-side-reprint": "40.7 s"}
"""What a page shows last."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("measured") / "studio"
    measured(folder)
    return folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    measured(tmp_path / "studio")
    return tmp_path / "studio"


async def go(printer: Printer, *keys: str) -> None:
    """Press keys; what begins with a star is typed into the next field."""
    names = {" ": "space", "-": "minus", "/": "slash", ".": "full_stop"}
    for key in keys:
        if key.startswith("*"):
            await printer.press("tab", *(names.get(one, one) for one in key[1:]))
        else:
            await printer.press(key)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
@pytest.mark.parametrize("page", PAGES)
async def test_the_page_is_as_it_was_agreed(made: Path, page: str, size: tuple[int, int]) -> None:
    async with at_work(made, size) as printer:
        await go(printer, *PAGES[page])
        await printer.until(LAST.get(page, ""))
        name = f"{page}-{size[0]}x{size[1]}"
        assert agreed(name, printer.text()), printer.text()
        printer.app.theme = "safelight"
        await printer.settle()
        assert agreed(name, printer.text())
        assert all(re.fullmatch("#..0000", colour) for colour in screen_colours(printer.app))


async def test_a_reprint_is_planned_as_it_is_typed_and_put_on_a_worksheet(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await go(printer, "2", "p")
        assert "name a paper on record" in printer.text()
        await go(printer, "*FB-2", "tab", "*5")
        # 20 s, m 4 to 5, paper slower by 0.15: 40.681 s (handbook of the trade, C)
        await printer.until("40.7 s, ")
        await printer.press("f2")
        await printer.until("densities to reach, dry")
        text = printer.text()
        assert "to match QUAY Q" in text
        assert re.search(r"next best +4: densities off by 0\.\d+", text)
        assert re.search(r"wall +0\.65 ± 0\.0\d, predicted", text)
        await printer.press("p")
        await printer.until("copies where it is")
        (path,) = (folder / "worksheets").iterdir()
        assert path.read_bytes().startswith(b"%PDF")
        await printer.press("y")
        assert printer.app.clipboard == str(path)
        await printer.press("e")
        await printer.until("Plan a reprint")
        assert "FB-2" in printer.text()
        await printer.press("escape", "backspace")
        assert printer.text().startswith(" Dry side")


async def test_a_match_that_fails_says_where_and_is_decided(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await go(printer, "2", *["down"] * 3, "m", "*QUAY Q1", "f2")
        await printer.until("The prints differ at wall.")
        assert re.search(r"B  wall +0\.65  \+0\.070  ± 0\.0\d+ +differs", printer.text())
        assert re.search(r"│ +B +│", printer.text())
        await printer.press("x")
        await printer.put(by="")
        await printer.press("f2")
        assert printer.wrong("by")
        await printer.put(by="the artist", why="too dark")
        await printer.press("f2")
        await printer.until("not accepted by the artist")
        body = printer.studio.register.read.all(MatchReport)[-1].body
        assert (body.outcome, body.accepted, body.differs_at) == ("differs", False, ("wall",))
        assert (body.by, body.why) == ("the artist", "too dark")


async def test_readings_and_wedges_are_entered_as_they_are_read(folder: Path) -> None:
    async with at_work(folder, (120, 40)) as printer:
        await go(printer, "2", *["down"] * 3, "d")
        printer.form.fields["spots"].value = "sky = 0.16; 0.17 @ 60 15\nwall 0.66"
        await printer.press("f2")
        assert "line 2 is no reading" in printer.text()
        printer.form.fields["spots"].value = "sky = 0.16; 0.17 @ 60 15\nwall = 0.66"
        await printer.press("f2")
        await printer.until("Dry side")
        body = printer.studio.register.read.all(Reading)[-1].body
        assert [(one.spot, len(one.tones)) for one in body.patches] == [("sky", 2), ("wall", 1)]
        assert body.how.instrument == "densitometer"
        table = "tablet,density\nunexposed,0.06\n" + "\n".join(
            f"{at / 10:.1f},{2 - 0.38 * at:.2f}" for at in range(5)
        )
        await go(printer, "home", "down", "w")
        await printer.put(grade="3")
        printer.form.fields["readings"].value = f"{table}\nfull,2.05"
        await printer.press("f2")
        await printer.until("2; 4; 3")
        held = printer.studio.register.read.all(Wedge)[-1].body
        assert (held.grade, held.tablet, len(held.steps)) == ("3", "T-1", 5)


async def test_prints_that_were_not_read_cannot_be_held_against_each_other(studio: Path) -> None:
    async with at_work(studio) as printer:
        await go(printer, "2", "m")
        await printer.put(print="QUAY Q7", reference="QUAY Q8")
        await printer.press("f2")
        assert "not on record" in printer.text()
        assert printer.text().startswith(" Match")


async def test_of_many_readings_the_latest_are_listed(
    made: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(dry_side, "LATEST", 1)
    async with at_work(made) as printer:
        await printer.press("2")
        await printer.until("READINGS")
        assert re.search(r"and \d+ more, read earlier", printer.text())
