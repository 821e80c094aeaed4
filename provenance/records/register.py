"""The register of a studio: opening it, reading it, and the one door that writes.

    register = Register.create(folder, studio, clock=clock)
    with register.act("printer") as act:
        negative = act.enter(Negative(code="N-1", title="Slipway"))

Everything in one `act` is written together or not at all.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import TracebackType
from typing import Self

from provenance.errors import Damaged, NewerRegister, NotFound, Problem, Refused
from provenance.model.studio import Studio
from provenance.records.act import Act
from provenance.records.clock import Clock, SystemClock
from provenance.records.faults import database_faults
from provenance.records.files import flush_folder
from provenance.records.place import refuse_network_folder
from provenance.records.projection import rebuild
from provenance.records.reader import Reader
from provenance.records.schema import APPLICATION_ID, fingerprint
from provenance.records.witness import Head, read_witness, write_witness

FILE = "register.db"
GENERATION = 1
"""The newest form of the journal table that this release knows."""
WAIT_MS = 15_000
"""How long a writer waits for another to finish."""


class Register:
    """An open register.  Use as a context manager, or call `close`."""

    def __init__(self, folder: Path, connection: sqlite3.Connection, clock: Clock) -> None:
        self.folder = folder
        self.clock = clock
        self._connection = connection
        self._wrote = False
        self.read = Reader(connection)

    @classmethod
    def create(
        cls, folder: Path, studio: Studio, *, clock: Clock | None = None, who: str = "studio"
    ) -> Self:
        """Make the register of a new studio in `folder` and open it.

        Raises Refused when there is one already, or the folder cannot hold one.
        """
        from provenance.records.migrations import migrate

        refuse_network_folder(folder)
        path = folder / FILE
        if path.exists():
            raise Refused(
                Problem(what="there is a register here already", record=str(path), mend="open it")
            )
        clock = clock or SystemClock()
        building = folder / f"{FILE}.{os.getpid()}.new"
        try:
            with database_faults(path):
                folder.mkdir(parents=True, exist_ok=True)
                connection = _connect(building)
                migrate(connection)
                register = cls(folder, connection, clock)
                rebuild(connection)
                with register.act(who) as act:
                    act.enter(studio)
                register.close()
            _settle(building, path)
        except FileExistsError as error:
            raise Refused(
                Problem(what="another program made a register here just now", record=str(path))
            ) from error
        except OSError as error:
            raise Refused(
                Problem(
                    what=f"the folder cannot be written to ({error.strerror})", record=str(folder)
                )
            ) from error
        finally:
            for leftover in folder.glob(f"{building.name}*"):
                with suppress(OSError):
                    leftover.unlink()
        return cls.open(folder, clock=clock)

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
            raise NotFound(
                Problem(
                    what="there is no register here",
                    record=str(folder),
                    mend="name another folder with --studio, or make one: `provenance demo`,"
                    " or a day sheet with a [studio] table",
                )
            )
        with database_faults(path):
            connection = _connect(path)
            try:
                _check_file(connection, path)
                register = cls(folder, connection, clock or SystemClock())
                register.check_witness()
                register._refresh_view()
            except BaseException:
                connection.close()
                raise
        return register

    @contextmanager
    def act(self, who: str, *, rehearse: bool = False) -> Iterator[Act]:
        """One person's one action: everything in it is saved together, or nothing is.

        With `rehearse` everything is checked and then taken back.
        """
        with database_faults(self.folder / FILE):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                act = Act(self._connection, who=who, moment=self.clock())
                yield act
                act.finish()
                head = act.head()
                if rehearse or not act.wrote:
                    self._connection.execute("ROLLBACK")
                    return
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise
        self._wrote = True
        # the entries are safe by now; a witness that cannot be written only lags behind
        with suppress(OSError):
            write_witness(self.folder, Head(*head, self._studio_id()))

    def check_witness(self) -> None:
        """Raise Damaged when the witness remembers entries that the journal lacks."""
        witness = read_witness(self.folder)
        if witness is None:
            return
        row = self._connection.execute(
            "SELECT digest FROM journal WHERE seq = ?", (witness.seq,)
        ).fetchone()
        if row is not None and row[0] == witness.digest:
            return
        last, _ = self.read.head()
        if witness.studio_id != self._studio_id():
            what = "the file `head` belongs to the register of another studio"
        elif row is None:
            what = (
                f"entries {last + 1} to {witness.seq} were saved here and are gone:"
                " the end of the register is lost"
            )
        else:
            what = (
                f"entry {witness.seq} is not the one that was saved here:"
                " this is another copy of the register, or it was changed"
            )
        raise Damaged(
            Problem(
                what=what,
                record=str(self.folder),
                mend="restore the latest backup into a new folder; if the loss must be accepted,"
                " move the file `head` away and run `provenance audit`",
            )
        )

    def _studio_id(self) -> str:
        return self.read.get(Studio, 1).body.studio_id

    def _refresh_view(self) -> None:
        row = None
        with suppress(sqlite3.OperationalError):
            row = self._connection.execute("SELECT fingerprint FROM view_made_by").fetchone()
        if row is None or row[0] != fingerprint():
            rebuild(self._connection)

    def close(self) -> None:
        """Fold the write-ahead log into the register and close it."""
        if self._wrote:
            with suppress(sqlite3.OperationalError, OSError):
                head = Head(*self.read.head(), self._studio_id())
                self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
                write_witness(self.folder, head, sync=True)
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


def _settle(building: Path, path: Path) -> None:
    """Give a finished register its name, without replacing one made meanwhile."""
    try:
        os.link(building, path)
    except FileExistsError:
        raise
    except OSError:
        # a file system without hard links
        building.rename(path)
    flush_folder(path.parent)


def _connect(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, isolation_level=None, timeout=WAIT_MS / 1000)
    connection.execute("PRAGMA journal_mode = WAL").fetchall()
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


def _check_file(connection: sqlite3.Connection, path: Path) -> None:
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    if application != APPLICATION_ID:
        raise Damaged(
            Problem(
                what="the file is a database, but not a register of this program",
                record=str(path),
                mend="restore a backup into a new folder",
            )
        )
    (generation,) = connection.execute("PRAGMA user_version").fetchone()
    if generation > GENERATION:
        raise NewerRegister(
            Problem(
                what=f"the register is of form {generation}; this release knows {GENERATION}",
                record=str(path),
                mend="open it with the release that wrote it, or a newer one",
            )
        )
