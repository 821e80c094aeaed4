"""What the database says when it fails, in words for a person."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from provenance.errors import Damaged, Problem, Refused

_REFUSED = {
    sqlite3.SQLITE_FULL: ("the disk is full", "make room and try again"),
    sqlite3.SQLITE_READONLY: ("the studio folder cannot be written to", "check its permissions"),
    sqlite3.SQLITE_PERM: ("the studio folder cannot be written to", "check its permissions"),
    sqlite3.SQLITE_CANTOPEN: ("the register cannot be opened", "check the folder's permissions"),
    sqlite3.SQLITE_BUSY: ("another program is writing", "try again in a moment"),
    sqlite3.SQLITE_LOCKED: ("another program is writing", "try again in a moment"),
    sqlite3.SQLITE_IOERR: ("the disk failed to read or write", "check the disk and its space"),
}
_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}


@contextmanager
def database_faults(path: Path) -> Iterator[None]:
    """Turn a failure of the database at `path` into Refused or Damaged."""
    try:
        yield
    except sqlite3.DatabaseError as error:
        # the low byte is the primary code, the rest says more than a person needs
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in _DAMAGED:
            raise Damaged(
                Problem(
                    what=f"the register is damaged ({error})",
                    record=str(path),
                    mend="keep the folder as it is and restore a backup into a new one",
                )
            ) from error
        if code in _REFUSED:
            what, mend = _REFUSED[code]
            raise Refused(
                Problem(what=f"{what}; nothing was written", record=str(path), mend=mend)
            ) from error
        raise
