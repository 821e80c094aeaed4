"""What the database says when it fails, in words for a person."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from provenance.errors import Damaged, Problem, Refused

_REFUSED = {
    sqlite3.SQLITE_FULL: ("the disk is full", "make room and try again"),
    sqlite3.SQLITE_READONLY: ("the studio folder cannot be written to", "check its permissions"),
    sqlite3.SQLITE_PERM: ("the studio folder cannot be written to", "check its permissions"),
    sqlite3.SQLITE_CANTOPEN: ("the register cannot be opened", "check the folder's permissions"),
    sqlite3.SQLITE_BUSY: ("another program is writing", "try again in a moment"),
    sqlite3.SQLITE_LOCKED: ("another program is writing", "try again in a moment"),
}
_UNSURE = {sqlite3.SQLITE_IOERR}
"""A sync that failed may yet have kept what it was for: only the next opening shows it."""
_GENERAL = sqlite3.SQLITE_ERROR
_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}


def may_be_kept(error: BaseException) -> bool:
    """Whether what was being saved may yet be found, although the database failed."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    return isinstance(error, sqlite3.Error) and code not in _REFUSED


@contextmanager
def database_faults(path: Path) -> Iterator[None]:
    """Turn a failure of the database at `path` into Refused or Damaged."""
    try:
        yield
    except UnicodeDecodeError as error:
        # raised by the binding, which cannot read what SQLite says of a table that is not UTF-8
        if not _misshapen(path):
            raise
        raise _damaged(path, error) from error
    except sqlite3.DatabaseError as error:
        # the low byte is the primary code, the rest says more than a person needs
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in _DAMAGED or _half_read(error) or (code == _GENERAL and _misshapen(path)):
            raise _damaged(path, error) from error
        if code in _REFUSED:
            what, mend = _REFUSED[code]
            raise Refused(
                Problem(what=f"{what}; nothing was written", record=str(path), mend=mend)
            ) from error
        if code in _UNSURE:
            raise Refused(
                Problem(
                    what="the disk failed to read or write; whether what was being saved is kept is"
                    " not certain",
                    record=str(path),
                    mend="check the disk and its space, open the register again, and see whether"
                    " it is there before entering it anew",
                )
            ) from error
        raise
    except MemoryError as error:
        raise Damaged(
            Problem(
                what="the register asks for more memory than there is: it is damaged, or the"
                " machine has none left",
                record=str(path),
                mend="close other programs, and run `provenance audit`",
            )
        ) from error


def _damaged(path: Path, error: Exception) -> Damaged:
    return Damaged(
        Problem(
            what=f"the register is damaged ({error})",
            record=str(path),
            mend="keep the folder as it is and restore a backup into a new one",
        )
    )


def _half_read(error: sqlite3.DatabaseError) -> bool:
    # told by the binding, not by SQLite, so without a code; we write nothing but UTF-8
    return "decode to UTF-8" in str(error)


def _misshapen(path: Path) -> bool:
    """Whether a failure without a cause comes from tables that are not as they were made."""
    from provenance.records.checks.shape import misshapen

    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as again:
            return any(misshapen(again))
    except (sqlite3.Error, UnicodeDecodeError):
        return True
