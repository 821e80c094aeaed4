"""The witness: a small file that remembers how far the journal had come.

A hash chain shows every change except a lost tail.  After each commit the
number and digest of the last entry are written beside the register; a journal
that is shorter than its witness has lost entries that were called saved.

The line has a fixed width and is overwritten in place without a sync: it may
lag behind after a power cut, which is harmless; it can never run ahead.
"""

import os
import re
from dataclasses import dataclass
from pathlib import Path

FILE = "head"
_LINE = re.compile(r"(\d{16}) ([0-9a-f]{64}) ([0-9a-f]{32})\n")


@dataclass(frozen=True)
class Head:
    """Where a journal stands."""

    seq: int
    digest: str
    studio_id: str


def read_witness(folder: Path) -> Head | None:
    """What the witness says; None when there is none, or it cannot be read."""
    try:
        text = (folder / FILE).read_text(encoding="ascii")
    except (OSError, UnicodeDecodeError):
        return None
    match = _LINE.fullmatch(text)
    return Head(int(match[1]), match[2], match[3]) if match else None


def write_witness(folder: Path, head: Head, *, sync: bool = False) -> None:
    """Overwrite the witness with `head`, in one write."""
    line = f"{head.seq:016d} {head.digest} {head.studio_id}\n".encode("ascii")
    flags = os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0)
    handle = os.open(folder / FILE, flags, 0o644)
    try:
        os.write(handle, line)
        if sync:
            os.ftruncate(handle, len(line))
            os.fsync(handle)
    finally:
        os.close(handle)
