"""The witness: a small file that remembers how far the journal had come.

A hash chain shows every change except a lost tail.  After each commit the
number and digest of the last entry are written beside the register; a journal
that is shorter than its witness has lost entries that were called saved.

The line has a fixed width and is overwritten in place without a sync: it may
lag behind after a power cut, which is harmless; it can never run ahead.
"""

import os
import re
import sqlite3
import time
from dataclasses import dataclass
from pathlib import Path

from provenance.errors import Damaged, Problem

FILE = "head"
_LINE = re.compile(r"(\d{16}) ([0-9a-f]{64}) ([0-9a-f]{32})\n")

_MOST_LOOKS = 100
_MOMENT_S = 0.005


@dataclass(frozen=True)
class Head:
    """Where a journal stands."""

    seq: int
    digest: str
    studio_id: str


def read_witness(folder: Path) -> Head | None:
    """What the witness says; None when there is none, or it cannot be read.

    Another program may be overwriting the line, and half of each would be read:
    it counts when it reads the same twice running.
    """
    path = folder / FILE
    line = _read(path)
    for _ in range(_MOST_LOOKS):
        before, line = line, _read(path)
        if line == before:
            break
    match = _LINE.fullmatch(line.decode("ascii", "replace"))
    return Head(int(match[1]), match[2], match[3]) if match else None


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""


def head_line(head: Head) -> bytes:
    """`head` as the witness holds it."""
    return f"{head.seq:016d} {head.digest} {head.studio_id}\n".encode("ascii")


def write_witness(folder: Path, head: Head, *, sync: bool = False) -> None:
    """Overwrite the witness with `head`, in one write."""
    line = head_line(head)
    flags = os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0)
    handle = os.open(folder / FILE, flags, 0o644)
    try:
        os.write(handle, line)
        if sync:
            os.ftruncate(handle, len(line))
            os.fsync(handle)
    finally:
        os.close(handle)


def studio_id(connection: sqlite3.Connection) -> str:
    """The id of the studio whose journal `connection` sees, from its first entry.

    Raises Damaged when the journal does not begin with a studio.
    """
    # loaded only when asked for: a list that is quick has no need of the forms
    from provenance.model.studio import Studio
    from provenance.records.entry import decode
    from provenance.records.forms import read_body

    row = connection.execute("SELECT entry FROM journal WHERE seq = 1").fetchone()
    if row is not None:
        first = decode(row[0])
        body = read_body(first.kind, first.form, first.body)
        if isinstance(body, Studio):
            return body.studio_id
    raise Damaged(
        Problem(
            what="the journal does not begin with a studio",
            mend="restore the latest backup into a new folder",
        )
    )


def lacking(connection: sqlite3.Connection, folder: Path) -> str:
    """What the journal lacks that the witness in `folder` remembers; empty when they agree.

    Asked of a journal as it stands now.  A disagreement counts once the witness
    says the same a moment later.
    """
    told = read_witness(folder)
    while told is not None and (why := disagreement(connection, told)):
        time.sleep(_MOMENT_S)
        before, told = told, read_witness(folder)
        if told == before:
            return why
    return ""


def disagreement(connection: sqlite3.Connection, witness: Head) -> str:
    """What the journal lacks that `witness` remembers; empty when they agree.

    A witness that lags behind agrees.
    """
    query = "SELECT digest FROM journal WHERE seq = ?"
    row = connection.execute(query, (witness.seq,)).fetchone()
    if row is not None and row[0] == witness.digest:
        return ""
    if witness.studio_id != studio_id(connection):
        return "the file `head` belongs to the register of another studio"
    if row is not None:
        return (
            f"entry {witness.seq} is not the one that was saved here:"
            " this is another copy of the register, or it was changed"
        )
    (last,) = connection.execute("SELECT coalesce(max(seq), 0) FROM journal").fetchone()
    return (
        f"entries {last + 1} to {witness.seq} were saved here and are gone:"
        " the end of the register is lost"
    )
