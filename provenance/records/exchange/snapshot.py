"""A copy of the register at one instant, while others read and write it."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from provenance.errors import NotFound, Problem
from provenance.records.connection import FILE, WAIT_MS, check_file, uri_for_reading
from provenance.records.faults import database_faults
from provenance.records.reader import Reader
from provenance.records.witness import Head, studio_id

_PAGES_AT_ONCE = 2_000
_FULL = 0o600


@contextmanager
def copied_register(
    folder: Path, target: Path, progress: Callable[[int, int], None] | None = None
) -> Iterator[tuple[Reader, Head]]:
    """Copy the register in `folder` to the file `target`; gives a reader of the copy and its head.

    The copy is of one instant, whoever writes meanwhile, and one file without a
    log beside it.  `progress` is told pages done and pages in all; what it
    raises breaks the copy off.  Raises NotFound, Refused or Damaged.
    """
    path = folder / FILE
    if not path.exists():
        raise NotFound(Problem("there is no register here", str(folder)))
    with database_faults(path):
        os.close(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _FULL))
        with closing(sqlite3.connect(target, isolation_level=None)) as copy:
            with closing(_opened(path)) as source:
                # held open, so that whoever writes meanwhile does not make it begin anew
                source.execute("BEGIN")
                source.execute("SELECT count(*) FROM sqlite_schema").fetchone()
                source.backup(
                    copy,
                    pages=_PAGES_AT_ONCE,
                    progress=(lambda _, left, all_: progress(all_ - left, all_))
                    if progress
                    else None,
                )
            copy.execute("PRAGMA journal_mode = DELETE").fetchall()
            copy.execute("PRAGMA query_only = 1")
            reader = Reader(copy)
            yield reader, Head(*reader.head(), studio_id(copy))


def _opened(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(
        uri_for_reading(path), uri=True, isolation_level=None, timeout=WAIT_MS / 1000
    )
    try:
        check_file(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection
