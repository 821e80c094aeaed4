"""The working day of `workload`, which also says how it ended: a line that begins with ``!``.

python -m tests.faults.saying FOLDER SEED ACTS
"""

import os
import sys
from pathlib import Path

from tests.faults.workload import work

if __name__ == "__main__":
    try:
        work(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), lambda line: os.write(1, line))
    except Exception as error:
        os.write(1, f"!{type(error).__name__}: {error}\n".encode())
