"""A studio to walk through, and a person at the keyboard of the whole application."""

import asyncio
import shutil
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from textual.pilot import Pilot

from provenance.records.register import Register
from provenance.screens.app import StudioApp
from provenance.studio.folder import StudioFolder
from tests import studios
from tests.screens.form_app import FormApp, Hands
from tests.screens.reading import screen_text
from tests.studio.finished import desk, picture

PATIENCE_S = 10.0
_BUILT: dict[Path, dict[str, int]] = {}


def build(path: Path) -> dict[str, int]:
    """Five prints, one in each state that matters; their ids by the mark on the back."""
    held = desk(path)
    register, shelf = held.register, held.shelf
    ids = {"Q7": held.print}
    with register.act(studios.WHO) as act:
        for mark in ("Q8", "Q9", "Q10", "Q11"):
            ids[mark] = act.enter(studios.sheet(shelf, mark))
        both = ids["Q8"], ids["Q9"]
        act.enter(studios.step(shelf, *both, place=1))
        act.enter(studios.step(shelf, *both, place=2, role="wash", bath=shelf.wash))
        act.enter(studios.silver_test(ids["Q8"], place=4, reading="no stain"))
    gone = {"existence": "spoiled", "gone_on": studios.PRINTED_ON, "gone_why": "creased"}
    studios.revise(register, ids["Q10"], **gone)
    studios.revise(
        register, ids["Q11"], designation="11/25", signature=studios.signature(where="front")
    )
    studios.enter(register, studios.scan(ids["Q11"], picture()))
    studios.enter(register, studios.certificate(register, ids["Q11"], b"%PDF-"))
    register.close()
    return ids


def house(path: Path, built: Path) -> dict[str, int]:
    """A copy of the studio in `path`; it is built once, in `built`."""
    if built not in _BUILT:
        _BUILT[built] = build(built)
    shutil.copytree(built, path)
    return _BUILT[built]


@dataclass
class Printer(Hands):
    """Somebody who uses the application."""

    @property
    def studio(self) -> StudioApp:
        """The application."""
        return cast("StudioApp", self.app)

    async def until(self, text: str) -> None:
        """Wait for words on the screen."""
        for _ in range(int(PATIENCE_S / 0.02)):
            await self.pilot.pause()
            if text in self.text():
                return
            await asyncio.sleep(0.02)
        raise AssertionError(f"{text!r} did not come:\n{self.text()}")

    async def settle(self) -> None:
        """Wait for what nobody has to answer."""
        await super().settle()
        for _ in range(200):
            waiting = ("order", "picture")
            if not any(one.group in waiting and not one.is_finished for one in self.app.workers):
                break
            await asyncio.sleep(0.01)
        await self.pilot.pause()

    def said(self) -> str:
        """What is said below the content."""
        return str(self.app.screen.query_one("#finding").render())

    def line(self, text: str) -> str:
        """The line of the screen that holds `text`."""
        return next(line for line in screen_text(self.app).splitlines() if text in line)


@asynccontextmanager
async def at_work(
    folder: Path, size: tuple[int, int] = (80, 24), light: str = "day"
) -> AsyncIterator[Printer]:
    """The whole application over the studio in `folder`."""
    app = StudioApp(StudioFolder(folder), clock=studios.clock(), light=light)
    async with app.run_test(size=size) as pilot:
        printer = Printer(cast("FormApp", app), cast("Pilot[None]", pilot))
        await printer.settle()
        yield printer


def behind_its_back(folder: Path, record: int, **fields: object) -> None:
    """Another program changes a record."""
    with Register.open(folder, clock=studios.clock()) as register:
        studios.revise(register, record, **fields)
