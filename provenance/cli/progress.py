"""How far something that takes a while has come."""

import sys


def progress_line(name: str, done: int, whole: int) -> None:
    """One line on a terminal, written over itself; nothing where nobody looks."""
    if sys.stderr.isatty():
        end = "\r" if done < whole else "\r\x1b[K"
        sys.stderr.write(f"{name}: {done} of {whole}{end}")
        sys.stderr.flush()
