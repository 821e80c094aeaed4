"""Starts the terminal application, and reports how it ended."""

from provenance.records.connection import FILE
from provenance.screens.app import StudioApp
from provenance.screens.dialogs.welcome import WelcomeApp
from provenance.studio.folder import StudioFolder


def run_screens(folder: StudioFolder, *, light: str, mouse: bool) -> int:
    """Run until it is left; 0 when all went well, 70 after a crash.

    Raises what opening a register raises: Refused, Damaged.
    """
    if not (folder.path / FILE).exists():
        welcome = WelcomeApp(folder)
        welcome.run(mouse=mouse)
        if welcome.return_code or not (folder.path / FILE).exists():
            return welcome.return_code or 0
    app = StudioApp(folder, light=light)
    app.run(mouse=mouse)
    # run() returns after a crash as if nothing had happened; the code tells
    return 70 if app.return_code else 0
