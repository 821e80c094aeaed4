"""The terminal application: its places, and the one writer behind them."""

from collections.abc import Awaitable, Callable
from threading import Thread
from typing import TYPE_CHECKING, ClassVar, TypeVar

from textual import events
from textual.binding import BindingType
from textual.screen import Screen

from provenance.model.studio import Studio
from provenance.records.clock import Clock
from provenance.records.connection import FILE
from provenance.records.register import Register
from provenance.screens.actions import EVERYWHERE, with_keys
from provenance.screens.bindings import bindings_for, shown_key
from provenance.screens.frame import Frame, RegisterChanged
from provenance.screens.guarded_app import GuardedApp
from provenance.screens.in_hand import in_hand_text, paper_may_be_out
from provenance.screens.places.registry import PLACES, load_all, modes, page_for
from provenance.screens.theme import LIGHTS
from provenance.screens.writer import Writer
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings, read_settings
from provenance.studio.watching import Watch

if TYPE_CHECKING:
    from provenance.records.act import Act

T = TypeVar("T")

SECONDS_BETWEEN_LOOKS = 1.0
"""How often to look whether another program has written to the register."""
SECONDS_TO_FIRST_PAINT = 0.5
"""After so long what was not needed for it is loaded, so that no key waits for it."""
SAFELIGHT_QUESTION = "Is all paper shut away? The screen will give white light."


class StudioApp(GuardedApp):
    """The six places of one studio."""

    CSS_PATH = "studio.tcss"
    TITLE = "provenance"
    BINDINGS: ClassVar[list[BindingType]] = bindings_for(EVERYWHERE)
    MODES: ClassVar[dict[str, str | Callable[[], Screen[None]]]] = modes()
    DEFAULT_MODE = "editions"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012 - Textual's type
    VERTICAL_BREAKPOINTS = [(0, "-low"), (10, "-high")]  # noqa: RUF012

    def __init__(
        self, folder: StudioFolder, *, clock: Clock | None = None, light: str = "day"
    ) -> None:
        settings = read_settings(folder)
        keyed = with_keys(settings.keys)
        register = folder.open(clock)
        # nobody remembers whether the paper was shut away when a program was killed
        out = paper_may_be_out(register)
        super().__init__(light="safelight" if out else light)
        self.folder = folder
        self.register_file = folder.path / FILE
        self.settings: Settings = settings
        self.register: Register = register
        self.studio_name = self.register.read.get(Studio, 1).body.name
        """For the title line; it stands even over a register that can no longer be read."""
        self.writer = Writer(folder, clock)
        self.acts: list[int] = []
        """The acts written from here, the last one last; undo takes them back."""
        self.news = in_hand_text(register)
        """What the next page that is shown says."""
        self._watch = Watch(self.register)
        self.set_keymap({action.name: action.key for action in keyed})

    def on_mount(self) -> None:
        """Begin to look out for other writers; load what was not needed for the first paint."""
        self.set_interval(SECONDS_BETWEEN_LOOKS, self._look)
        self.set_timer(SECONDS_TO_FIRST_PAINT, Thread(target=load_all, daemon=True).start)

    def on_unmount(self) -> None:
        """Finish writing."""
        self.writer.close()
        self.register.close()

    async def on_event(self, event: events.Event) -> None:
        """What was said stands until the next key, and keys are done in their order.

        The library would hand a key on first: what is typed ahead would be
        decided before the page that it is for is there.
        """
        page = self.screen if isinstance(event, events.Key) else None
        if isinstance(event, events.Key) and isinstance(page, Frame):
            if not page.is_mounted:
                # typed ahead of a page that was opened and is not laid out yet
                await page.laid_out()
            page.say("")
            ahead = page.KEYS_AHEAD and not event.is_forwarded
            if ahead and await self._check_bindings(event.key):
                return
        await super().on_event(event)

    def _look(self) -> None:
        if self._watch.changed():
            self._tell_changed()

    def _tell_changed(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, Frame):
                screen.post_message(RegisterChanged())

    async def act(self, work: "Callable[[Act], T]", *, who: str | None = None) -> T:
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
        self.news = f"saved: act {number}; {shown_key(self.key_of('undo'))} takes it back"
        self._tell_changed()

    def key_of(self, name: str) -> str:
        """The key that an action has in this studio."""
        return next(one.key for one in with_keys(self.settings.keys) if one.name == name)

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

    def action_light(self) -> None:
        """The next light; safelight is left only when all paper is shut away."""
        names = [theme.name for theme in LIGHTS]
        following = names[(names.index(self.theme) + 1) % len(names)]

        async def change() -> None:
            self.theme = following

        self._when_shut_away(change)

    def _when_shut_away(self, do: Callable[[], Awaitable[None]]) -> None:
        """Do what ends the safelight, once a person says that it may end."""

        async def ask() -> None:
            from provenance.screens.dialogs.ask import Ask

            question = Ask(SAFELIGHT_QUESTION, yes="all paper is shut away")
            if not self.in_safelight or await self.push_screen_wait(question):
                await do()

        self.run_worker(ask(), exclusive=True, group="light")

    def action_undo(self) -> None:
        """Take back the last act written from here, after asking."""
        if self.acts:
            self.run_worker(self._undo(), exclusive=True, group="undo")

    async def _undo(self) -> None:
        from provenance.screens.dialogs.ask import Ask

        number = self.acts[-1]
        if not await self.push_screen_wait(Ask(f"Take act {number} back?", yes="take it back")):
            return
        await self.act(lambda act: act.undo(number, "taken back at the screen"))
        # neither the act nor its undoing is offered again
        del self.acts[-2:]
        self.news = ""
        self.say(f"saved: act {number} is taken back")

    def action_find(self) -> None:
        """Search everywhere."""
        from provenance.screens.dialogs.find import Find

        def go(record: int | None) -> None:
            if record is not None:
                self.go_to(record)

        self.push_screen(Find(), go)

    def action_help(self) -> None:
        """The keys and words of this page."""
        from provenance.screens.dialogs.help import Help

        self.push_screen(Help(getattr(self.screen, "WHERE", ""), self.settings))

    def action_commands(self) -> None:
        """Every action that applies here, found by its words."""
        from provenance.screens.dialogs.commands import Commands

        async def do(name: str | None) -> None:
            nodes = (self.screen, self, self.focused)
            node = next((one for one in nodes if hasattr(one, f"action_{name}")), None)
            if node is not None:
                await self.run_action(str(name), node)

        self.push_screen(Commands(getattr(self.screen, "WHERE", ""), self.settings), do)

    async def action_back(self) -> None:
        """One page back; from a place there is nowhere further."""
        if len(self.screen_stack) > 1:
            self.pop_screen()

    def action_leave(self) -> None:
        """End the program, once everything is written."""
        self._when_shut_away(self._leave)

    async def _leave(self) -> None:
        # a form that is being saved has to learn that it was
        saving = [worker for worker in self.workers if worker.group == "save"]
        if saving:
            await self.workers.wait_for_complete(saving)
        self.exit()

    async def action_quit(self) -> None:
        """The library's own key for leaving."""
        self.action_leave()

    def action_help_quit(self) -> None:
        """The key that ends other programs."""
        self.say("Nothing was interrupted; ctrl+q leaves.")


def _go_to_place(app: StudioApp, name: str) -> None:
    if app.current_mode != name:
        app.switch_mode(name)


for _name in PLACES:
    setattr(StudioApp, f"action_{_name}", lambda app, name=_name: _go_to_place(app, name))
