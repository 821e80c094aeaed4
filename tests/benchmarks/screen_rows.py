"""The rows of the terminal application."""

import asyncio
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.benchmarks.first_paint import SIZE, Prints
from tests.benchmarks.harness import Row, benchmark, compare
from tests.benchmarks.synthetic import make_synthetic_studio

FEW = int(os.environ.get("BENCHMARK_PRINTS", "100000"))
MANY = 10 * FEW
CEILING_MS = 50.0
CEILING_MB = 90.0
TYPED = ("s", "sl", "sli", "slip", "slipw", "slipway", "slipway 7", "slipway 7/50", "slipway", "")
BETWEEN_LETTERS_S = 0.08


def _paint(*what: str) -> str:
    return subprocess.run(
        (sys.executable, "-m", "tests.benchmarks.first_paint", *what),
        check=True,
        capture_output=True,
        text=True,
    ).stdout


@benchmark
def screen_paint(folder: Path) -> Iterator[Row]:
    """From the start of the program to rows on the screen, and what it takes to hold them."""
    for prints, budget in ((FEW, 1.5), (MANY, 2.0)):
        studio = folder / str(prints)
        make_synthetic_studio(studio, prints)
        for what, name in (("app", "application"), ("table", "table alone")):
            yield compare(
                f"{name}, {prints:,}",
                lambda what=what, studio=studio: _paint(what, str(studio)),  # type: ignore[misc]
                "Textual with one label",
                lambda: _paint("bare"),
                budget=budget,
                times=9,
            )
    peak_mb = float(_paint("memory", str(folder / str(MANY))).split()[-1])
    yield Row(f"memory, {MANY:,}", peak_mb, "ceiling", CEILING_MB, 1, "MB")


@benchmark
def screen_keys(folder: Path) -> Iterator[Row]:
    """What a key costs before its row is drawn, and how long nothing else is heard."""
    make_synthetic_studio(folder / "many", MANY)
    for name, longest_ms in asyncio.run(_keys(folder / "many")):
        yield Row(name, longest_ms, "ceiling 50 ms", CEILING_MS, 1)


async def _keys(studio: Path) -> list[tuple[str, float]]:
    app = Prints(studio, to_the_end=False)
    app.painted = lambda: None  # type: ignore[method-assign]
    async with app.run_test(size=SIZE):
        table = app.table

        def drawn(action: Callable[[], object]) -> float:
            start = time.perf_counter()
            action()
            for line in range(SIZE[1]):
                table.render_line(line)
            return (time.perf_counter() - start) * 1000

        async def settled() -> None:
            while table.busy:
                await asyncio.sleep(0.01)

        await settled()
        lines = max(drawn(lambda: table.action_move(1)) for _ in range(300))
        pages = max(drawn(lambda: table.action_page(1)) for _ in range(100))
        ends = max(drawn(lambda end=end: table.action_edge(end)) for end in (1, 0, 1))  # type: ignore[misc]
        marks = max(drawn(table.action_mark) for _ in range(20))
        pauses = Pauses()
        ticking = asyncio.create_task(pauses.watch())
        await asyncio.sleep(0.2)
        pauses.longest_ms = 0.0
        for words in TYPED:
            table.show_only(words)
            await asyncio.sleep(BETWEEN_LETTERS_S)
        await settled()
        typing = pauses.longest_ms
        pauses.longest_ms = 0.0
        for key in ("date", "mark", "number", "edition"):
            table.sort_by(key)
            await settled()
        sorting = pauses.longest_ms
        ticking.cancel()
    return [
        ("one row down, longest", lines),
        ("one page down, longest", pages),
        ("first or last, longest", ends),
        ("mark, longest", marks),
        ("pause while typing", typing),
        ("pause while sorting", sorting),
    ]


class Pauses:
    """Listens on the event loop, and notes the longest time in which it was not heard."""

    STEP_S = 0.002

    def __init__(self) -> None:
        self.longest_ms = 0.0

    async def watch(self) -> None:
        while True:
            start = time.perf_counter()
            await asyncio.sleep(self.STEP_S)
            late_ms = (time.perf_counter() - start - self.STEP_S) * 1000
            self.longest_ms = max(self.longest_ms, late_ms)
