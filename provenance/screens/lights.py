"""An application in one of three lights."""

from typing import TypeVar

from textual.app import App
from textual.binding import Binding
from textual.css.query import NoMatches
from textual.filter import LineFilter
from textual.worker import WorkerFailed

from provenance.screens.bindings import shown_key
from provenance.screens.harmless import Harmless
from provenance.screens.safelight import DARKEN_TERMINAL, RESTORE_TERMINAL, PureRed
from provenance.screens.theme import LIGHTS

T = TypeVar("T")


class LitApp(App[T]):
    """Day, dark or safelight; without animation, and without commands of the library's own."""

    ENABLE_COMMAND_PALETTE = False

    def __init__(self, *, light: str) -> None:
        super().__init__()
        self.darkened = light == "safelight"
        """Whether the terminal's own colours were changed and have to be given back."""
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = light
        self.animation_level = "none"

    def on_mount(self) -> None:
        """Change the terminal with the light."""
        self.theme_changed_signal.subscribe(self, lambda _theme: self._follow_light())

    @property
    def in_safelight(self) -> bool:
        """Whether nothing but red may leave the screen."""
        return self.theme == "safelight"

    def _fatal_error(self) -> None:
        # the library would print the values of every frame, in all colours
        self._close_messages_no_wait()

    def _handle_exception(self, error: Exception) -> None:
        # a page that was opened as the program was being left is never laid out, and finds
        # nothing on itself
        cause = error.error if isinstance(error, WorkerFailed) else error
        if not (self._exit and isinstance(cause, NoMatches)):
            super()._handle_exception(error)

    @property
    def fault(self) -> Exception | None:
        """What the program ended of, if it did not end as it should."""
        found = self._exception
        return found.error if isinstance(found, WorkerFailed) else found  # type: ignore[return-value]

    def get_key_display(self, binding: Binding) -> str:
        """A key as it is printed on the keyboard."""
        return shown_key(binding.key)

    def get_line_filters(self) -> list[LineFilter]:
        """The usual filters, the harmless one and, in safelight, the red one, last of all."""
        filters = [*super().get_line_filters(), Harmless()]
        if self.in_safelight:
            filters.append(PureRed(self.console.color_system or "truecolor"))
        return filters

    def _follow_light(self) -> None:
        """Change the terminal's own colours with the light."""
        if self.in_safelight != self.darkened:
            self.darkened = self.in_safelight
            if self._driver is not None and not self.is_headless:
                self._driver.write(DARKEN_TERMINAL if self.darkened else RESTORE_TERMINAL)
