"""The most memory that this process has held.

    python -m tests.benchmarks.memory thumbnail FILE    prints what one thumbnail takes, in MB

A program started by a large one inherits the large one's `ru_maxrss` on Linux,
so what the kernel tells of this address space alone is asked for first.
"""

import resource
import sys
from pathlib import Path

_STATUS = Path("/proc/self/status")


def peak_mb() -> float:
    """The peak of this process, in MB (2^20 bytes)."""
    if _STATUS.exists():
        for line in _STATUS.read_text(encoding="ascii").splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    from provenance.records.images import make_thumbnail

    make_thumbnail(Path(sys.argv[2]))
    print(peak_mb())
