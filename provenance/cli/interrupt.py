"""An interrupt that waits until what is in hand is finished."""

import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Event


@contextmanager
def held_back() -> Iterator[Callable[[], bool]]:
    """Ctrl-C breaks nothing off in the block; what is given says whether it came."""
    came = Event()
    former = signal.signal(signal.SIGINT, lambda *_: came.set())
    try:
        yield came.is_set
    finally:
        signal.signal(signal.SIGINT, former)
