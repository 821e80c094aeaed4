"""The register itself is spoiled: bytes, pages, its end, its log, its witness."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

from tests.faults.ground import Ground, copied, heard, in_a_child, killed_after
from tests.faults.outcome import Outcome, judged
from tests.faults.registry import ANY, HARMLESS, TOLD, fault
from tests.faults.workload import STAYING, work

PAGE = 4096


def _each(ground: Ground, times: int) -> Iterator[tuple[int, Path, Path]]:
    for turn in range(times):
        folder = ground.fresh()
        yield turn, folder, folder / "register.db"
        shutil.rmtree(folder)


@fault("a page of the register is overwritten", long=300, short=20)
def page(ground: Ground, times: int) -> Iterator[Outcome]:
    """With noise, zeros or another page; a page that was free is nobody's loss."""
    for _, folder, file in _each(ground, times):
        data, chance = file.read_bytes(), ground.chance
        at = chance.randrange(len(data) // PAGE) * PAGE
        other = chance.randrange(len(data) // PAGE) * PAGE
        new = chance.choice((chance.randbytes(PAGE), bytes(PAGE), data[other : other + PAGE]))
        file.write_bytes(data[:at] + new + data[at + PAGE :])
        yield judged(folder, ground.said, f"page {at // PAGE + 1}")


@fault("a byte of the register is changed", long=300, short=20)
def byte(ground: Ground, times: int) -> Iterator[Outcome]:
    """One bit or all of one byte; much of a page is room that nothing stands in."""
    for _, folder, file in _each(ground, times):
        data, chance = bytearray(file.read_bytes()), ground.chance
        at = chance.randrange(len(data))
        data[at] ^= chance.choice((1 << chance.randrange(8), 0xFF))
        file.write_bytes(data)
        yield judged(folder, ground.said, f"byte {at}")


@fault("the register is cut short", long=100, short=8, allowed=TOLD | HARMLESS)
def cut(ground: Ground, times: int) -> Iterator[Outcome]:
    """At any length, down to nothing; an end that was free is nobody's loss."""
    for _, folder, file in _each(ground, times):
        size = ground.chance.choice((0, 100, ground.chance.randrange(file.stat().st_size)))
        with file.open("r+b") as register:
            register.truncate(size)
        yield judged(folder, ground.said, f"cut to {size}")


@fault("the log is cut short", long=200, short=12, allowed=TOLD)
def log_cut(ground: Ground, times: int) -> Iterator[Outcome]:
    """After a kill the log holds what was saved last; the witness remembers how much."""
    folder, said = _killed_with_a_log(ground)
    size = (folder / "register.db-wal").stat().st_size
    for turn in range(times):
        aside = copied(folder, ground.place / "log")
        keep = 0 if turn == 0 else ground.chance.randrange(size - PAGE)
        with (aside / "register.db-wal").open("r+b") as log:
            log.truncate(keep)
        yield judged(aside, said, f"log of {size} cut to {keep}")
        shutil.rmtree(aside)


@fault("a byte of the log is changed", long=200, short=12)
def log_byte(ground: Ground, times: int) -> Iterator[Outcome]:
    """Sums in the log end it at the first wrong byte."""
    folder, said = _killed_with_a_log(ground)
    for _ in range(times):
        aside = copied(folder, ground.place / "log")
        log = aside / "register.db-wal"
        data = bytearray(log.read_bytes())
        at = ground.chance.randrange(len(data))
        data[at] ^= 0xFF
        log.write_bytes(data)
        yield judged(aside, said, f"byte {at} of {len(data)}")
        shutil.rmtree(aside)


def _killed_with_a_log(ground: Ground) -> tuple[Path, dict[int, str]]:
    """A studio whose last thirty acts stand in the log alone."""
    folder = ground.fresh()
    child, reads = in_a_child(lambda say: work(folder, 5, 30, say, stay=True))
    with os.fdopen(reads, "rb") as lines:
        said = heard(b"".join(iter(lines.readline, STAYING)))
    assert killed_after(child, 0)
    return folder, ground.said | said


@fault("the log's index is lost or spoiled", long=40, short=4, allowed=HARMLESS)
def index(ground: Ground, times: int) -> Iterator[Outcome]:
    """It is made anew from the log by whoever opens the register."""
    folder, said = _killed_with_a_log(ground)
    for turn in range(times):
        aside = copied(folder, ground.place / "log")
        shared = aside / "register.db-shm"
        if turn % 2:
            shared.write_bytes(ground.chance.randbytes(shared.stat().st_size))
        else:
            shared.unlink()
        yield judged(aside, said, "index")
        shutil.rmtree(aside)


@fault("the witness is lost or spoiled", long=60, short=6, allowed=ANY)
def witness(ground: Ground, times: int) -> Iterator[Outcome]:
    """Without a witness nothing is lost; one that speaks of another end is told."""
    for turn, folder, _ in _each(ground, times):
        head = folder / "head"
        line = bytearray(head.read_bytes())
        if turn % 3 == 0:
            head.unlink()
        elif turn % 3 == 1:
            line[ground.chance.randrange(len(line))] ^= 1 << ground.chance.randrange(7)
            head.write_bytes(line)
        else:
            head.write_bytes(line[: ground.chance.randrange(len(line))])
        yield judged(folder, ground.said, f"witness {turn % 3}: {bytes(line)!r}")
