"""Questions that take a while, asked from other threads, each over a connection of its own."""

import itertools
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TypeVar

from provenance.records.connection import FILE, connect
from provenance.records.faults import database_faults

T = TypeVar("T")

STEPS_BETWEEN_LOOKS = 20_000
"""Steps of SQLite's machine, about a millisecond, between looks for a newer question."""


class Aside:
    """Asks the register in a folder; only the newest question matters.

    A question that is still being answered when another comes is given up, so
    that typing fast never queues work.
    """

    def __init__(self, folder: Path) -> None:
        self._path = folder / FILE
        self._tickets = itertools.count(1)
        self._newest = 0

    def ask(self, question: Callable[[sqlite3.Connection], T]) -> T | None:
        """What `question` finds; None when a newer one was asked meanwhile.

        May be called from any thread.  Raises Refused or Damaged.
        """
        ticket = self._newest = next(self._tickets)
        with database_faults(self._path), closing(connect(self._path)) as connection:
            connection.execute("PRAGMA query_only = 1")
            connection.set_progress_handler(lambda: ticket != self._newest, STEPS_BETWEEN_LOOKS)
            try:
                return question(connection)
            except sqlite3.OperationalError:
                if ticket != self._newest:
                    return None
                raise

    def stop(self) -> None:
        """Give up what is being answered: nobody waits for it any more."""
        self._newest = next(self._tickets)
