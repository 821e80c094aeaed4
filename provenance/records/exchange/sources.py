"""What a bag is read from: a folder, or a zip file; both taken for hostile.

Whoever sends an archive may have built it to write outside the folder it is
unpacked into, to fill the disk, or to lead elsewhere through a link.
"""

import os
import stat
import zipfile
from collections.abc import Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager
from pathlib import Path
from typing import IO, Protocol

from provenance.errors import Damaged, Problem, Refused
from provenance.records.exchange.names import check_name

MOST_FILES = 2_000_000
MOST_TIMES = 200
"""How many times its own length an archive may unpack to: a register packs to a tenth."""
FREE_BYTES = 50_000_000
"""Below this no archive is taken for a bomb."""
_UNPACKED = frozenset({zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED})
_ENCRYPTED = 0x1


class Source(Protocol):
    """Gives files by their names."""

    sizes: dict[str, int]
    """How long each file is, by its path below the top of the bag."""

    def open(self, name: str) -> AbstractContextManager[IO[bytes]]:
        """The file of that name, to be read."""


@contextmanager
def opened(path: Path) -> Iterator[Source]:
    """The folder or zip file at `path`.

    Raises Refused for one that is not to be trusted, Damaged for part of a zip file.
    """
    with _told(path):
        folder = _Folder(path) if path.is_dir() else None
    if folder is not None:
        yield folder
        return
    with ExitStack() as stack:
        with _told(path):
            archive = stack.enter_context(zipfile.ZipFile(path))
            packed = _Zip(archive, path)
        yield packed


@contextmanager
def _told(path: Path) -> Iterator[None]:
    try:
        yield
    except (zipfile.BadZipFile, NotImplementedError, EOFError, ValueError) as error:
        if _begins_as_zip(path):
            raise Damaged(
                Problem(f"is cut short, or spoiled ({error})", str(path), mend=_OTHER)
            ) from error
        raise Refused(
            Problem(f"is not a zip file that can be read ({error})", str(path), mend=_OTHER)
        ) from error
    except OSError as error:
        raise Refused(
            Problem(f"cannot be read: {error.strerror or error}", str(path), mend=_OTHER)
        ) from error


def _begins_as_zip(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            return file.read(4) == b"PK\x03\x04"
    except OSError:
        return False


_OTHER = "use another copy"


def _refused(what: str, path: Path) -> Refused:
    return Refused(Problem(what, str(path), mend=f"nothing was unpacked; {_OTHER}"))


class _Folder:
    def __init__(self, path: Path) -> None:
        self._path = path
        self.sizes = dict(self._walk())

    def _walk(self) -> Iterator[tuple[str, int]]:
        waiting = [""]
        while waiting:
            before = waiting.pop()
            with os.scandir(self._path / before) as entries:
                for entry in entries:
                    name = before + entry.name
                    if entry.is_dir(follow_symlinks=False):
                        waiting.append(f"{name}/")
                    elif entry.is_file(follow_symlinks=False):
                        yield check_name(name), entry.stat(follow_symlinks=False).st_size
                    else:
                        raise _refused(
                            f"holds a link or a device, not a file: {name!a}", self._path
                        )

    @contextmanager
    def open(self, name: str) -> Iterator[IO[bytes]]:
        # a file may have been exchanged for a link since it was looked at
        handle = os.open(self._path / name, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0))
        with os.fdopen(handle, "rb") as file:
            yield file


class _Zip:
    def __init__(self, archive: zipfile.ZipFile, path: Path) -> None:
        self._archive = archive
        self._path = path
        self._infos: dict[str, zipfile.ZipInfo] = {}
        infos = archive.infolist()
        if len(infos) > MOST_FILES:
            raise _refused("holds more files than any studio", path)
        tops: set[str] = set()
        for info in infos:
            if info.is_dir():
                check_name(info.filename[:-1])
                continue
            top, _, name = check_name(info.filename).partition("/")
            tops.add(top)
            self._take(name, info)
        if len(tops) != 1 or "" in self._infos:
            raise _refused("does not hold one folder with everything in it", path)
        self.sizes = {name: info.file_size for name, info in self._infos.items()}
        packed = path.stat().st_size
        if sum(self.sizes.values()) > max(FREE_BYTES, packed * MOST_TIMES):
            raise _refused("would unpack to more than such an archive can hold", path)

    def _take(self, name: str, info: zipfile.ZipInfo) -> None:
        mode = info.external_attr >> 16
        if mode and not stat.S_ISREG(mode) and stat.S_IFMT(mode):
            raise _refused(f"holds a link or a device, not a file: {name!a}", self._path)
        if info.flag_bits & _ENCRYPTED or info.compress_type not in _UNPACKED:
            raise _refused(f"holds a file packed in a way unknown here: {name!a}", self._path)
        if name in self._infos:
            raise _refused(f"holds two files of one name: {name!a}", self._path)
        self._infos[name] = info

    @contextmanager
    def open(self, name: str) -> Iterator[IO[bytes]]:
        with self._archive.open(self._infos[name]) as file:
            yield file
