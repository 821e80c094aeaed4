"""A print's life, its statement, the way to the evidence and back, and its certificate."""

from pathlib import Path

import pytest

from provenance.model.certificate import Certificate
from provenance.screens.widgets.line_list import LineList
from tests.screens.form_app import SIZES
from tests.screens.house import Printer, at_work
from tests.screens.reading import screen_lines

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


async def to_the_print(printer: Printer, mark: str) -> None:
    """Find a print by the mark on its back."""
    await printer.press("slash", *mark, "enter")
    assert f"back: {mark}" in screen_lines(printer.app)[0]


@both_sizes
async def test_a_life_has_its_days_baths_by_stage_and_standings(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        await to_the_print(printer, "Q7")
        lines = [line.strip(" ▸") for line in screen_lines(printer.app)]
        fixed = next(line for line in lines if line.startswith("fix 5:00, fix 5:00"))
        washed = next(line for line in lines if line.startswith("wash 5:00"))
        assert "  later: notes" in fixed
        assert lines.index(fixed) < lines.index(washed)
        assert sum(line.startswith("2031-03-02") for line in lines) == 1


async def test_the_line_of_a_stage_leads_to_all_its_records(studio: Path) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q7")
        listed = printer.app.screen.query_one(LineList)
        while not (listed.current and listed.current.text.startswith("fix")):
            await printer.press("down")
        await printer.press("enter")
        text = printer.text()
        assert "F-1" in text
        await printer.press("end")
        assert "F-2" in printer.text()


@both_sizes
async def test_every_sentence_leads_to_its_evidence_and_back(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        await to_the_print(printer, "Q7")
        listed = printer.app.screen.query_one(LineList)
        claims = [line for line in listed.lines if line.wide and line.records]
        assert claims
        await printer.press("end")
        while listed.current is not claims[-1]:
            await printer.press("up")
        await printer.press("enter")
        assert screen_lines(printer.app)[0].startswith(" Evidence")
        assert claims[-1].text.split()[0] in printer.text()
        await printer.press("backspace")
        assert listed.current == claims[-1]


async def test_a_gap_says_that_nothing_stands_behind_it(studio: Path) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q7")
        listed = printer.app.screen.query_one(LineList)
        gaps = [line for line in listed.lines if line.right == "not on record"]
        while listed.current not in gaps:
            await printer.press("down")
        before = printer.said()
        await printer.press("enter")
        assert (before, "No record stands behind" in printer.said()) == ("", True)
        await printer.press("down")
        assert printer.said() == ""


@both_sizes
async def test_a_certificate_is_issued_once_it_may_be(
    studio: Path, size: tuple[int, int], ids: dict[str, int]
) -> None:
    async with at_work(studio, size) as printer:
        await to_the_print(printer, "Q7")
        await printer.press("c")
        assert "Issue a certificate" in printer.text()
        await printer.press("n")
        assert not printer.studio.register.read.linked(ids["Q7"], Certificate, "print")
        await printer.press("c", "y")
        await printer.until("issued:")
        (issued,) = printer.studio.register.read.linked(ids["Q7"], Certificate, "print")
        assert (studio / "certificates" / issued.body.file_name).read_bytes().startswith(b"%PDF")
        assert "certified" in screen_lines(printer.app)[0]
        await printer.press("c")
        assert "is in force for it" in printer.said()


async def test_what_stands_against_a_certificate_names_the_key_that_mends_it(studio: Path) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q8")
        await printer.press("c")
        said = printer.said()
        for what in ("no number; n mends", "not signed; s mends", "no picture of it; g mends"):
            assert what in said
        await printer.press("n")
        assert screen_lines(printer.app)[0].startswith(" Numbers")


async def test_the_path_of_the_certificate_is_copied_through_the_terminal(studio: Path) -> None:
    async with at_work(studio) as printer:
        await to_the_print(printer, "Q8")
        await printer.press("y")
        assert "no certificate in force" in printer.said()
        await printer.press("escape")
        await to_the_print(printer, "Q11")
        await printer.press("y")
        name = printer.studio.clipboard
        assert Path(name).parent == studio / "certificates"
        assert name in printer.said().replace("\n", "")
