"""The terminal application: its places, its lights, and the one writer behind them."""

import sys
from collections.abc import Callable, Iterable
from functools import partial
from typing import ClassVar, TypeVar

from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.filter import LineFilter
from textual.screen import Screen

from provenance.errors import ProvenanceError, Refused
from provenance.model.studio import Studio
from provenance.records.act import Act
from provenance.records.clock import Clock
from provenance.records.register import Register
from provenance.screens.actions import ACTIONS, EVERYWHERE, with_keys
from provenance.screens.bindings import bindings_for
from provenance.screens.dialogs.ask import Ask
from provenance.screens.dialogs.find import Find
from provenance.screens.dialogs.help import Help
from provenance.screens.frame import Frame, RegisterChanged
from provenance.screens.places.registry import PLACES, page_for
from provenance.screens.safelight import DARKEN_TERMINAL, RESTORE_TERMINAL, PureRed
from provenance.screens.theme import LIGHTS
from provenance.screens.writer import Writer
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings, read_settings
from provenance.studio.watching import Watch

T = TypeVar("T")

SECONDS_BETWEEN_LOOKS = 1.0
"""How often to look whether another program has written to the register."""
SAFELIGHT_QUESTION = "Is all paper shut away? The screen will give white light."


class StudioApp(App[None]):
    """The six places of one studio."""

    CSS_PATH = "studio.tcss"
    TITLE = "provenance"
    BINDINGS: ClassVar[list[BindingType]] = bindings_for(EVERYWHERE)
    MODES: ClassVar[dict[str, str | Callable[[], Screen[None]]]] = dict(PLACES)
    DEFAULT_MODE = "editions"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012 - Textual's type

    def __init__(
        self, folder: StudioFolder, *, clock: Clock | None = None, light: str = "day"
    ) -> None:
        super().__init__()
        self.folder = folder
        self.settings: Settings = read_settings(folder)
        self.register: Register = folder.open(clock)
        self.writer = Writer(folder, clock)
        self.acts: list[int] = []
        """The acts written from here, the last one last; undo takes them back."""
        self._watch = Watch(self.register)
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = light
        self.animation_level = "none"
        self.set_keymap({action.name: action.key for action in with_keys(self.settings.keys)})

    @property
    def studio_name(self) -> str:
        """The name of the studio, for the title line."""
        return self.register.read.get(Studio, 1).body.name

    @property
    def in_safelight(self) -> bool:
        """Whether nothing but red may leave the screen."""
        return self.theme == "safelight"

    def get_line_filters(self) -> list[LineFilter]:
        """The usual filters and, in safelight, the red one, last of all."""
        filters = list(super().get_line_filters())
        return [*filters, PureRed()] if self.in_safelight else filters

    def on_mount(self) -> None:
        """Begin to look out for other writers; bracket the terminal's own colours."""
        self.theme_changed_signal.subscribe(self, lambda _theme: self._bracket())
        self._bracket()
        self.set_interval(SECONDS_BETWEEN_LOOKS, self._look)

    def on_unmount(self) -> None:
        """Give the terminal its colours back; finish writing."""
        self._to_terminal(RESTORE_TERMINAL)
        self.writer.close()
        self.register.close()

    def _bracket(self) -> None:
        self._to_terminal(DARKEN_TERMINAL if self.in_safelight else RESTORE_TERMINAL)

    def _to_terminal(self, sequence: str) -> None:
        if self._driver is not None and not self.is_headless and sys.__stdout__ is not None:
            self._driver.write(sequence)

    def _look(self) -> None:
        if self._watch.changed():
            self._tell_changed()

    def _tell_changed(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, Frame):
                screen.post_message(RegisterChanged())

    async def act(self, work: Callable[[Act], T], *, who: str | None = None) -> T:
        """Do `work` as one act on the writer; what it wrote can be undone.

        Raises what the door raises: Refused, Conflict, Damaged.
        """

        def write(register: Register) -> tuple[int, T]:
            with register.act(who or self.settings.who) as act:
                result = work(act)
                return act.number, result

        number, result = await self.writer.do(write)
        self.wrote(number)
        return result

    def wrote(self, number: int) -> None:
        """An act was written from here: it can be undone, and what is shown is old."""
        self.acts.append(number)
        self._tell_changed()

    def go_to(self, record: int) -> None:
        """Open the page of a record."""
        page = page_for(self.register.read, record)
        if page is not None:
            self.push_screen(page)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey out what does not apply now."""
        if action == "undo":
            return bool(self.acts) or None
        return True

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette holds the same actions as the keys, those that apply here."""
        here = {EVERYWHERE, "list", *getattr(screen, "WHERE", "").split()}
        for action in ACTIONS:
            if here & set(action.where.split()):
                yield SystemCommand(
                    action.label, action.about, partial(self.run_action, action.name)
                )

    def _handle_exception(self, error: Exception) -> None:
        """A refusal that no page caught is said on the screen, never a traceback."""
        if isinstance(error, ProvenanceError):
            self.say(str(error))
            return
        super()._handle_exception(error)

    def say(self, text: str) -> None:
        """Say something on the page that is shown."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Frame):
                screen.say(text)
                return

    def action_light(self) -> None:
        """The next light; safelight is left only when all paper is shut away."""
        names = [theme.name for theme in LIGHTS]
        following = names[(names.index(self.theme) + 1) % len(names)]
        if not self.in_safelight:
            self.theme = following
            return

        def leave(shut: bool | None) -> None:
            if shut:
                self.theme = following

        self.push_screen(Ask(SAFELIGHT_QUESTION, yes="all paper is shut away"), leave)

    def action_undo(self) -> None:
        """Take back the last act written from here, after asking."""
        if self.acts:
            self.run_worker(self._undo(), exclusive=True, group="undo")

    async def _undo(self) -> None:
        number = self.acts[-1]
        if not await self.push_screen_wait(Ask(f"Take act {number} back?", yes="take it back")):
            return
        try:
            await self.act(lambda act: act.undo(number, "taken back at the screen"))
        except Refused as error:
            self.say(str(error))
            return
        # neither the act nor its undoing is offered again
        del self.acts[-2:]
        self.say(f"saved: act {number} is taken back")

    def action_find(self) -> None:
        """Search everywhere."""

        def go(record: int | None) -> None:
            if record is not None:
                self.go_to(record)

        self.push_screen(Find(), go)

    def action_help(self) -> None:
        """The keys and words of this page."""
        self.push_screen(Help(getattr(self.screen, "WHERE", ""), self.settings))

    async def action_back(self) -> None:
        """One page back; from a place there is nowhere further."""
        if len(self.screen_stack) > 1:
            self.pop_screen()

    def action_leave(self) -> None:
        """End the program."""
        self.exit()


def _place_action(name: str) -> Callable[[StudioApp], None]:
    def action(app: StudioApp) -> None:
        if app.current_mode != name:
            app.switch_mode(name)

    return action


for _name in PLACES:
    setattr(StudioApp, f"action_{_name}", _place_action(_name))
