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
            with _painting_alone():
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


@contextmanager
def _painting_alone() -> Iterator[None]:
    """Let nothing but the application write where it paints.

    A library written in C that complains of a spoiled picture would do so
    across the screen, and in any colour.
    """
    usual = sys.__stderr__
    if usual is None or not usual.isatty():
        yield
        return
    place = usual.fileno()
    kept = os.dup(place)
    with os.fdopen(kept, "w", encoding=usual.encoding, errors=usual.errors) as painted:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, place)
        os.close(nowhere)
        sys.__stderr__ = painted  # type: ignore[misc]
        try:
            yield
        finally:
            painted.flush()
            os.dup2(kept, place)
            sys.__stderr__ = usual  # type: ignore[misc]


def _tell_terminal(sequence: str) -> None:
    # the stream that the application paints on
    stream = sys.__stderr__
    if stream is not None and stream.isatty():
        stream.write(sequence)
        stream.flush()
