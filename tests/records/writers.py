"""Programs of their own that write to a register while a test looks on.

python writers.py many FOLDER NAME COUNT   enter COUNT negatives, each in an act
python writers.py once FOLDER              enter one, then say "saved"
"""

import os
import sys
from pathlib import Path

from provenance.model.negative import Negative
from provenance.records.register import Register


def many(folder: Path, name: str, count: int) -> None:
    """Enter `count` negatives; each number is said aloud once it is saved."""
    with Register.open(folder) as register:
        for number in range(count):
            with register.act(name) as act:
                seq = act.enter(Negative(code=f"{name}-{number}", title=f"{name} {number}"))
            os.write(1, b"%d\n" % seq)


def once(folder: Path) -> None:
    """Enter one negative and say that it is saved."""
    with Register.open(folder) as register:
        with register.act("printer") as act:
            act.enter(Negative(code="N-1", title="Slipway"))
        os.write(1, b"saved\n")


if __name__ == "__main__":
    if sys.argv[1] == "many":
        many(Path(sys.argv[2]), sys.argv[3], int(sys.argv[4]))
    else:
        once(Path(sys.argv[2]))
