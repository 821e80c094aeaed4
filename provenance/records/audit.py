"""Is everything still as it was written?

An audit reads the whole studio folder and changes nothing in it.  It goes in by
a door of its own, since a register that is damaged cannot be opened by the
ordinary one; whatever fails on the way becomes a finding.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path

from provenance.errors import Damaged, NotFound, Problem, ProvenanceError
from provenance.records.checks.chain import HELD, check_chain, check_witness
from provenance.records.checks.files import check_files, check_heads, check_leavings
from provenance.records.checks.finding import Finding, damage, kept
from provenance.records.checks.pages import check_pages
from provenance.records.checks.shape import check_journal_shape, mend
from provenance.records.checks.view import check_view
from provenance.records.connection import FILE, check_file, connect, uri_for_reading
from provenance.records.faults import database_faults
from provenance.records.progress import Progress
from provenance.records.projection import rebuild
from provenance.records.witness import Head, read_witness

MOST = 100
"""How many findings of one sort are listed; the rest are counted."""
_PAGES = 3
_FAILS = (sqlite3.Error, UnicodeDecodeError, MemoryError, RecursionError)
"""What spoiled or hostile bytes may make of a look at them."""


@dataclass(frozen=True)
class AuditReport:
    """What an audit saw, and what it found."""

    folder: Path
    entries: int
    """How many entries the journal holds."""
    head: str
    """The digest of the last of them."""
    findings: tuple[Finding, ...]

    @property
    def damaged(self) -> bool:
        """Whether anything is not as it was written."""
        return any(finding.level == "damage" for finding in self.findings)


def audit(folder: Path, *, progress: Progress | None = None) -> AuditReport:
    """Compare everything in the studio folder with what the journal says.

    Raises NotFound when there is no studio, NewerRegister when a later release
    wrote it.  Damage is not raised but reported.
    """
    # read first: the journal may run ahead of its witness, never the other way round
    witness = read_witness(folder)
    path = folder / FILE
    if not path.exists():
        if witness is None:
            raise NotFound(Problem(what="there is no register here", record=str(folder)))
        found = damage(f"{FILE} is gone; the file `head` remembers {witness.seq} entries")
        return AuditReport(folder, 0, "", (found,))
    try:
        with closing(_snapshot(path)) as connection:
            entries, head, findings = _look(connection, folder, witness, progress)
    except (*_FAILS, Damaged) as error:
        return AuditReport(folder, 0, "", (_failure("register", error),))
    return AuditReport(folder, entries, head, findings)


def rebuild_view(folder: Path, *, progress: Progress | None = None) -> None:
    """Make the view again from the journal, and put back what guards it.

    Raises NotFound, Refused, or Damaged when the journal itself cannot be read.
    """
    path = folder / FILE
    if not path.exists():
        raise NotFound(Problem(what="there is no register here", record=str(folder)))
    with database_faults(path), closing(connect(path)) as connection:
        rebuild(connection, progress, first=mend)


def _snapshot(path: Path) -> sqlite3.Connection:
    """A throw-away database with the register beside it, for reading only, at one instant."""
    connection = sqlite3.connect("file:", uri=True, isolation_level=None)
    try:
        for pragma in ("journal_mode = OFF", "synchronous = OFF", "cache_size = -32768"):
            connection.execute(f"PRAGMA main.{pragma}").fetchall()
        connection.execute("ATTACH ? AS register", (uri_for_reading(path),))
        check_file(connection, path, "register")
        connection.execute("BEGIN")
        connection.execute(HELD)
    except BaseException:
        connection.close()
        raise
    return connection


def _look(
    connection: sqlite3.Connection,
    folder: Path,
    witness: Head | None,
    progress: Progress | None,
) -> tuple[int, str, tuple[Finding, ...]]:
    checks = {
        "journal": check_chain(connection, progress),
        "head": check_witness(connection, witness),
        "shape": check_journal_shape(connection),
        "database": _check_database(connection),
        "certificates": check_heads(connection),
        "files": check_files(connection, folder, progress),
        "pages of persons": check_pages(connection, folder),
        "folder": check_leavings(folder),
        "view": check_view(connection, progress),
    }
    findings = [
        finding for name, check in checks.items() for finding in _bounded(_guarded(name, check))
    ]
    # where the end of the journal is lost, a file that no record speaks of may be what is left;
    # without a witness nobody can tell whether it is
    if witness is None or any(finding.level == "damage" for finding in findings):
        findings = kept(findings)
    try:
        row = connection.execute(
            "SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1"
        ).fetchone()
    except sqlite3.Error:
        row = None
    seq, digest = row or (0, "")
    return seq, digest, tuple(findings)


def _check_database(connection: sqlite3.Connection) -> Iterator[Finding]:
    # what the library says is for whoever mends databases: a few lines of it do
    lines = [
        line
        for (said,) in connection.execute(f"PRAGMA register.integrity_check({MOST})")
        for line in said.splitlines()
        if said != "ok" and not line.startswith("***")
    ]
    for line in lines[:_PAGES]:
        yield damage(f"the database is not sound: {line}", "database")
    if len(lines) > _PAGES:
        least = "at least " if len(lines) >= MOST else ""
        yield damage(f"and in {least}{len(lines) - _PAGES} more places", "database")


def _guarded(name: str, check: Iterator[Finding]) -> Iterator[Finding]:
    try:
        yield from check
    except (*_FAILS, ProvenanceError, OSError) as error:
        yield _failure(name, error)


def _failure(name: str, error: Exception) -> Finding:
    return damage(f"it cannot be read to the end ({error})", name)


def _bounded(findings: Iterator[Finding]) -> Iterator[Finding]:
    yield from islice(findings, MOST)
    rest = {"damage": 0, "note": 0}
    example: dict[str, Finding] = {}
    for finding in findings:
        rest[finding.level] += 1
        example[finding.level] = finding
    for level, last in example.items():
        yield replace(last, what=f"and {rest[level]} more of this sort", record="")
