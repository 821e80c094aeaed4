"""The program in a terminal of its own: keys go in, the raw stream comes out."""

import fcntl
import os
import pty
import select
import signal
import struct
import sys
import termios
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

PATIENCE_S = 20.0
FAULT = 70
"""The exit status after a fault of the program."""


class Terminal:
    """A pseudo-terminal with the program in it."""

    def __init__(self, pid: int, handle: int) -> None:
        self.pid = pid
        self._handle = handle
        self.stream = b""
        """Everything that was written so far."""

    def send(self, keys: str) -> None:
        """Press keys."""
        os.write(self._handle, keys.encode())

    def until(self, text: str) -> None:
        """Read on until `text` was written, from where the last such wait ended."""
        begun, ends = len(self.stream), time.monotonic() + PATIENCE_S
        while text.encode() not in self.stream[begun:]:
            if not self._read() or time.monotonic() > ends:
                raise AssertionError(f"{text!r} did not come; last: {self.stream[-2000:]!r}")

    def _read(self) -> bool:
        ready, _, _ = select.select([self._handle], [], [], 0.1)
        if ready:
            try:
                data = os.read(self._handle, 65536)
            except OSError:  # the other end is closed
                return False
            self.stream += data
            return bool(data)
        return True

    def status(self, *, may_fault: bool = False) -> int:
        """Read to the end; the exit status, negative for a signal."""
        ends = time.monotonic() + PATIENCE_S
        while self._read():
            if time.monotonic() > ends:
                raise AssertionError("the program does not end")
        _, status = os.waitpid(self.pid, 0)
        self.pid = 0
        code = os.waitstatus_to_exitcode(status)
        # what a fault of the program says is the last that it writes
        assert may_fault or code != FAULT, (
            f"a fault of the program: {self.stream[-3000:].decode(errors='replace')}"
        )
        return code

    def kill(self) -> None:
        """End it at once."""
        os.kill(self.pid, signal.SIGKILL)


@contextmanager
def in_a_terminal(
    studio: Path,
    *options: str,
    size: tuple[int, int] = (80, 24),
    env: Mapping[str, str] = {},
    code: str = "",
) -> Iterator[Terminal]:
    """`provenance --studio STUDIO options...`; `code` is run before it, in the same process."""
    start = f"{code}\nfrom provenance.__main__ import main\nmain()"
    argv = [sys.executable, "-c", start, "--studio", str(studio), *options]
    clean = {
        "PATH": os.environ["PATH"],
        "HOME": str(studio.parent),
        "LANG": "C.UTF-8",
        "PYTHONPATH": str(Path(__file__).parents[2]),
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
    }
    pid, handle = pty.fork()
    if pid == 0:
        os.execve(sys.executable, argv, clean | dict(env))  # noqa: S606
    fcntl.ioctl(handle, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
    terminal = Terminal(pid, handle)
    try:
        yield terminal
    finally:
        if terminal.pid:
            terminal.kill()
            os.waitpid(terminal.pid, 0)
        os.close(handle)
