"""The file of a register as a database: where it is, and how it is opened."""

import os
import sqlite3
import time
from pathlib import Path

from provenance.errors import Damaged, NewerRegister, Problem, Refused
from provenance.records.schema import APPLICATION_ID

FILE = "register.db"
GENERATION = 1
"""The newest form of the journal table that this release knows."""
WAIT_MS = 15_000
"""How long a writer waits for another to finish."""


def connect_new(path: Path) -> sqlite3.Connection:
    """Make a database at `path`, ready to become a register."""
    connection = sqlite3.connect(path, isolation_level=None, timeout=WAIT_MS / 1000)
    try:
        _write_ahead(connection)
    except BaseException:
        connection.close()
        raise
    return connection


def connect(path: Path) -> sqlite3.Connection:
    """Open the register at `path` for writing.

    A file that is not a register is left as it is.  Raises Damaged when it is
    none, NewerRegister when a later release wrote it, Refused when it lies in a
    bag, and sqlite3's errors.
    """
    _refuse_bagged(path.absolute())
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode=rw",
        uri=True,
        isolation_level=None,
        timeout=WAIT_MS / 1000,
    )
    try:
        check_file(connection, path)
        _write_ahead(connection)
    except BaseException:
        connection.close()
        raise
    return connection


def begin(connection: sqlite3.Connection) -> None:
    """Begin to write as soon as nobody else does; SQLITE_BUSY after the connection's own wait.

    SQLite asks ten times a second, and between two acts of a busy neighbour lies
    a thousandth: whoever asks so seldom can be passed over for good.
    """
    # loaded only by who writes
    from random import uniform

    (wait_ms,) = connection.execute("PRAGMA busy_timeout").fetchone()
    ends = time.monotonic() + wait_ms / 1000
    connection.execute("PRAGMA busy_timeout = 0")
    try:
        while True:
            try:
                connection.execute("BEGIN IMMEDIATE")
                return
            except sqlite3.OperationalError as error:
                busy = error.sqlite_errorcode & 0xFF == sqlite3.SQLITE_BUSY
                if not busy or time.monotonic() >= ends:
                    raise
            # no two of them in step
            time.sleep(uniform(0.001, 0.005))  # noqa: S311 - a pause, not a secret
    finally:
        connection.execute(f"PRAGMA busy_timeout = {wait_ms}")


def uri_for_reading(path: Path) -> str:
    """How SQLite is asked for the register at `path` when nothing is to be written."""
    # on a medium that cannot be written to, SQLite cannot make the files of its log
    still = not os.access(path.parent, os.W_OK) and not path.with_name(f"{FILE}-wal").exists()
    return f"{path.absolute().as_uri()}?{'immutable=1' if still else 'mode=ro'}"


def _refuse_bagged(path: Path) -> None:
    """Raise Refused for the studio of a bag: whoever opens a register changes bytes of it."""
    studio = path.parent
    data, bag = studio.parent, studio.parent.parent
    if data.name == "data" and (bag / "bagit.txt").exists():
        raise Refused(
            Problem(
                what="it lies in a bag, whose digests hold only while nobody opens the studio",
                record=str(studio),
                mend=f"restore it, and open that: provenance restore {bag} NEW-FOLDER",
            )
        )


def _write_ahead(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA journal_mode = WAL").fetchall()
    connection.execute("PRAGMA synchronous = FULL")


def generation(connection: sqlite3.Connection, schema: str = "main") -> int:
    """The form of the journal table in an open register."""
    (number,) = connection.execute(f"PRAGMA {schema}.user_version").fetchone()
    return int(number)


def check_file(connection: sqlite3.Connection, path: Path, schema: str = "main") -> None:
    """Raise Damaged unless the database is a register, NewerRegister when it is too new."""
    (application,) = connection.execute(f"PRAGMA {schema}.application_id").fetchone()
    if application != APPLICATION_ID:
        raise Damaged(
            Problem(
                what="the file is a database, but not a register of this program",
                record=str(path),
                mend="restore a backup into a new folder",
            )
        )
    found = generation(connection, schema)
    if found > GENERATION:
        raise NewerRegister(
            Problem(
                what=f"the register is of form {found}; this release knows {GENERATION}",
                record=str(path),
                mend="open it with the release that wrote it, or a newer one",
            )
        )
