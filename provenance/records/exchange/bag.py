"""Writes a bag: files with the digests that show whether they are whole (RFC 8493, BagIt 1.0)."""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Protocol

from provenance.errors import Problem, Refused
from provenance.records.exchange.names import is_plain
from provenance.records.exchange.sinks import Sink

DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
DIGESTS = ("sha256", "sha512")
PAYLOAD = "data"
_PIECE = 1 << 20


class Into(Protocol):
    """Takes files: what those that write parts of a bag need to know of it."""

    def add(self, name: str, pieces: Iterable[bytes]) -> None:
        """A new file with what `pieces` hold."""

    def copy(self, name: str, path: Path) -> None:
        """A new file with what lies at `path`."""


class Bag:
    """A bag under way.  `finish` makes it one."""

    def __init__(self, sink: Sink) -> None:
        self._sink = sink
        self._payload: dict[str, tuple[str, ...]] = {}
        self._octets = 0
        self._taken: set[str] = set()

    @property
    def files(self) -> int:
        """How many files are in it."""
        return len(self._payload)

    def holds(self, folder: str) -> bool:
        """Whether anything lies in a folder of the payload."""
        return any(name.startswith(f"{PAYLOAD}/{folder}/") for name in self._payload)

    def add(self, name: str, pieces: Iterable[bytes]) -> None:
        """A file of the payload, by its path below ``data/``."""
        # a per cent sign is written as %25 (RFC 8493, 2.1.3), which common readers do not undo
        if not is_plain(name) or "%" in name:
            raise Refused(
                Problem(
                    "has a name that some system would read differently", name, mend="rename it"
                )
            )
        name = f"{PAYLOAD}/{name}"
        if name.casefold() in self._taken:
            raise Refused(Problem("would be written twice", name, mend="rename one of the two"))
        self._taken.add(name.casefold())
        self._payload[name], length = self._write(name, pieces)
        self._octets += length

    def copy(self, name: str, path: Path) -> None:
        """The file at `path`, read piece by piece.  Raises Refused when it cannot be read."""
        self.add(name, _pieces(path))

    def finish(self, info: Mapping[str, str]) -> None:
        """Write the manifests, and what `info` says of the bag."""
        lines = {
            **info,
            "Payload-Oxum": f"{self._octets}.{len(self._payload)}",
        }
        tags = {
            "bagit.txt": DECLARATION,
            "bag-info.txt": "".join(
                # a line break in the name of a studio would make a line of its own
                f"{key}: {' '.join(text.split())}\n"
                for key, text in lines.items()
            ).encode(),
        }
        for place, kind in enumerate(DIGESTS):
            rows = (f"{found[place]}  {name}\n" for name, found in sorted(self._payload.items()))
            tags[f"manifest-{kind}.txt"] = "".join(rows).encode()
        digests = {name: self._write(name, [data])[0] for name, data in tags.items()}
        for place, kind in enumerate(DIGESTS):
            rows = (f"{found[place]}  {name}\n" for name, found in sorted(digests.items()))
            self._write(f"tagmanifest-{kind}.txt", ["".join(rows).encode()])

    def _write(self, name: str, pieces: Iterable[bytes]) -> tuple[tuple[str, ...], int]:
        marks = [hashlib.new(kind) for kind in DIGESTS]
        length = 0
        with self._sink.open(name) as file:
            for piece in pieces:
                file.write(piece)
                length += len(piece)
                for mark in marks:
                    mark.update(piece)
        return tuple(mark.hexdigest() for mark in marks), length


def _pieces(path: Path) -> Iterator[bytes]:
    # told here, so that nobody takes it for a fault of what is written to
    try:
        with path.open("rb") as file:
            yield from iter(lambda: file.read(_PIECE), b"")
    except FileNotFoundError as error:
        raise Refused(Problem("is not there any more", str(path), mend="try again")) from error
    except OSError as error:
        raise Refused(
            Problem(
                f"cannot be read: {error.strerror or error}",
                str(path),
                mend="see that it is yours to read, and that its disk is sound",
            )
        ) from error
