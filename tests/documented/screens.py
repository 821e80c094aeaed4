"""Draws the screens of docs/screens: python -m tests.documented.screens

They show the demo studio, made anew.
"""

import asyncio
import os
import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from provenance.screens.app import StudioApp
from provenance.studio.demo import run_demo
from provenance.studio.folder import StudioFolder
from tests.documented.svg import draw
from tests.screens.reading import strips

FOLDER = Path(__file__).parents[2] / "docs" / "screens"
SMALL, LARGE = (80, 24), (120, 40)


@dataclass(frozen=True)
class Shot:
    """One picture: how to come to the page, in which light, at which size."""

    name: str
    keys: tuple[str, ...] = ()
    light: str = "day"
    size: tuple[int, int] = SMALL


_PRINT = ("enter", *["down"] * 8, "enter")
_EVIDENCE = (*_PRINT, "end", *["up"] * 5, "enter")
SHOTS = (
    Shot("editions"),
    Shot("edition", ("enter", "space", "space")),
    Shot("print", _PRINT),
    Shot("statement", (*_PRINT, "end")),
    Shot("evidence", _EVIDENCE),
    Shot("history", (*_PRINT, "h")),
    Shot("dry-side", ("2",)),
    Shot("paper", ("2", *["down"] * 4, "enter")),
    Shot("reprint-large", ("2", *["down"] * 2, "p", "tab", *"FB-8841", "f2"), size=LARGE),
    Shot("match-large", ("2", "end", "up", "enter"), size=LARGE),
    Shot("reprint-safelight", ("2", *["down"] * 2, "p", "tab", *"FB-8841", "f2"), "safelight"),
    Shot("wet-side", ("3",)),
    Shot("shelf", ("4",)),
    Shot("finishing", ("5", "right", "down", "space")),
    Shot("desk", ("6", "space", "down", "space")),
    Shot("custody", ("6", "space", "k")),
    Shot("disclosure", ("6", "left", "enter")),
    Shot("edition-list", ("enter", "e")),
    Shot("heirs-page-dark-large", ("enter", "i"), light="dark", size=LARGE),
    Shot("answer", (*_PRINT, "a")),
    Shot("printing", ("p",)),
    Shot("new-edition", ("n",)),
    Shot("test", ("5", "enter")),
    Shot("test-in-full", ("5", "enter", "w", "f7")),
    Shot("after-the-wash", (*_PRINT, "f")),
    Shot("numbers", ("5", "down", "down", "down", "enter")),
    Shot("signature", (*_PRINT, "s")),
    Shot("mix-a-bath", ("4", "m", *"thiourea-A, hydroxide-B")),
    Shot("tray", ("4", "enter")),
    Shot("find", ("slash", *"qua")),
    Shot("help", ("enter", "question_mark")),
    Shot("editions-dark", light="dark"),
    Shot("print-large", _PRINT, size=LARGE),
    Shot("edition-dark-large", ("enter", *["down"] * 8), light="dark", size=LARGE),
    Shot("editions-safelight", light="safelight"),
    Shot("print-safelight-large", _PRINT, light="safelight", size=LARGE),
    # a run is on record from here on, and the screen turns red by itself
    Shot("new-run", ("3", "n")),
    Shot("run", ("3", "n", "f2")),
)


@asynccontextmanager
async def opened(folder: StudioFolder, shot: Shot) -> AsyncIterator[Pilot[Any]]:
    """The application on the page of a shot."""
    app = StudioApp(folder, light=shot.light)
    async with app.run_test(size=shot.size) as pilot:
        for key in shot.keys:
            await pilot.press(key)
        # pictures are read and scaled aside
        await pilot.pause(0.5)
        yield pilot


async def draw_all(folder: StudioFolder) -> None:
    """Draw all of them."""
    FOLDER.mkdir(exist_ok=True)
    for shot in SHOTS:
        async with opened(folder, shot) as pilot:
            ground = pilot.app.screen.background_colors[1].hex.lower()
            svg = draw(strips(pilot.app), shot.size[0], ground)
        (FOLDER / f"{shot.name}.svg").write_text(svg, encoding="utf-8")


def main() -> None:
    """Make the demo studio and draw."""
    os.environ.update(TERM="xterm-256color", COLORTERM="truecolor")
    with tempfile.TemporaryDirectory() as scratch:
        folder = StudioFolder(Path(scratch) / "studio")
        run_demo(folder, lambda _text: None)
        asyncio.run(draw_all(folder))


if __name__ == "__main__":
    main()
