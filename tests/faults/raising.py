"""The program is killed while it raises a register to the form of a later release."""

import os
import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from provenance.records.audit import audit
from provenance.records.connection import GENERATION, connect, generation
from provenance.records.migrations import bring_up
from tests.faults.ground import Ground, Say, in_a_child, killed_after
from tests.faults.outcome import Came, Outcome
from tests.faults.registry import HARMLESS, fault
from tests.records.to_come import NEWER, release_to_come

_COPY = f"register.before-{NEWER}.db"


@fault("a register is killed while it is raised", long=100, short=6, allowed=HARMLESS)
def raised(ground: Ground, times: int) -> Iterator[Outcome]:
    """It is of the old form or of the new one, with every entry; what was left behind is told."""
    usual_s = _usual_s(ground)
    for _ in range(times):
        folder = ground.fresh()
        child, reads = in_a_child(lambda _say, folder=folder: _raise(folder, _say))
        os.close(reads)
        killed_after(child, ground.chance.uniform(0, usual_s))
        yield _after(ground, folder)
        shutil.rmtree(folder)


def _raise(folder: Path, _say: Say) -> None:
    path = folder / "register.db"
    with closing(connect(path)) as connection:
        bring_up(connection, path, newest=NEWER, migrations=release_to_come())


def _usual_s(ground: Ground) -> float:
    """How long it takes when nobody kills it, process and all."""
    folder = ground.fresh()
    begun = time.monotonic()
    child, reads = in_a_child(lambda say: _raise(folder, say))
    os.close(reads)
    os.waitpid(child, 0)
    usual_s = time.monotonic() - begun
    shutil.rmtree(folder)
    return usual_s


def _after(ground: Ground, folder: Path) -> Outcome:
    form, held = _held(folder / "register.db")
    if held != ground.said:
        return Outcome(Came.SILENT, f"form {form}: entries are gone")
    copy = folder / _COPY
    if copy.exists() and _held(copy) != (GENERATION, ground.said):
        return Outcome(Came.SILENT, f"form {form}: the copy is not whole")
    if form == NEWER and not copy.exists():
        return Outcome(Came.SILENT, "raised, and no copy was kept")
    if form == GENERATION:
        told = " ".join(one.what for one in audit(folder).findings)
        if not all(path.name in told for path in folder.glob(".*.part*")):
            return Outcome(Came.SILENT, f"not told what was left: {sorted(folder.iterdir())}")
        _raise(folder, lambda _line: None)
    if _held(folder / "register.db") != (NEWER, ground.said):
        return Outcome(Came.FAULT, "a second time does not raise it")
    return Outcome(Came.WHOLE, f"form {form}")


def _held(path: Path) -> tuple[int, dict[int, str]]:
    """The form of a register, and its entries with their digests."""
    with closing(sqlite3.connect(path)) as register:
        return generation(register), dict(register.execute("SELECT seq, digest FROM journal"))
