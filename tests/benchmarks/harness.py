"""Measures two things by turns, so that both meet the same machine, and compares them."""

import gc
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

Work = Callable[[], object]


@dataclass(frozen=True)
class Row:
    """One line of the table: what was measured, against what, and the budget."""

    name: str
    ours_ms: float
    baseline: str
    baseline_ms: float
    budget: float
    unit: str = "ms"

    @property
    def ratio(self) -> float:
        """How many times as long as the baseline."""
        return self.ours_ms / self.baseline_ms

    @property
    def within(self) -> bool:
        """Whether the budget is kept."""
        return self.ratio <= self.budget


@dataclass(frozen=True)
class Growth:
    """One line of the table of growth: the time at each size, and the exponent fitted to them."""

    name: str
    taken_ms: dict[int, float]
    exponent: float
    most: float

    @property
    def within(self) -> bool:
        """Whether it grows no faster than it may."""
        return self.exponent <= self.most


Benchmark = Callable[[Path], Iterator[Row] | Iterator[Growth]]
BENCHMARKS: dict[str, Benchmark] = {}


def benchmark(function: Benchmark) -> Benchmark:
    """Register a function that yields rows; it is given a folder to work in."""
    BENCHMARKS[function.__name__] = function
    return function


def compare(
    name: str,
    ours: Work,
    baseline_name: str,
    baseline: Work,
    *,
    budget: float,
    times: int = 7,
) -> Row:
    """The quickest of `times` runs each, taken by turns after one run that does not count.

    Other work on the machine can only slow a run down, so the quickest says most.
    """
    ours()
    baseline()
    ours_ms: list[float] = []
    baseline_ms: list[float] = []
    for _ in range(times):
        ours_ms.append(_clocked(ours))
        baseline_ms.append(_clocked(baseline))
    return Row(name, min(ours_ms), baseline_name, min(baseline_ms), budget)


def once_ms(work: Work) -> float:
    """How long one run takes, for what cannot be repeated."""
    return _clocked(work)


def _clocked(work: Work) -> float:
    gc.collect()
    start = time.perf_counter_ns()
    work()
    return (time.perf_counter_ns() - start) / 1e6
