"""Brings every fault about and prints what came of it: python -m tests.faults [WORD...] [--short]

Only faults whose names hold one of the words, where there are any.  `--chance N` chooses
other moments, pages and bytes.
"""

import argparse
import random
import sys
import tempfile
from pathlib import Path

from tests.faults.every import ALL
from tests.faults.ground import Ground
from tests.faults.outcome import Came
from tests.faults.registry import tally

_COLUMNS = tuple(Came)


def main(words: list[str]) -> int:
    """Print the table; the exit status says whether anything came that must not."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults")
    parser.add_argument("words", nargs="*")
    parser.add_argument("--short", action="store_true")
    parser.add_argument("--chance", type=int, default=1)
    given = parser.parse_args(words)
    heads = "  ".join(f"{came.value:>12}" for came in _COLUMNS)
    print(f"{'what goes wrong':<50} {'times':>6}  {heads}")
    bad: list[str] = []
    for name, one in ALL.items():
        if given.words and not any(word in name for word in given.words):
            continue
        times = one.short if given.short else one.long
        with tempfile.TemporaryDirectory() as place:
            chance = random.Random(f"{given.chance} {name}")  # noqa: S311 - moments, not secrets
            came = tally(one, Ground(Path(place), chance), times)
        cells = "  ".join(f"{came.counts[column] or '-':>12}" for column in _COLUMNS)
        print(f"{name:<50} {came.counts.total():>6}  {cells}", flush=True)
        bad += [f"{name}: {what}" for what in came.amiss]
    for what in bad:
        print(what[:1500])
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
