"""The answer about a print: from the desk or its life, to the records and to a letter."""

from pathlib import Path

import pypdf
import pytest

from provenance.screens.places.answer_page import AnswerPage
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.places.print_page import PrintPage
from tests.screens.house import at_work


async def test_from_the_desk_a_question_is_answered_and_leads_to_records(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("6", "a", "Q", "7", "enter")
        await printer.until("Is it toned, and with what?")
        assert isinstance(printer.app.screen, AnswerPage)
        await printer.press("enter")
        assert "No record stands behind this line" in printer.text()
        await printer.press("down", "enter")
        assert isinstance(printer.app.screen, EvidencePage)
        await printer.press("backspace", "o")
        assert isinstance(printer.app.screen, PrintPage)


async def test_one_key_writes_the_letter(
    studio: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    async with at_work(studio) as printer:
        await printer.press("slash", "Q", "7", "enter", "a", "p")
        await printer.until("It names nobody but the artist.")
        await printer.press("f2")
        await printer.until("written, and its path copied")
    (path,) = tmp_path.glob("QUAY 7-25 answer *.pdf")
    assert pypdf.PdfReader(path).pages[0].extract_text().startswith("Answer about a print")
