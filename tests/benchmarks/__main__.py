"""Prints the table of ratios, and that of growth."""

import sys
import tempfile
from pathlib import Path

from tests.benchmarks import growth, rows, screen_rows
from tests.benchmarks.harness import BENCHMARKS, Growth, Row

# imported for what they register
_ = growth, rows, screen_rows


def main(words: list[str]) -> None:
    """Run the benchmarks whose names hold one of `words`; all of them without."""
    heads = ""
    for name, function in BENCHMARKS.items():
        if words and not any(word in name for word in words):
            continue
        with tempfile.TemporaryDirectory() as folder:
            for row in function(Path(folder)):
                if heads != (heads := _heads(row)):
                    print(heads)
                verdict = "" if row.within else "  over"
                print((_ratio(row) if isinstance(row, Row) else _growth(row)) + verdict, flush=True)


def _heads(row: Row | Growth) -> str:
    if isinstance(row, Row):
        return f"{'what':<26} {'ours':>11} {'baseline':>11} {'ratio':>7} {'budget':>7}  against"
    sizes = " ".join(f"{f'{size:,}':>12}" for size in row.taken_ms)
    return f"{'ms, with so many prints':<28} {sizes} {'exponent':>9} {'at most':>8}"


def _ratio(row: Row) -> str:
    return (
        f"{row.name:<26} {row.ours_ms:>8.1f} {row.unit} {row.baseline_ms:>8.1f} {row.unit}"
        f" {row.ratio:>6.2f}x {row.budget:>6.1f}x  {row.baseline}"
    )


def _growth(row: Growth) -> str:
    times = " ".join(f"{ms:>12,.1f}" for ms in row.taken_ms.values())
    return f"{row.name:<28} {times} {row.exponent:>9.2f} {row.most:>8.2f}"


if __name__ == "__main__":
    main(sys.argv[1:])
