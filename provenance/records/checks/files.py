"""What lies beside the register: thumbnails, certificates, and what an ended program left."""

import hashlib
import os
import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from provenance.model.certificate import Certificate
from provenance.model.prints import Scan
from provenance.model.proof import Test
from provenance.records.checks.finding import Finding, damage, spare
from provenance.records.checks.held import held
from provenance.records.progress import Progress

KNOWN = """
CREATE TABLE known (
  folder TEXT NOT NULL, name TEXT NOT NULL, digest TEXT NOT NULL, record TEXT NOT NULL,
  PRIMARY KEY (folder, name, digest)
) WITHOUT ROWID
"""
"""The files that the journal tells of; made here from the table `held`."""

_IMAGES, _CERTIFICATES = "images", "certificates"
_LEFT = re.compile(
    r"\..*\.[0-9a-f]{16}\.part(-\w+)?|register\.db\.[0-9a-f]{16}\.new.*|\.provenance-\w+",
    re.DOTALL,
)
"""What files are called until they are whole."""
_MEND = {
    _IMAGES: "bring it back from a backup, or attach the file again",
    _CERTIFICATES: "bring it back from a backup; the paper that was handed out stays valid",
}


def check_heads(connection: sqlite3.Connection) -> Iterator[Finding]:
    """Whether the journal still has the heads that are printed on certificates."""
    for _record, body in held(connection, "certificate"):
        if not isinstance(body, Certificate):
            continue
        query = "SELECT digest FROM journal WHERE seq = ?"
        row = connection.execute(query, (body.head_seq,)).fetchone()
        if row is None or row[0] != body.head_sha256:
            yield damage(
                f"entry {body.head_seq} is {'missing' if row is None else 'not the one'}"
                f"{'; it' if row is None else ' that'} is printed on it",
                f"certificate {body.code}",
            )


def check_files(
    connection: sqlite3.Connection, folder: Path, progress: Progress | None = None
) -> Iterator[Finding]:
    """Missing, altered and left-over files in `images/` and `certificates/`."""
    connection.execute(KNOWN)
    add = "INSERT OR IGNORE INTO known VALUES (?, ?, ?, ?)"
    for record, body in held(connection, "scan"):
        if isinstance(body, Scan):
            name, digest = f"{body.thumbnail_sha256}.jpg", body.thumbnail_sha256
            connection.execute(add, (_IMAGES, name, digest, f"scan #{record}"))
    for record, body in held(connection, "test"):
        for one in body.attached if isinstance(body, Test) else ():
            connection.execute(add, (_IMAGES, one.kept_name, one.kept_sha256, f"test #{record}"))
    for _record, body in held(connection, "certificate"):
        if isinstance(body, Certificate):
            for name, digest in (
                (body.file_name, body.pdf_sha256),
                (body.record_name, body.record_sha256),
            ):
                connection.execute(add, (_CERTIFICATES, name, digest, f"certificate {body.code}"))
    (total,) = connection.execute("SELECT count(*) FROM known").fetchone()
    rows = connection.execute("SELECT folder, name, digest, record FROM known")
    for done, (place, name, digest, record) in enumerate(rows, start=1):
        what = _state(folder / place / name, digest)
        if what:
            yield damage(f"{place}/{name} {what}", record, _MEND[place])
        if progress:
            progress("files", done, total)
    for place in (_IMAGES, _CERTIFICATES):
        yield from _left_over(connection, folder, place)


def _state(path: Path, digest: str) -> str:
    """What is wrong with a file; empty when nothing is."""
    try:
        with path.open("rb") as file:
            found = hashlib.file_digest(file, "sha256").hexdigest()
    except FileNotFoundError:
        return "is missing"
    except OSError as error:
        return f"cannot be read ({error.strerror})"
    return "" if found == digest else "was altered"


def _left_over(connection: sqlite3.Connection, folder: Path, place: str) -> Iterator[Finding]:
    try:
        entries = os.scandir(folder / place)
    except FileNotFoundError:
        return
    query = "SELECT 1 FROM known WHERE folder = ? AND name = ?"
    with entries:
        for entry in entries:
            name = os.fsencode(entry.name).decode(errors="replace")
            if connection.execute(query, (place, name)).fetchone():
                continue
            yield spare(f"no record speaks of {place}/{entry.name!a}", "it may be deleted")


def check_leavings(folder: Path) -> Iterator[Finding]:
    """What a program was writing when it was ended, and was not called saved yet."""
    for place, folders, names in os.walk(folder):
        below = Path(place).relative_to(folder)
        for name in sorted([*folders, *names]):
            if _LEFT.fullmatch(name):
                yield spare(
                    f"{(below / name).as_posix()!a} was left by a program that was ended",
                    "when no program is open here, it may be deleted",
                )
        # of two folders, every file that no record speaks of is told in any case
        told = (_IMAGES, _CERTIFICATES) if place == os.fspath(folder) else ()
        folders[:] = [one for one in folders if one not in told and not _LEFT.fullmatch(one)]
