"""From a folder with nothing in it to a certificate, by keys alone."""

import asyncio
from pathlib import Path
from typing import cast

import pytest
from PIL import Image
from textual import events
from textual.message import Message
from textual.pilot import Pilot

from provenance.model.certificate import Certificate
from provenance.screens.dialogs.welcome import WelcomeApp
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.print_page import PrintPage
from provenance.studio.folder import StudioFolder
from tests import studios
from tests.screens.form_app import SIZES, FormApp, Hands
from tests.screens.house import at_work
from tests.screens.reading import screen_lines

MOST_KEYS = 260
"""How many keys all of it may take, letters of names included."""


class Counted:
    """Presses keys and counts them; fills fields faster than any hand."""

    def __init__(self, hands: Hands) -> None:
        self._hands = hands
        self.count = 0

    async def __call__(self, *keys: str) -> None:
        self.count += len(keys)
        await self._hands.press(*keys)

    async def fill(self, *texts: str) -> None:
        """Type into one field after another; an empty text leaves what is proposed."""
        keys = [key for text in texts for key in (*text, "tab")]
        self.count += len(keys)
        await self._hands.at_once(*keys)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
async def test_from_an_empty_folder_to_a_certificate(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "studio"
    monkeypatch.chdir(tmp_path)
    Image.radial_gradient("L").resize((300, 240)).save("shed.tif")
    welcome = WelcomeApp(StudioFolder(folder), clock=studios.clock())
    async with welcome.run_test(size=size) as pilot:
        keys = Counted(Hands(cast("FormApp", welcome), cast("Pilot[None]", pilot)))
        assert "A new studio" in screen_lines(welcome)[0]
        await keys.fill("Lantern yard", "", "A. Printer")
        await keys("ctrl+s")
        founding = keys.count
    async with at_work(folder, size) as printer:
        keys = Counted(printer)
        await keys("n")
        await keys.fill("Y-1", "Boat shed, evening", "2029-04", "", "SHED", "", "", "Ten prints")
        await keys.fill("10", "2", "", "", "", "24x30", "30.5x40.6")
        await keys("ctrl+s")
        await printer.until("saved: act")
        assert "10 + 2 AP" in printer.line("SHED")

        await keys("2", "n")
        await keys.fill("FB-1", "", "double weight")
        await keys("ctrl+s")
        await printer.until("saved: act")

        # two sheets, all as planned, both spots clear
        await keys("1", "p", "tab", "tab")
        await keys.fill("FB-1", "A. Printer", "2", "", "fibre-split-toned")
        await keys("y", "tab")
        await keys.fill("20")
        await keys("tab", "right", "tab", "right", "ctrl+s")
        await printer.until("saved: act")

        await keys("enter", "space", "space", "n", "ctrl+s")
        await printer.until("2/10")
        await keys("home", "space", "space", "s")
        await keys.fill("pencil", "on the back")
        await keys("ctrl+s")
        await printer.until("signed")
        await keys("home", "enter", "g")
        await keys.fill("shed.tif")
        await keys("ctrl+s")
        await printer.until("saved: act")
        await keys("c", "y")
        await printer.until("issued:")
        assert "certified" in screen_lines(printer.app)[0]
        (issued,) = printer.studio.register.read.all(Certificate)
        assert (folder / "certificates" / issued.body.file_name).read_bytes().startswith(b"%PDF")
        assert founding + keys.count <= MOST_KEYS


async def test_what_is_typed_ahead_of_a_page_waits_until_it_is_laid_out(
    studio: Path, ids: dict[str, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a slow machine, or by a quick hand."""
    usual = PrintPage._dispatch_message

    async def slow(self: PrintPage, message: Message) -> None:
        if isinstance(message, events.Compose):
            await asyncio.sleep(0.3)
        await usual(self, message)

    monkeypatch.setattr(PrintPage, "_dispatch_message", slow)
    async with at_work(studio, SIZES[0]) as printer:
        app = printer.studio
        app.go_to(ids["Q7"])
        assert isinstance(app.screen, PrintPage)
        assert not app.screen.is_mounted
        # a key that reads what is shown
        await app.on_event(events.Key("h", "h"))
        await printer.pilot.pause()
        assert isinstance(app.screen, HistoryPage)
        assert app.fault is None
