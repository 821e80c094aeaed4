"""Prints the table of ratios."""

import sys
import tempfile
from pathlib import Path

from tests.benchmarks import rows, screen_rows
from tests.benchmarks.harness import BENCHMARKS

# imported for what they register
assert rows
assert screen_rows


def main(words: list[str]) -> None:
    """Run the benchmarks whose names hold one of `words`; all of them without."""
    print(f"{'what':<26} {'ours':>11} {'baseline':>11} {'ratio':>7} {'budget':>7}  against")
    for name, function in BENCHMARKS.items():
        if words and not any(word in name for word in words):
            continue
        with tempfile.TemporaryDirectory() as folder:
            for row in function(Path(folder)):
                verdict = "" if row.within else "  over"
                print(
                    f"{row.name:<26} {row.ours_ms:>8.1f} {row.unit}"
                    f" {row.baseline_ms:>8.1f} {row.unit}"
                    f" {row.ratio:>6.2f}x {row.budget:>6.1f}x  {row.baseline}{verdict}",
                    flush=True,
                )


if __name__ == "__main__":
    main(sys.argv[1:])
