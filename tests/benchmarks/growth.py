"""How cost grows with the number of prints: each thing in studios of four sizes, and the exponent.

The exponent is the slope of a straight line through the logarithms of size and
time (least squares): 0 means that size does not matter, 1 that twice the prints
take twice as long, 2 that they take four times as long.
"""

import math
import os
import statistics
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import count
from pathlib import Path

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.audit import audit
from provenance.records.dossier import print_history
from provenance.records.glance import glance
from provenance.records.listing import found_ids, print_rows
from provenance.records.print_order import print_order
from provenance.records.projection import rebuild
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.backup import back_up
from tests.benchmarks.harness import Growth, benchmark, once_ms
from tests.benchmarks.studios import enter_prints, new_register

LARGEST = int(os.environ.get("BENCHMARK_LARGEST", "1000000"))
SIZES = [size for size in (1_000, 10_000, 100_000, 1_000_000) if size <= LARGEST]
EVEN = 0.2
"""What should not depend on size may grow by so much: a tree of pages has more storeys."""
LINEAR = 1.1
QUICK_TIMES = 30


@dataclass(frozen=True)
class Grown:
    """A studio of one size, open, and what it took to enter its prints."""

    folder: Path
    register: Register
    prints: int
    entered_ms: float


@dataclass(frozen=True)
class Deed:
    """Something that is done in a studio of any size."""

    name: str
    most: float
    do: Callable[[Grown], object]
    times: int = 1


_numbers = count()


def _write(grown: Grown) -> None:
    with grown.register.act("printer") as act:
        act.enter(Negative(code=f"ONE-{next(_numbers)}", title="Slipway, first frost"))


def _open(grown: Grown) -> None:
    Register.open(grown.folder).close()


def _list(grown: Grown, limit: int | None) -> None:
    with glance(grown.folder) as connection:
        for _row in print_rows(connection, limit=limit):
            pass


def _history(grown: Grown) -> None:
    reader = grown.register.read
    (record,) = reader.connection.execute("SELECT max(id) FROM print_key").fetchone()
    print_history(reader, record)


def _edition(grown: Grown) -> None:
    reader = grown.register.read
    (record,) = reader.connection.execute("SELECT max(edition) FROM print_key").fetchone()
    reader.get(Edition, record)
    held = reader.linked(record, Print, "edition")
    assert len(held) == len(print_order(reader.connection, edition=record))


def _found(grown: Grown) -> None:
    # the words of one edition of fifty
    assert len(found_ids(grown.register.read.connection, "slip0", limit=60)) > 50


def _audited(grown: Grown) -> None:
    assert not audit(grown.folder).damaged


def _backed_up(grown: Grown) -> None:
    path = grown.folder.with_suffix(".zip")
    assert not back_up(StudioFolder(grown.folder), path).report.damaged
    path.unlink()


DEEDS = (
    Deed("open the register", EVEN, _open, QUICK_TIMES),
    Deed("one durable write", EVEN, _write, QUICK_TIMES),
    Deed("the history of a print", EVEN, _history, QUICK_TIMES),
    Deed("an edition and its prints", EVEN, _edition, QUICK_TIMES),
    Deed("find an edition's words", EVEN, _found, QUICK_TIMES),
    Deed("list 50", EVEN, partial(_list, limit=50), QUICK_TIMES),
    Deed("list all", LINEAR, partial(_list, limit=None), 3),
    Deed("the view made again", LINEAR, lambda grown: rebuild(grown.register.read.connection)),
    Deed("audit of everything", LINEAR, _audited),
    Deed("backup, tried by restoring", LINEAR, _backed_up),
)


@benchmark
def growth(folder: Path) -> Iterator[Growth]:
    """Cost against size."""
    taken: dict[str, dict[int, float]] = {"enter the prints": {}}
    taken |= {deed.name: {} for deed in DEEDS}
    for size in SIZES:
        grown = _grown(folder / str(size), size)
        taken["enter the prints"][size] = grown.entered_ms
        for deed in DEEDS:
            taken[deed.name][size] = min(
                once_ms(partial(deed.do, grown)) for _ in range(deed.times)
            )
        grown.register.close()
    most = {deed.name: deed.most for deed in DEEDS}
    for name, points in taken.items():
        yield Growth(name, points, _exponent(points), most.get(name, LINEAR))


def _grown(folder: Path, size: int) -> Grown:
    register = new_register(folder)
    entered_ms = once_ms(partial(enter_prints, register, size))
    return Grown(folder, register, size, entered_ms)


def _exponent(points: dict[int, float]) -> float:
    sizes = [math.log(size) for size in points]
    return statistics.linear_regression(sizes, [math.log(ms) for ms in points.values()]).slope
