"""The last line before the table of objects: a sum over the whole file, or a seal.

    %sha256 and 64 figures      shows accidents: anybody could make it anew
    %ed25519 and 128 figures    shows every change: only who has the key can make it

Both are over the whole file with zeros for the figures.  To readers of PDF the
line is a comment.
"""

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

Kind = Literal["sha256", "ed25519"]

_FIGURES: dict[str, int] = {"sha256": 64, "ed25519": 128}
_LINE = re.compile(rb"\n%(sha256 [0-9a-f]{64}|ed25519 [0-9a-f]{128})\nxref\n")
_END = re.compile(rb"\nstartxref\n(\d{1,12})\n%%EOF\n\Z")


@dataclass(frozen=True)
class Seal:
    """What the line holds, and what it is over."""

    kind: Kind
    value: bytes
    over: bytes
    """The file with zeros in place of the value."""

    def sums_up(self) -> bool:
        """Whether it is a sum, and that of these bytes."""
        return self.kind == "sha256" and hashlib.sha256(self.over).digest() == self.value


def open_line(kind: Kind) -> bytes:
    """The line as long as nothing is filled in."""
    return b"%%%b %b\n" % (kind.encode(), b"0" * _FIGURES[kind])


def fill(pdf: bytes, sign: Callable[[bytes], bytes] | None = None) -> bytes:
    """The file with its line filled in: by `sign` where the line is for a seal, else by the sum."""
    found = find(pdf)
    if found is None:
        raise ValueError("the file has no line for a seal")
    if (found.kind == "ed25519") != (sign is not None):
        raise ValueError(f"the line is for {found.kind}")
    value = sign(pdf) if sign else hashlib.sha256(pdf).digest()
    start, end = _place(pdf) or (0, 0)
    if len(value.hex()) != end - start:
        raise ValueError("the seal is not as long as its line")
    return pdf[:start] + value.hex().encode() + pdf[end:]


def find(pdf: bytes) -> Seal | None:
    """The seal or sum of a file; None where there is none in its place."""
    place = _place(pdf)
    if place is None:
        return None
    start, end = place
    kind: Kind = "sha256" if end - start == _FIGURES["sha256"] else "ed25519"
    over = pdf[:start] + b"0" * (end - start) + pdf[end:]
    return Seal(kind, bytes.fromhex(pdf[start:end].decode()), over)


def _place(pdf: bytes) -> tuple[int, int] | None:
    """Where the figures stand: right before the table that the end of the file points at."""
    end = _END.search(pdf, max(0, len(pdf) - 64))
    if end is None:
        return None
    table = int(end[1])
    line = _LINE.search(pdf, max(0, table - 160), table + len(b"xref\n"))
    if line is None or line.end() != table + len(b"xref\n"):
        return None
    return line.start(1) + line[1].index(b" ") + 1, line.end(1)
