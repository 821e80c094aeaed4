"""What has grown beyond a screen is shown in part and counted."""

import re
from pathlib import Path

import pytest

from provenance.records.register import Register
from provenance.screens import reads_aside
from provenance.screens.places import entry_lines, roll_page
from tests import studios
from tests.screens.house import at_work
from tests.screens.stocked import stocked


async def test_of_a_large_edition_the_first_cells_are_shown_and_the_rest_counted(
    studio: Path,
) -> None:
    with Register.open(studio, clock=studios.clock()) as register, register.act("printer") as act:
        negative = act.enter(studios.negative(code="N-2", title="Rope"))
        act.enter(studios.edition(negative, code="ALONG", name="Rope", numbered=300))
    async with at_work(studio) as printer:
        await printer.press("home")
        lines = [line.strip() for line in printer.text().splitlines()]
        cells = [line for line in lines if re.match(r"\d+ ·", line)]
        shown = sum(line.count("·") for line in cells)
        assert f"and {300 - shown} more: {300 - shown} ·" in lines
        # the proofs and the legend have room below
        assert any(line.startswith("AP I") for line in lines)
        assert any(line.startswith("· not made") for line in lines)


async def test_of_many_sheets_that_met_a_bath_the_last_of_each_side_are_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(entry_lines, "MET", 2)
    stocked(tmp_path / "studio")
    async with at_work(tmp_path / "studio", (120, 90)) as printer:
        await printer.press("4")
        await printer.until("TRAYS")
        await printer.press("enter")
        await printer.until("14 prints, 1 certificate")
        text = printer.text()
        assert "4 before these: provenance recall F-1" in text
        listed = re.findall(r"QUAY (\S+)", text[text.index("what met it") :])
        assert listed == ["Q05", "Q06", "Q11", "Q12", "Q13", "14/25"]


async def test_of_a_long_list_the_beginning_is_shown(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(roll_page, "LINES", 5)
    async with at_work(studio, (80, 40)) as printer:
        await printer.press("enter", "e")
        await printer.until(roll_page.LEFT_OUT)
        assert "for anybody" in printer.text()
