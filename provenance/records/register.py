"""The register of a studio: opening it, reading it, and the one door that writes.

    register = Register.create(folder, studio, clock=clock)
    with register.act("printer") as act:
        negative = act.enter(Negative(code="N-1", title="Slipway"))

Everything in one `act` is written together or not at all.
"""

import errno
import os
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from provenance.errors import Damaged, NotFound, Problem, ProvenanceError, Refused
from provenance.model.studio import Studio
from provenance.records.clock import Clock, SystemClock
from provenance.records.connection import FILE, GENERATION, begin, connect, connect_new, generation
from provenance.records.faults import database_faults, may_be_kept
from provenance.records.files import flush_folder
from provenance.records.place import refuse_network_folder
from provenance.records.progress import AT_THE_DOOR
from provenance.records.reader import Reader
from provenance.records.schema import fingerprint
from provenance.records.witness import (
    Head,
    lacking,
    read_witness,
    studio_id,
    write_witness,
)

if TYPE_CHECKING:
    from provenance.records.act import Act

CLOSING_WAIT_MS = 1_000
"""How long closing waits to fold the log in; the next one to close can do it."""
_NO_HARD_LINKS = (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS)
"""How a file system says that it has none."""


class Register:
    """An open register.  Use as a context manager, or call `close`."""

    def __init__(self, folder: Path, connection: sqlite3.Connection, clock: Clock) -> None:
        self.folder = folder
        self.clock = clock
        self._connection = connection
        self._wrote = False
        self._file = _identity(folder / FILE)
        self.read = Reader(connection)

    @classmethod
    def create(
        cls, folder: Path, studio: Studio, *, clock: Clock | None = None, who: str = "studio"
    ) -> Self:
        """Make the register of a new studio in `folder` and open it.

        Raises Refused when there is one already, or the folder cannot hold one.
        """
        refuse_network_folder(folder)
        path = folder / FILE
        if path.exists() or read_witness(folder) is not None:
            raise Refused(
                Problem(
                    what="there is a register here already"
                    if path.exists()
                    else f"there was a register here: `head` remembers it, but {FILE} is gone",
                    record=str(folder),
                    mend="open it" if path.exists() else "restore a backup, or choose a new folder",
                )
            )
        clock = clock or SystemClock()
        building = folder / f"{FILE}.{secrets.token_hex(8)}.new"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            with database_faults(path):
                _build(building, studio, clock, who)
            _settle(building, path)
        except OSError as error:
            raise Refused(
                Problem(
                    what=f"no register can be made here ({error.strerror})",
                    record=str(folder),
                    mend="open it"
                    if path.exists()
                    else "see that it is a folder that is yours to write in",
                )
            ) from error
        finally:
            for leftover in folder.glob(f"{building.name}*"):
                with suppress(OSError):
                    leftover.unlink()
        register = cls.open(folder, clock=clock)
        register._remember()
        return register

    @classmethod
    def open(cls, folder: Path, *, clock: Clock | None = None) -> Self:
        """Open the register in `folder`.

        Raises NotFound, NewerRegister, Refused (network folder, permissions), or
        Damaged when the file is not a register or has lost entries that its
        witness remembers.
        """
        refuse_network_folder(folder)
        path = folder / FILE
        if not path.exists():
            if read_witness(folder) is not None:
                raise Damaged(
                    Problem(
                        what=f"{FILE} is gone; the file `head` remembers it",
                        record=str(folder),
                        mend="restore the latest backup into a new folder",
                    )
                )
            raise NotFound(
                Problem(
                    what="there is no register here",
                    record=str(folder),
                    mend="name another folder with --studio, or make one: `provenance demo`,"
                    " or a day sheet with a [studio] table",
                )
            )
        with database_faults(path):
            connection = connect(path)
            try:
                if generation(connection) < GENERATION:
                    # loaded only where needed: it is heavy
                    from provenance.records.migrations import bring_up

                    bring_up(connection, path)
                register = cls(folder, connection, clock or SystemClock())
                register.check_witness()
                register._refresh_view()
            except BaseException:
                connection.close()
                raise
        return register

    @contextmanager
    def act(self, who: str, *, rehearse: bool = False) -> "Iterator[Act]":
        """One person's one action: everything in it is saved together, or nothing is.

        With `rehearse` everything is checked and then taken back.
        """
        # loaded only where needed: who only reads does without the rules
        from provenance.records.act import Act

        with database_faults(self.folder / FILE):
            begin(self._connection)
            act: Act | None = None
            try:
                self._same_release()
                self.check_file()
                act = Act(self._connection, who=who, moment=self.clock())
                yield act
                act.finish()
                head = act.head()
                if rehearse or not act.wrote:
                    self._connection.execute("ROLLBACK")
                    return
                self._connection.execute("COMMIT")
            except BaseException as error:
                # an interrupt may come when all is committed
                open_ = self._connection.in_transaction
                if open_:
                    self._connection.execute("ROLLBACK")
                if act and (open_ or isinstance(error, sqlite3.Error)) and not may_be_kept(error):
                    act.take_back()
                raise
        self._wrote = True
        # the entries are safe by now; a witness that cannot be written only lags behind
        with suppress(OSError):
            write_witness(self.folder, Head(*head, self._studio_id))

    def check_file(self) -> None:
        """Raise Damaged when the register was deleted or replaced while it was open.

        An open file outlives its name: what is written to it then is lost.
        """
        found = _identity(self.folder / FILE)
        if found != self._file:
            become = "replaced" if found else "moved or deleted"
            raise Damaged(
                Problem(
                    what=f"{FILE} was {become} while it was open",
                    record=str(self.folder),
                    mend="nothing more is written; leave the program, bring the file back"
                    " or restore a backup, and open it again",
                )
            )

    def check_witness(self) -> None:
        """Raise Damaged when the witness remembers entries that the journal lacks."""
        why = lacking(self._connection, self.folder)
        if why:
            raise Damaged(
                Problem(
                    what=why,
                    record=str(self.folder),
                    mend="restore the latest backup into a new folder; if the loss must be"
                    " accepted, move the file `head` away and run `provenance audit`",
                )
            )

    @cached_property
    def _studio_id(self) -> str:
        return studio_id(self._connection)

    def _view_made_by(self) -> str | None:
        try:
            row = self._connection.execute("SELECT fingerprint FROM view_made_by").fetchone()
        except sqlite3.OperationalError:
            return None
        return row[0] if row else None

    def _refresh_view(self) -> None:
        if self._view_made_by() != fingerprint():
            from provenance.records.projection import rebuild

            rebuild(self._connection, AT_THE_DOOR.get())

    def _same_release(self) -> None:
        if self._view_made_by() != fingerprint():
            raise Refused(
                Problem(
                    what="another release of the program has opened this register since",
                    record=str(self.folder),
                    mend="leave the program and open the register again",
                )
            )

    def _remember(self) -> None:
        """Write the witness so that it reaches the disk."""
        with suppress(sqlite3.Error, OSError, ProvenanceError):
            write_witness(self.folder, Head(*self.read.head(), self._studio_id), sync=True)

    def close(self) -> None:
        """Fold the write-ahead log into the register and close it."""
        if self._wrote:
            with suppress(sqlite3.Error):
                self._connection.execute(f"PRAGMA busy_timeout = {CLOSING_WAIT_MS}")
                self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
            self._remember()
        self._connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()
        if isinstance(error, sqlite3.DatabaseError):
            # a read that failed under way: the same words as at the door
            with database_faults(self.folder / FILE):
                raise error


def _identity(path: Path) -> tuple[int, int] | None:
    """What tells a file from another of the same name; None where there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _build(path: Path, studio: Studio, clock: Clock, who: str) -> None:
    """Make the database of a new register, with the studio as its first entry."""
    from provenance.records.act import Act
    from provenance.records.migrations import migrate
    from provenance.records.projection import rebuild

    with closing(connect_new(path)) as connection:
        migrate(connection)
        rebuild(connection)
        connection.execute("BEGIN IMMEDIATE")
        act = Act(connection, who=who, moment=clock())
        act.enter(studio)
        act.finish()
        connection.execute("COMMIT")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def _settle(building: Path, path: Path) -> None:
    """Give a finished register its name, without replacing one made meanwhile."""
    try:
        os.link(building, path)
    except OSError as error:
        if error.errno not in _NO_HARD_LINKS:
            raise
        if path.exists():
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path)) from error
        building.rename(path)
    flush_folder(path.parent)
