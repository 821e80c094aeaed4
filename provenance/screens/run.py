"""Starts the terminal application, and reports how it ended."""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from provenance.records.connection import FILE
from provenance.screens.app import StudioApp
from provenance.screens.dialogs.welcome import WelcomeApp
from provenance.screens.lights import LitApp
from provenance.screens.safelight import DARKEN_TERMINAL, RESTORE_TERMINAL
from provenance.studio.folder import StudioFolder


def run_screens(folder: StudioFolder, *, light: str, mouse: bool) -> int:
    """Run until it is left; 0 when all went well.

    Raises what opening a register raises (Refused, Damaged); what the program
    died of is raised too, once the terminal is as it was.
    """
    for size in ("COLUMNS", "LINES"):
        # a shell that exports its size would keep the screen from following the window
        os.environ.pop(size, None)
    with _own_colours() as darken:

        def run(app: LitApp[None]) -> None:
            darken(app)
            app.run(mouse=mouse)
            # run() returns after a crash as if nothing had happened
            if app.fault is not None:
                raise app.fault

        if not (folder.path / FILE).exists():
            run(WelcomeApp(folder, light=light))
            if not (folder.path / FILE).exists():
                return 0
        run(StudioApp(folder, light=light))
    return 0


@contextmanager
def _own_colours() -> Iterator[Callable[[LitApp[None]], None]]:
    """Gives what darkens the terminal before the first paint of an application in safelight.

    The terminal gets its colours back whatever happens.
    """
    apps: list[LitApp[None]] = []
    begun: list[bool] = []

    def darken(app: LitApp[None]) -> None:
        apps.append(app)
        begun.append(app.darkened)
        if app.darkened:
            _tell_terminal(DARKEN_TERMINAL)

    try:
        yield darken
    finally:
        # a terminal whose colours were never touched keeps what its owner chose
        if any(begun) or any(app.darkened for app in apps):
            _tell_terminal(RESTORE_TERMINAL)


def _tell_terminal(sequence: str) -> None:
    # the stream that the application paints on
    stream = sys.__stderr__
    if stream is not None and stream.isatty():
        stream.write(sequence)
        stream.flush()
