"""Several programs write at once; some of them are killed while they do."""

import os
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

from tests.faults.ground import Ground, Say, heard, in_a_child, killed_after
from tests.faults.outcome import Came, Outcome, judged
from tests.faults.registry import HARMLESS, fault
from tests.faults.workload import work


def _at_once(ground: Ground, programs: int, acts: int, *, for_s: float, kill: bool) -> Outcome:
    folder = ground.fresh()
    outs = [ground.place / f"said-{number}" for number in range(programs)]
    ends = time.monotonic() + for_s
    children = []
    for number, out in enumerate(outs):
        out.write_bytes(b"")

        def day(_say: Say, number: int = number, out: Path = out) -> None:
            with out.open("ab", buffering=0) as said:
                turn = 0
                while turn == 0 or time.monotonic() < ends:
                    work(folder, 1000 * number + turn, acts, said.write)
                    turn += 1

        children.append(in_a_child(day))
    if kill:
        for child, _reads in children[:-1]:
            killed_after(child, ground.chance.uniform(0, 0.15))
    for number, (child, reads) in enumerate(children):
        with os.fdopen(reads, "rb") as lines:
            failed = lines.read()
        if not (kill and number < programs - 1):
            os.waitpid(child, 0)
        if failed:
            return Outcome(Came.FAULT, failed.decode(errors="replace"))
    return _all_there(folder, ground, outs)


def _all_there(folder: Path, ground: Ground, outs: list[Path]) -> Outcome:
    said = dict(ground.said)
    count = 0
    for out in outs:
        lines = heard(out.read_bytes())
        count += len(lines)
        said |= lines
    if len(said) != len(ground.said) + count:
        return Outcome(Came.SILENT, "two programs were told the same number")
    outcome = judged(folder, said, f"{count} entries by {len(outs)} programs")
    shutil.rmtree(folder)
    return outcome


@fault("two programs write at once for a minute", long=1, short=0, allowed=HARMLESS)
def two(ground: Ground, times: int) -> Iterator[Outcome]:
    """Every number is given once, and everything is there."""
    for _ in range(times):
        yield _at_once(ground, 2, 50, for_s=60, kill=False)


@fault("four programs write at once for a minute", long=1, short=0, allowed=HARMLESS)
def four(ground: Ground, times: int) -> Iterator[Outcome]:
    """The same with four."""
    for _ in range(times):
        yield _at_once(ground, 4, 50, for_s=60, kill=False)


@fault("four write at once, and three are killed", long=60, short=3, allowed=HARMLESS)
def killed(ground: Ground, times: int) -> Iterator[Outcome]:
    """Whoever is left goes on."""
    for _ in range(times):
        yield _at_once(ground, 4, 25, for_s=0, kill=True)
