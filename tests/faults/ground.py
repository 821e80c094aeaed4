"""A studio to bring faults about in: built once, copied for each of them."""

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from provenance.records.register import Register
from provenance.studio.certifying.certify import certify
from tests import studios
from tests.faults.workload import work
from tests.studio.finished import another, desk

ROOT = Path(__file__).parents[2]
Say = Callable[[bytes], object]
PDF = b"%PDF of a certificate"


@dataclass
class Ground:
    """A place to work in, and the chance by which moments, pages and bytes are chosen."""

    place: Path
    chance: random.Random
    said: dict[int, str] = field(default_factory=dict)
    """The entries of the studio that is copied, each with its digest."""
    _made: int = 0

    def fresh(self) -> Path:
        """A copy of the studio: prints, scans, a certificate, two persons, two hundred entries."""
        model = self.place / "model"
        if not model.exists():
            self._build(model)
        self._made += 1
        return copied(model, self.place / f"studio-{self._made}")

    def quiet(self) -> Path:
        """A copy of the same studio before its random working day; none of its prints is gone."""
        model = self.place / "quiet"
        if not model.exists():
            self._furnish(model)
        self._made += 1
        return copied(model, self.place / f"quiet-{self._made}")

    def aside(self, folder: Path) -> Path:
        """A copy of `folder` to look at, so that looking changes nothing."""
        self._made += 1
        return copied(folder, self.place / f"aside-{self._made}")

    def _build(self, folder: Path) -> None:
        self._furnish(folder)
        work(folder, 1, 60, lambda _line: None)
        with Register.open(folder, clock=studios.clock()) as register:
            self.said = {seq: digest for seq, _entry, digest in register.read.entries()}

    def _furnish(self, folder: Path) -> None:
        held = desk(folder)
        others = [another(held, f"Q{number}", f"{number}/25") for number in range(8, 12)]
        studios.enter(held.register, *(studios.reading(one) for one in others[:2]))
        certify(held.register, held.folder, others[-1])
        paper = studios.certificate(held.register, held.print, PDF)
        (folder / "certificates" / paper.file_name).write_bytes(PDF)
        (folder / "certificates" / paper.record_name).write_bytes(studios.RECORD)
        studios.enter(held.register, paper, studios.negative(code="N-9"))
        held.register.close()


def copied(source: Path, target: Path) -> Path:
    """A copy of a studio folder that no program has open."""
    return Path(shutil.copytree(source, target))


def heard(lines: bytes) -> dict[int, str]:
    """What was said aloud: entries with their digests; a line that was cut off was not said."""
    whole = (line.split() for line in lines.splitlines(keepends=True) if line.endswith(b"\n"))
    return {int(seq): digest.decode() for seq, digest in whole}


def in_a_child(do: Callable[[Say], object]) -> tuple[int, int]:
    """Run `do` in a process of its own; its id, and where what it says can be read.

    What it raises is said on a line that begins with ``!``.
    """
    reads, writes = os.pipe()
    child = os.fork()
    if child:
        os.close(writes)
        return child, reads
    status = 1
    try:
        os.close(reads)
        do(lambda line: os.write(writes, line))
        status = 0
    except BaseException as error:
        os.write(writes, f"!{type(error).__name__}: {error}\n".encode())
    finally:
        os._exit(status)


def killed_after(child: int, seconds: float) -> bool:
    """Wait, then kill; whether it was still alive to be killed."""
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    return os.WIFSIGNALED(status)


def under_strace(
    strace: str, inject: str, words: Sequence[str], **env: str
) -> subprocess.CompletedProcess[bytes]:
    """Run `python words...` with a fault injected into its system calls."""
    calls = inject.partition(":")[0]
    return subprocess.run(
        [
            *(strace, "-f", "-qq", "-o", os.devnull, "-e", f"trace={calls}"),
            *("-e", f"inject={inject}", sys.executable, *words),
        ],
        capture_output=True,
        cwd=ROOT,
        timeout=120,
        check=False,
        env=os.environ | {"PYTHONPATH": str(ROOT)} | env,
    )
