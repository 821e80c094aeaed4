"""The program is killed: at random moments of a working day, and at each of its system calls."""

import os
import select
import shutil
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from provenance.records.witness import Head, read_witness, write_witness
from tests.faults.ground import Ground, Say, heard, in_a_child, killed_after, under_strace
from tests.faults.outcome import Came, Outcome, judged
from tests.faults.registry import HARMLESS, fault
from tests.faults.workload import work
from tests.tools import need


@fault("killed at a random moment of a working day", long=400, short=12, allowed=HARMLESS)
def at_any_moment(ground: Ground, times: int) -> Iterator[Outcome]:
    """Each program goes on in the studio where the last one was killed."""
    folder = ground.fresh()
    said = dict(ground.said)
    for turn in range(times):
        child, reads = in_a_child(partial(work, folder, turn, 10_000))
        # from its first breath on, to well within its writing
        select.select([reads], [], [], ground.chance.choice((0.002, 5)))
        alive = killed_after(child, ground.chance.uniform(0, 0.05))
        lines = _read(reads)
        if not alive:
            yield Outcome(Came.FAULT, lines.decode(errors="replace")[-500:])
            return
        said |= heard(lines)
        aside = ground.aside(folder)
        yield judged(aside, said, f"turn {turn}")
        shutil.rmtree(aside)


@fault("killed, and the unsynced end of the log torn", long=200, short=6, allowed=HARMLESS)
def with_a_torn_log(ground: Ground, times: int) -> Iterator[Outcome]:
    """A power cut: what was written after the last sync may be anything."""
    for turn in range(times):
        folder = ground.fresh()
        log = folder / "register.db-wal"

        child, reads = in_a_child(partial(_day_with_sizes, folder, turn, log))
        select.select([reads], [], [], 5)
        killed_after(child, ground.chance.uniform(0, 0.1))
        lines = [line for line in _read(reads).splitlines(True) if line.endswith(b"\n")]
        said = ground.said | heard(b"".join(line.split(b" ", 1)[1] for line in lines))
        kept = int(lines[-1].split()[0]) if lines else 0
        _tear(log, kept, ground)
        _lag(folder, said)
        yield judged(folder, said, f"turn {turn}, {kept} bytes kept")
        shutil.rmtree(folder)


def _day_with_sizes(folder: Path, seed: int, log: Path, say: Say) -> None:
    # the log had no more bytes than these when the entry was called saved
    work(folder, seed, 40, lambda line: say(b"%d %s" % (log.stat().st_size, line)))


def _tear(log: Path, kept: int, ground: Ground) -> None:
    if not log.exists():
        return
    size, chance = log.stat().st_size, ground.chance
    # folded in meanwhile: all of it is in the register
    kept = min(kept, size)
    with log.open("r+b") as file:
        if chance.random() < 0.3:
            file.truncate(chance.randint(kept, size))
            return
        for start in range(kept, size, 4096):
            if chance.random() < 0.5:
                file.seek(start)
                length = min(4096, size - start)
                file.write(chance.choice((bytes(length), chance.randbytes(length))))


def _lag(folder: Path, said: dict[int, str]) -> None:
    """Let the witness know no more than what was said; it is never synced."""
    witness = read_witness(folder)
    if witness is not None and witness.seq > max(said):
        last = max(said)
        write_witness(folder, Head(last, said[last], witness.studio_id))


def _read(reads: int) -> bytes:
    with os.fdopen(reads, "rb") as said:
        return said.read()


_CALLS = ("pwrite64", "fdatasync", "write", "fsync", "rename", "unlink", "openat")


@fault("killed at one chosen system call", long=150, short=3, allowed=HARMLESS)
def at_one_call(ground: Ground, times: int) -> Iterator[Outcome]:
    """The kernel kills it on the way into its Nth write, sync, rename, removal or opening."""
    strace = need("strace")
    for turn in range(times):
        folder = ground.fresh()
        call = _CALLS[turn % len(_CALLS)]
        most = {"pwrite64": 150, "write": 60, "openat": 700}.get(call, 25)
        when = ground.chance.randint(1, most)
        words = ("-m", "tests.faults.workload", str(folder), str(turn), "12")
        ran = under_strace(strace, f"{call}:signal=KILL:when={when}", words)
        yield judged(folder, ground.said | heard(ran.stdout), f"turn {turn}: {call} {when}")
        shutil.rmtree(folder)
