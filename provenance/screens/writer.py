"""The one writer of the terminal application: a thread with a register of its own.

Acts are done one after another and awaited; none is dropped on the way out.
"""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from provenance.records.clock import Clock
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder

T = TypeVar("T")


class Writer:
    """Does acts away from the event loop, in the order in which they are asked for."""

    def __init__(self, folder: StudioFolder, clock: Clock | None = None) -> None:
        self._folder = folder
        self._clock = clock
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="writer")
        self._register: Register | None = None

    async def do(self, work: Callable[[Register], T]) -> T:
        """What `work` returns; what it raises is raised here."""
        return await asyncio.wrap_future(self._pool.submit(self._with_register, work))

    def _with_register(self, work: Callable[[Register], T]) -> T:
        if self._register is None:
            self._register = self._folder.open(self._clock)
        return work(self._register)

    def close(self) -> None:
        """Finish what was asked for, then fold the log in and close."""
        self._pool.submit(self._close_register).result()
        self._pool.shutdown(wait=True)

    def _close_register(self) -> None:
        if self._register is not None:
            self._register.close()
