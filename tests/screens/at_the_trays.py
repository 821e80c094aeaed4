"""A darkroom to drive by the keypad: a studio, a clock that is moved by hand, the application."""

import asyncio
import re
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

from msgspec.structs import replace
from textual.pilot import Pilot

from provenance.model.chemistry import Bath
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.run import Run, Tray
from provenance.records.clock import Moment, SetClock
from provenance.records.entry import Entry, decode
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.screens.app import StudioApp
from provenance.screens.places.run_page import RunPage
from provenance.studio.folder import StudioFolder
from provenance.studio.processes import use_process
from provenance.studio.running import begin_run
from tests import studios
from tests.screens.reading import screen_lines, screen_text

PLAN = "fibre-split-toned"
BATHS = (
    Bath(code="dev-1", role="develop"),
    Bath(code="fixA", role="fix", volume_hundredth_ml=200_000, made_on="2031-05-31"),
    Bath(code="stop-1", role="stop"),
    Bath(code="bleach-1", role="bleach"),
)
TRAYS = {"developer": "dev-1", "fix one": "fixA", "stop": "stop-1", "bleach": "bleach-1"}


@dataclass
class Watch:
    """The studio's clock; it stands until it is told to go on."""

    instant: datetime = datetime(2031, 6, 1, 10, 0, tzinfo=UTC)
    boot: str = "one"
    boot_ms: int = 1_000_000

    def __call__(self) -> Moment:
        return SetClock(self.instant, self.boot, self.boot_ms)()

    def go(self, seconds: float) -> None:
        """Let so many seconds pass."""
        self.instant += timedelta(seconds=seconds)
        self.boot_ms += round(seconds * 1000)

    def set_wall(self, seconds: float) -> None:
        """Somebody sets the wall clock, and nothing else."""
        self.instant += timedelta(seconds=seconds)

    def restart(self, seconds: float) -> None:
        """The machine is switched off and on again."""
        self.instant += timedelta(seconds=seconds)
        self.boot, self.boot_ms = f"{self.boot}+", 1_000


def darkroom(
    folder: Path,
    marks: Sequence[str] = ("Q8", "Q9", "Q10"),
    *,
    begin: bool = True,
    printed_on: str = studios.PRINTED_ON,
) -> int:
    """A studio with exposed sheets and trays; the id of a run in hand, or 0 where none began."""
    with studios.new_register(folder) as register:
        register.clock = Watch()
        with register.act(studios.WHO) as act:
            shelf = studios.furnish(act)
            printing = act.get(Printing, shelf.printing)
            if printed_on != printing.body.done_on:
                act.change(
                    printing.id, printing.version, replace(printing.body, done_on=printed_on)
                )
            sheets = [act.enter(studios.sheet(shelf, mark)) for mark in marks]
            baths = {bath.code: act.enter(bath) for bath in BATHS}
            act.enter(
                Bath(
                    code="fixB",
                    role="fix",
                    second_of=baths["fixA"],
                    volume_hundredth_ml=200_000,
                    made_on="2031-05-31",
                )
            )
            if not begin:
                return 0
            process, plan = use_process(act, StudioFolder(folder), PLAN)
            trays = [Tray(step=step, bath=baths[code]) for step, code in TRAYS.items()]
            stored = act.get(type(plan), process)
            return begin_run(act, stored, sheets, trays, temperature_tenth_c=205)


@dataclass
class Keypad:
    """Wet hands: keys, the clock on the wall, and what the screen says."""

    app: StudioApp
    pilot: Pilot[None]
    watch: Watch
    bells: list[int] = field(default_factory=list)

    @property
    def page(self) -> RunPage:
        """The page of the run."""
        return next(one for one in reversed(self.app.screen_stack) if isinstance(one, RunPage))

    async def settle(self) -> None:
        """Wait until everything that was pressed is written and shown, or an answer is wanted."""
        for _ in range(400):
            await self.pilot.pause()
            busy = [
                one
                for one in self.app.workers
                if one.group in ("press", "board", "run", "save", "draft") and not one.is_finished
            ]
            page = self.app.screen
            asking = isinstance(page, RunPage) and page.asking
            ready = not isinstance(page, RunPage) or page.board is not None
            if ready and (not busy or asking or not isinstance(page, RunPage)):
                break
            await asyncio.sleep(0.005)
        page = self.app.screen
        if isinstance(page, RunPage):
            page.tick()
        await self.pilot.pause()

    async def press(self, *keys: str, every_s: float = 1) -> None:
        """Press keys, a second apart."""
        for key in keys:
            self.watch.go(every_s)
            await self.pilot.press(key)
            await self.settle()

    async def into(self, *digits: str) -> None:
        """Begin the next step of sheets, or end it."""
        await self.press(*digits, "enter")

    async def wait(self, seconds: float) -> None:
        """Let time pass; the clocks are drawn anew."""
        self.watch.go(seconds)
        self.page.tick()
        await self.pilot.pause()

    async def choose(self, words: str) -> None:
        """Press the digit of the answer that begins with `words`, turning to it."""
        for _ in range(4):
            found = re.search(rf"(\d)  {re.escape(words)}", self.text())
            if found is not None:
                await self.press(found[1])
                return
            await self.press("9")
        raise AssertionError(f"no answer {words!r}:\n{self.text()}")

    def text(self) -> str:
        """The screen."""
        return screen_text(self.app)

    def row(self, mark: str) -> str:
        """The row of a sheet, by the mark on its back."""
        rows = (line for line in screen_lines(self.app) if line[2:3].isdigit())
        return next(line for line in rows if f" {mark} " in line)

    def steps(self, mark: str) -> list[Step]:
        """What is on record of a sheet, in order."""
        return steps_of(self.app.register.read, mark)


def steps_of(reader: Reader, mark: str) -> list[Step]:
    """The steps of a sheet, in the order in which they were begun."""
    sheet = next(one for one in reader.all(Print) if one.body.mark == mark)
    return [one.body for one in reader.linked(sheet.id, Step, "sheets")]


def times_of(reader: Reader, mark: str) -> list[tuple[str, int | None]]:
    """(name, how long in ms) of the steps of a sheet."""
    sheet = next(one for one in reader.all(Print) if one.body.mark == mark)
    return [(step.name, step.duration_for(sheet.id)) for step in steps_of(reader, mark)]


@asynccontextmanager
async def at_the_trays(
    folder: Path,
    watch: Watch | None = None,
    *,
    size: tuple[int, int] = (80, 24),
    light: str = "day",
    run: int | None = None,
) -> AsyncIterator[Keypad]:
    """The application over the studio in `folder`; the page of `run` is opened by its place."""
    watch = watch or Watch()
    app = StudioApp(StudioFolder(folder), clock=watch, light=light)
    async with app.run_test(size=size) as pilot:
        pad = Keypad(app, pilot, watch)
        app.bell = lambda: pad.bells.append(watch.boot_ms)  # type: ignore[method-assign]
        await pad.settle()
        if run is not None:
            await pilot.press("3")
            await pad.settle()
            await pilot.press("enter")
            await pad.settle()
        yield pad


def entries(folder: Path) -> list[Entry]:
    """The whole journal."""
    with Register.open(folder) as register:
        return [decode(data) for _seq, data, _digest in register.read.entries()]


def runs(folder: Path) -> list[Run]:
    """Every run on record."""
    with Register.open(folder) as register:
        return [one.body for one in register.read.all(Run)]
