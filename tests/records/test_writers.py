"""Several programs at once, programs that are killed, and what reaches the disk first."""

import os
import random
import re
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.records.witness import read_witness
from tests.records import writers
from tests.studios import new_register
from tests.tools import lack, need

WRITER = [sys.executable, str(Path(writers.__file__))]
ROOT = Path(writers.__file__).parents[2]
KILLS = 100
CALLS = "trace=write,pwrite64,fsync,fdatasync"


def whole(folder: Path, saved: list[int]) -> None:
    """The register opens, the audit finds nothing, and every saved entry is there."""
    report = audit(folder)
    assert report.findings == ()
    with Register.open(folder) as register:
        seqs = [seq for seq, _, _ in register.read.entries()]
    assert seqs == list(range(1, len(seqs) + 1))
    assert set(saved) <= set(seqs)


@pytest.mark.parametrize("programs", [2, 4])
def test_programs_that_write_at_once_lose_nothing(folder: Path, programs: int) -> None:
    new_register(folder).close()
    count = 200 // programs
    running = [
        subprocess.Popen(
            [*WRITER, "many", str(folder), f"w{number}", str(count)],
            stdout=subprocess.PIPE,
            cwd=ROOT,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
        )
        for number in range(programs)
    ]
    said = [program.communicate(timeout=50)[0] for program in running]
    assert [program.returncode for program in running] == [0] * programs
    saved = [int(line) for text in said for line in text.split()]
    assert sorted(saved) == list(range(2, 2 + programs * count))
    whole(folder, saved)
    witness = read_witness(folder)
    assert witness is not None
    assert witness.seq == 1 + programs * count


def test_a_writer_killed_at_any_moment_loses_nothing_that_was_saved(folder: Path) -> None:
    """A hundred times; each writer goes on where the last one was killed."""
    new_register(folder).close()
    saved: list[int] = []
    chance = random.Random(20310302)  # noqa: S311 - moments, not secrets
    for turn in range(KILLS):
        reads, writes = os.pipe()
        writer = os.fork()
        if writer == 0:
            os.dup2(writes, 1)
            try:
                writers.many(folder, f"k{turn}", 10_000)
            finally:
                os._exit(1)
        os.close(writes)
        # from the first breath of the program on, to well within its writing
        select.select([reads], [], [], chance.choice((0.002, 5)))
        time.sleep(chance.uniform(0, 0.03))
        os.kill(writer, signal.SIGKILL)
        _, status = os.waitpid(writer, 0)
        assert os.WIFSIGNALED(status)
        with os.fdopen(reads, "rb") as said:
            # a number that was cut off by the kill was not said
            saved += [int(line) for line in said if line.endswith(b"\n")]
        with Register.open(folder) as register:
            assert register.read.head()[0] >= (saved[-1] if saved else 1)
    assert len(saved) > KILLS
    whole(folder, saved)


def test_an_entry_reaches_the_disk_before_it_is_called_saved(folder: Path, tmp_path: Path) -> None:
    strace = need("strace")
    new_register(folder).close()
    log = tmp_path / "calls"
    traced = subprocess.run(
        [strace, "-f", "-y", "-o", str(log), "-e", CALLS, *WRITER, "once", str(folder)],
        capture_output=True,
        timeout=50,
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
    )
    if b"ptrace" in traced.stderr.lower() and traced.returncode:
        lack("this machine does not let programs be traced")
    assert traced.stdout == b"saved\n", traced.stderr
    calls = log.read_text(errors="replace").splitlines()
    (said,) = [n for n, call in enumerate(calls) if re.search(r'write\(1<.*"saved', call)]
    written = [n for n, call in enumerate(calls) if re.search(r"pwrite64\(.*db-wal", call)]
    synced = [n for n, call in enumerate(calls) if re.search(r"f(data)?sync\(.*db-wal", call)]
    last_write = max(n for n in written if n < said)
    assert any(last_write < n < said for n in synced)
    remembered = [n for n, call in enumerate(calls) if re.search(r"write\(.*/head>", call)]
    assert last_write < min(n for n in remembered if n > last_write) < said
