"""An application that says what it was refused on the page that is shown."""

from pathlib import Path
from typing import Any

from provenance.errors import ProvenanceError
from provenance.screens.guard import Guarded, meant_for_a_person
from provenance.screens.lights import LitApp


class GuardedApp(Guarded, LitApp[None]):
    """Goes on after whatever is meant for a person; only a fault of its own ends it."""

    register_file: Path

    async def run_action(self, *given: Any, **named: Any) -> bool:
        """Do an action; what is refused under way is said, and the page goes on."""
        try:
            return await super().run_action(*given, **named)
        except Exception as error:
            if meant_for_a_person(error, self.register_file) is None:
                raise
            self._handle_exception(error)
            return True

    def _handle_exception(self, error: Exception) -> None:
        """What is meant for a person is said on the page, never as a traceback."""
        told: ProvenanceError | None = meant_for_a_person(error, self.register_file)
        if told is None:
            super()._handle_exception(error)
        else:
            self.say(str(told))

    def say(self, text: str) -> None:
        """Say something on the page or form that is shown."""
        for screen in reversed(self.screen_stack):
            say = getattr(screen, "say", None)
            # a page that is being taken down has no place left to say it
            if say is not None and screen.is_mounted and screen.query("#finding"):
                say(text)
                return
