"""Something holds the register up: another program stands still, or the disk answers slowly."""

import os
import shutil
import signal
import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

from provenance.errors import Refused
from provenance.model.negative import Negative
from provenance.records.register import Register
from tests.faults.ground import Ground, Say, heard, in_a_child, under_strace
from tests.faults.outcome import Came, Outcome, judged
from tests.faults.registry import HARMLESS, HARMLESS_OR_REFUSED, fault
from tests.faults.workload import work
from tests.studios import clock
from tests.tools import need


@fault("another program stands still in its act", long=30, short=3, allowed=HARMLESS_OR_REFUSED)
def stopped_writer(ground: Ground, times: int) -> Iterator[Outcome]:
    """Stopped with the lock held; waited for, then named; readers never wait."""
    for turn in range(times):
        folder = ground.fresh()
        child, reads = in_a_child(partial(_hold, folder))
        with os.fdopen(reads, "rb") as lines:
            lines.readline()
            os.kill(child, signal.SIGSTOP)
            try:
                outcome = _beside(folder, child, patient=turn % 2 == 1)
            finally:
                os.kill(child, signal.SIGCONT)
                os.kill(child, signal.SIGKILL)
                os.waitpid(child, 0)
        whole = judged(folder, ground.said, f"turn {turn}")
        yield outcome if whole.came is Came.WHOLE else whole
        shutil.rmtree(folder)


def _hold(folder: Path, say: Say) -> None:
    with Register.open(folder, clock=clock()) as register, register.act("other") as act:
        act.enter(Negative(code="HELD", title="half way"))
        say(b"held\n")
        time.sleep(0.05)


def _beside(folder: Path, child: int, *, patient: bool) -> Outcome:
    with Register.open(folder, clock=clock()) as register:
        if register.read.by_code(Negative, "HELD") is not None:
            return Outcome(Came.FAULT, "what is half way can be seen")
        register.read.connection.execute(f"PRAGMA busy_timeout = {10_000 if patient else 50}")
        if patient:
            threading.Timer(0.2, os.kill, (child, signal.SIGCONT)).start()
        try:
            with register.act("printer") as act:
                act.enter(Negative(code="WAITED", title="after it"))
        except Refused as refusal:
            in_words = not patient and "another program is writing" in str(refusal)
            return Outcome(Came.REFUSED if in_words else Came.FAULT, str(refusal))
        return Outcome(Came.WHOLE if patient else Came.FAULT, "both acts are there")


@fault("each sync of the disk takes long", long=10, short=1, allowed=HARMLESS)
def slow_disk(ground: Ground, times: int) -> Iterator[Outcome]:
    """As over a network or on a tired disk: slower, and nothing else."""
    strace = need("strace")
    for turn in range(times):
        folder = ground.fresh()
        words = ("-m", "tests.faults.saying", str(folder), str(turn), "6")
        ran = under_strace(strace, "fdatasync:delay_enter=150000", words)
        if b"!" in ran.stdout or ran.returncode:
            yield Outcome(Came.FAULT, f"{ran.stdout[-300:]!r} {ran.stderr[-300:]!r}")
            continue
        said = heard(ran.stdout)
        yield judged(folder, ground.said | said, f"{len(said)} entries")
        shutil.rmtree(folder)


@fault("a reader stands still for a whole day", long=6, short=1, allowed=HARMLESS)
def stopped_reader(ground: Ground, times: int) -> Iterator[Outcome]:
    """The log cannot be folded in while somebody reads an old state; it grows, and is whole."""
    for turn in range(times):
        folder = ground.fresh()
        lines: list[bytes] = []
        with closing(sqlite3.connect(folder / "register.db", isolation_level=None)) as reader:
            reader.execute("BEGIN")
            (held,) = reader.execute("SELECT count(*) FROM journal").fetchone()
            work(folder, turn, 120, lines.append)
            (still,) = reader.execute("SELECT count(*) FROM journal").fetchone()
        if held != still:
            yield Outcome(Came.FAULT, "a reader's state changed under it")
            continue
        yield judged(folder, ground.said | heard(b"".join(lines)), f"turn {turn}")
        shutil.rmtree(folder)
