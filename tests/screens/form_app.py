"""A plain application that opens forms on a small studio, and what drives it."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from pathlib import Path

from textual.app import App
from textual.events import Key
from textual.pilot import Pilot

from provenance.records.clock import Clock
from provenance.records.register import Register
from provenance.screens.theme import LIGHTS
from provenance.screens.widgets.form import Form
from provenance.screens.widgets.half_filled_form import PAUSE_S
from provenance.screens.writer import Writer
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import read_settings
from tests import studios
from tests.screens.reading import screen_text

SIZES = ((80, 24), (120, 40))


class FormApp(App[None]):
    """Gives forms what the whole application gives them."""

    def __init__(self, folder: Path, clock: Clock) -> None:
        super().__init__()
        self.folder = StudioFolder(folder)
        self.settings = read_settings(self.folder)
        self.register = Register.open(folder, clock=clock)
        self.writer = Writer(self.folder, clock)
        self.acts: list[int] = []
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = "day"
        self.animation_level = "none"

    def wrote(self, number: int) -> None:
        self.acts.append(number)

    def on_unmount(self) -> None:
        self.writer.close()
        self.register.close()


@dataclass
class Hands:
    """What a person does at the keyboard, and what comes of it."""

    app: FormApp
    pilot: Pilot[None]
    results: list[Recorded | None] = field(default_factory=list)

    async def open(self, form: Form) -> None:
        """Open a form; what it gives back goes into `results`."""
        self.app.push_screen(form, self.results.append)
        await self.pilot.pause()
        await self.settle()

    @property
    def form(self) -> Form:
        """The form that is open."""
        return next(one for one in reversed(self.app.screen_stack) if isinstance(one, Form))

    def value(self, key: str) -> str:
        """What stands in a field."""
        return self.form.fields[key].value

    def wrong(self, key: str) -> str:
        """What is said to be wrong with a field."""
        return self.form.fields[key].wrong

    async def go(self, key: str) -> None:
        """Tab to a field."""
        control = self.form.fields[key].query_one("Input, TextArea, Options, Order")
        for _ in range(60):
            if self.app.focused is control:
                return
            await self.pilot.press("tab")
        raise AssertionError(f"{key} cannot be reached with tab")

    async def type(self, text: str) -> None:
        """Type, letter by letter."""
        names = {"\n": "enter"}
        await self.pilot.press(*(names.get(one, one) for one in text))

    async def put(self, **texts: str) -> None:
        """Go to each field and type into it in place of what is there."""
        for key, text in texts.items():
            await self.go(key)
            self.form.fields[key].value = ""
            await self.type(text)

    async def choose(self, **words: str) -> None:
        """Go to each choice and press right until the word is chosen."""
        for key, word in words.items():
            await self.go(key)
            for _ in range(20):
                if self.value(key) == word:
                    break
                await self.pilot.press("right")
            assert self.value(key) == word

    async def press(self, *keys: str) -> None:
        """Press keys, and wait until all that they set off is done."""
        await self.pilot.press(*keys)
        await self.settle()

    async def at_once(self, *keys: str) -> None:
        """Keys that come all at once, as a slow line hands them on."""
        names = {"-": "minus", "?": "question_mark"}
        for key in keys:
            self.app.post_message(Key(names.get(key, key), key if len(key) == 1 else None))
        await self.press("shift")

    async def settle(self) -> None:
        """Wait for workers that are not waiting for a person."""
        for _ in range(200):
            await self.pilot.pause()
            busy = [
                worker
                for worker in self.app.workers
                if worker.group in ("save", "draft", "look") and not worker.is_finished
            ]
            asking = type(self.app.screen).__name__ == "Ask"
            if not busy or asking:
                return
            await asyncio.sleep(0.01)

    async def pause(self) -> None:
        """Stop typing long enough for the form to be kept."""
        await self.pilot.pause(PAUSE_S * 1.5)
        await self.settle()

    def text(self) -> str:
        """The screen."""
        return screen_text(self.app)


@asynccontextmanager
async def at_the_keyboard(folder: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Hands]:
    """The application over the studio in `folder`."""
    app = FormApp(folder, studios.clock())
    async with app.run_test(size=size) as pilot:
        yield Hands(app, pilot)


def small_studio(folder: Path, sheets: int = 0) -> list[int]:
    """A studio with an edition, paper and baths, and so many printed sheets; their ids."""
    with studios.new_register(folder) as register, register.act(studios.WHO) as act:
        shelf = studios.furnish(act)
        return [act.enter(studios.sheet(shelf, f"Q{number}")) for number in range(1, sheets + 1)]
