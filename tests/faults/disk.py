"""The disk is full, fails, or may not be written to."""

import os
import resource
import shutil
import signal
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from provenance.records.audit import audit
from tests.faults.ground import Ground, Say, heard, in_a_child, under_strace
from tests.faults.outcome import Came, Outcome, judged
from tests.faults.registry import HARMLESS_OR_REFUSED, fault
from tests.faults.workload import work
from tests.tools import lack, need


@contextmanager
def small_disk(at: Path, size: int) -> Iterator[Path]:
    """A disk of `size` bytes mounted at `at`; only root may."""
    mount, umount = need("mount"), need("umount")
    at.mkdir(parents=True, exist_ok=True)
    options = ["-t", "tmpfs", "-o", f"size={size}", "none", str(at)]
    if subprocess.run([mount, *options], capture_output=True, check=False).returncode:
        lack("this user may not mount a small disk")
    try:
        yield at
    finally:
        subprocess.run([umount, str(at)], check=True)


@fault("the disk fills up under a working day", long=100, short=4, allowed=HARMLESS_OR_REFUSED)
def full(ground: Ground, times: int) -> Iterator[Outcome]:
    """There is room for so much more and no more; refused in words, and whole after it."""
    for turn in range(times):
        with small_disk(ground.place / "disk", 8_000_000) as disk:
            folder = Path(shutil.copytree(ground.fresh(), disk / "studio"))
            ballast = disk / "ballast"
            _fill(ballast, leave=ground.chance.randint(0, 600_000))
            said, end = _day(folder, turn)
            ballast.unlink()
            yield _refused_and_whole(folder, ground.said | said, end, "the disk |No space")


def _fill(ballast: Path, leave: int) -> None:
    with ballast.open("wb", buffering=0) as file, suppress(OSError):
        while True:
            file.write(bytes(4096))
    with ballast.open("r+b") as file:
        file.truncate(max(0, ballast.stat().st_size - leave))


@fault("files may grow to a limit only", long=100, short=4, allowed=HARMLESS_OR_REFUSED)
def limited(ground: Ground, times: int) -> Iterator[Outcome]:
    """A quota: no file may become longer than so much."""
    for turn in range(times):
        folder = ground.fresh()
        most = ground.chance.randint(1_000, 600_000)
        said, end = _day(folder, turn, most=most)
        yield _refused_and_whole(folder, ground.said | said, end, "the disk|File too large")
        shutil.rmtree(folder)


def _day(folder: Path, seed: int, *, most: int | None = None) -> tuple[dict[int, str], str]:
    """A working day in a process of its own: what it called saved, and the words it ended with."""

    def do(say: Say) -> None:
        if most is not None:
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
        work(folder, seed, 150, say)

    child, reads = in_a_child(do)
    with os.fdopen(reads, "rb") as lines:
        text = lines.read()
    os.waitpid(child, 0)
    said, _, end = text.partition(b"!")
    return heard(said), end.decode(errors="replace").strip()


def _refused_and_whole(folder: Path, said: dict[int, str], end: str, words: str) -> Outcome:
    """Whole it must be after all; how it ended in between must have been in words."""
    whole = judged(folder, said, end)
    if whole.came is not Came.WHOLE or not end:
        return whole
    if end.startswith("Refused") and any(word in end for word in words.split("|")):
        return Outcome(Came.REFUSED, end)
    return Outcome(Came.FAULT, end)


_FAILURES = (
    *("pwrite64:error=EIO", "fdatasync:error=EIO", "pwrite64:error=ENOSPC", "fsync:error=EIO"),
    *("write:error=ENOSPC", "rename:error=EIO", "ftruncate:error=EIO", "unlink:error=EACCES"),
)


@fault("one write, sync or rename fails", long=120, short=2, allowed=HARMLESS_OR_REFUSED)
def failing(ground: Ground, times: int) -> Iterator[Outcome]:
    """The Nth call of one sort fails once, as on a disk that begins to die."""
    strace = need("strace")
    for turn in range(times):
        folder = ground.fresh()
        failure = _FAILURES[turn % len(_FAILURES)]
        when = ground.chance.randint(1, 60 if failure.startswith("pwrite64") else 12)
        words = ("-m", "tests.faults.saying", str(folder), str(turn), "12")
        ran = under_strace(strace, f"{failure}:when={when}", words)
        said, _, end = ran.stdout.partition(b"!")
        outcome = judged(folder, ground.said | heard(said), f"{failure}:when={when} {end!r}")
        refused = end.startswith((b"Refused", b"Damaged"))
        if outcome.came is Came.WHOLE and (end or ran.returncode):
            # the program may also be unable to say that it was saved
            mute = b"OSError" in end and failure.startswith("write")
            outcome = Outcome(Came.REFUSED if refused or mute else Came.FAULT, outcome.about)
        yield outcome
        shutil.rmtree(folder)


@fault("the folder may not be written to", long=8, short=2, allowed=HARMLESS_OR_REFUSED)
def read_only(ground: Ground, times: int) -> Iterator[Outcome]:
    """By its permissions, for one who is not root; by its mount, for everybody."""
    for turn in range(times):
        with small_disk(ground.place / f"still-{turn}", 8_000_000) as disk:
            folder = Path(shutil.copytree(ground.fresh(), disk / "studio"))
            if turn % 2:
                subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
                said, end = _day(folder, turn)
            else:
                for path in (folder, *folder.rglob("*")):
                    path.chmod(0o555 if path.is_dir() else 0o444)
                said, end = _as_nobody(folder)
            if audit(folder).damaged or said:
                yield Outcome(Came.FAULT, f"{audit(folder).findings} {said}")
                continue
            refused = end.startswith("Refused") and "written" in end
            yield Outcome(Came.REFUSED if refused else Came.FAULT, end)


def _as_nobody(folder: Path) -> tuple[dict[int, str], str]:
    def do(say: Say) -> None:
        if os.getuid() == 0:
            os.setgid(65534)
            os.setuid(65534)
        work(folder, 1, 3, say)

    # whoever is not root must be able to come to the folder at all
    for parent in folder.parents:
        with suppress(PermissionError):
            parent.chmod(parent.stat().st_mode | 0o011)
    child, reads = in_a_child(do)
    with os.fdopen(reads, "rb") as lines:
        text = lines.read()
    os.waitpid(child, 0)
    said, _, end = text.partition(b"!")
    return heard(said), end.decode(errors="replace").strip()
