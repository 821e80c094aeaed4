"""The first start: a studio is founded by keys, or refused with reasons."""

import shutil
from pathlib import Path

import pytest

from provenance.model.studio import Studio
from provenance.records.register import Register
from provenance.screens.dialogs.welcome import Welcome, WelcomeApp
from provenance.screens.widgets.half_filled_form import PAUSE_S
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings, read_settings
from tests import studios
from tests.screens.form_app import SIZES
from tests.screens.reading import screen_text

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


def fields(app: WelcomeApp) -> Welcome:
    """The form that is open."""
    assert isinstance(app.screen, Welcome)
    return app.screen


@both_sizes
async def test_a_studio_is_founded(tmp_path: Path, size: tuple[int, int]) -> None:
    folder = StudioFolder(tmp_path / "studio")
    app = WelcomeApp(folder, clock=studios.clock())
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        assert str(folder.path)[:40] in screen_text(app)
        await pilot.press(*"Studio Lantern Quay", "tab")
        await pilot.pause()
        assert fields(app).value("mark") == "LQ"
        await pilot.press(
            "tab", *"A. Printer", "tab", "tab", "tab", "i", "tab", "l", "tab", "right"
        )
        await pilot.press("ctrl+s")
        for _ in range(200):
            await pilot.pause(0.02)
            if app.return_value is None and not app.is_running:
                break
    with Register.open(folder.path) as register:
        studio = register.read.get(Studio, 1).body
    assert (studio.name, studio.artist, studio.mark) == ("Studio Lantern Quay", "A. Printer", "LQ")
    assert read_settings(folder) == Settings(units="inch", page="letter", colon_dilution="parts")
    assert folder.images.is_dir()


async def test_what_is_missing_is_said_at_its_field(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "studio")
    app = WelcomeApp(folder, clock=studios.clock())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press(*"Quay", "tab", *"lower7", "ctrl+s")
        await pilot.pause(0.3)
        form = fields(app)
        assert "missing" in form.fields["artist"].wrong
        await pilot.press(*"A. Printer")
        form.fields["who"].value = "<nobody>"
        form.fields["mark"].value = "lower7"
        await pilot.press("ctrl+s")
        await pilot.pause(0.3)
        assert "capital letters" in form.fields["mark"].wrong or (
            "who did it" in form.fields["who"].wrong
        )
        assert form.value("name") == "Quay"
        assert not (folder.path / "register.db").exists()
        assert not folder.settings.exists()


async def test_a_half_filled_welcome_survives_a_kill(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "studio")
    app = WelcomeApp(folder, clock=studios.clock())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press(*"Studio Lantern Quay")
        await pilot.pause(PAUSE_S * 1.5)
        shutil.copytree(folder.path, tmp_path / "killed")
    again = WelcomeApp(StudioFolder(tmp_path / "killed"), clock=studios.clock())
    async with again.run_test(size=(80, 24)) as pilot:
        await pilot.pause(0.2)
        assert "half-filled" in screen_text(again)
        await pilot.press("y")
        await pilot.pause()
        assert fields(again).value("name") == "Studio Lantern Quay"
