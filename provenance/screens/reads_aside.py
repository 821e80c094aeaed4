"""A place that reads more than can be read between two keys, once its studio has grown."""

import asyncio
import sqlite3
from collections.abc import Callable
from typing import TypeVar

from textual import work

from provenance.records.aside import Aside
from provenance.records.reader import Reader
from provenance.screens.frame import Frame

T = TypeVar("T")

FEW = 4_000
"""Up to so many entries in the journal, whatever a place shows is read at once."""


class ReadsAside(Frame):
    """Reads at once while the register is small, else away from the event loop."""

    _aside: Aside | None = None

    @property
    def reads_at_once(self) -> bool:
        """Whether an answer comes before anything else is done."""
        return self.studio.register.read.head()[0] <= FEW

    def read_aside(self, question: Callable[[Reader], T], then: Callable[[T], None]) -> None:
        """Show with `then` what `question` finds; a newer question takes its place."""
        if self.reads_at_once:
            then(question(self.studio.register.read))
        else:
            self._aside = self._aside or Aside(self.studio.folder.path)
            self._answer_aside(self._aside, question, then)

    @work(group="order", exclusive=True)
    async def _answer_aside(
        self, aside: Aside, question: Callable[[Reader], T], then: Callable[[T], None]
    ) -> None:
        found = await asyncio.to_thread(aside.ask, _asking(question))
        if found is not None:
            then(found)

    async def answer_to(self, question: Callable[[Reader], T]) -> T | None:
        """What `question` finds, whatever else is asked meanwhile."""
        if self.reads_at_once:
            return question(self.studio.register.read)
        return await asyncio.to_thread(Aside(self.studio.folder.path).ask, _asking(question))

    def on_unmount(self) -> None:
        """Nobody waits for an answer any more."""
        if self._aside is not None:
            self._aside.stop()


def _asking(question: Callable[[Reader], T]) -> Callable[[sqlite3.Connection], T]:
    """All of a question over one state of the register."""

    def ask(connection: sqlite3.Connection) -> T:
        connection.execute("BEGIN")
        try:
            return question(Reader(connection, still=True))
        finally:
            if connection.in_transaction:
                connection.execute("ROLLBACK")

    return ask
