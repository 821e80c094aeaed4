"""What the register refuses, or cannot give, is said on the page; nothing dies of it."""

import sqlite3
from pathlib import Path

from textual.message import Message
from textual.message_pump import MessagePump
from textual.worker import WorkerFailed

from provenance.errors import ProvenanceError
from provenance.records.faults import database_faults


def meant_for_a_person(error: BaseException, register: Path) -> ProvenanceError | None:
    """`error` in words; None when it is a fault of the program.

    A read that failed below, in the database at `register`, is given the same
    words as a write at the door.
    """
    if isinstance(error, WorkerFailed):
        error = error.error
    if isinstance(error, sqlite3.DatabaseError):
        try:
            with database_faults(register):
                raise error
        except ProvenanceError as told:
            return told
        except sqlite3.DatabaseError:
            return None
    return error if isinstance(error, ProvenanceError) else None


class Guarded(MessagePump):
    """Goes on after a handler was refused something; the application says what.

    An exception that leaves a handler would end the message loop of its page,
    and the page would answer no further key.
    """

    async def _dispatch_message(self, message: Message) -> None:
        try:
            await super()._dispatch_message(message)
        except (ProvenanceError, sqlite3.DatabaseError) as error:
            self.app._handle_exception(error)
