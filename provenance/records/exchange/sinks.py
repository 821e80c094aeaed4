"""Where a bag is written to: a folder, or one zip file.  Whole, or not at all."""

import os
import shutil
import zipfile
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from pathlib import Path
from typing import IO, Protocol

from provenance.errors import Problem, Refused
from provenance.records.files import flush_folder, refuse_standing, unfinished

_PACKED_ALREADY = frozenset({".jpg", ".jpeg", ".png", ".pdf"})
_NO_DATE = (1980, 1, 1, 0, 0, 0)
"""The earliest that a zip file can say: when a file was packed is nobody's business."""
_FILE, _FOLDER = 0o600, 0o700


class Sink(Protocol):
    """Takes files by their names."""

    def open(self, name: str) -> AbstractContextManager[IO[bytes]]:
        """A new file of that name, to be written."""


class _Folder:
    def __init__(self, path: Path) -> None:
        self._path = path

    @contextmanager
    def open(self, name: str) -> Iterator[IO[bytes]]:
        path = self._path / name
        path.parent.mkdir(parents=True, exist_ok=True, mode=_FOLDER)
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _FILE)
        with os.fdopen(handle, "wb") as file:
            yield file


class _Zip:
    def __init__(self, archive: zipfile.ZipFile, top: str) -> None:
        self._archive = archive
        self._top = top

    @contextmanager
    def open(self, name: str) -> Iterator[IO[bytes]]:
        info = zipfile.ZipInfo(f"{self._top}/{name}", _NO_DATE)
        packed = Path(name).suffix.casefold() in _PACKED_ALREADY
        info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
        info.external_attr = (0o100000 | _FILE) << 16
        with self._archive.open(info, "w", force_zip64=True) as file:
            yield file


@contextmanager
def new_folder(path: Path) -> Iterator[Sink]:
    """A folder at `path` that stands there once everything is in it.

    Raises Refused when something stands there already.
    """
    refuse_standing(path)
    building = unfinished(path)
    with _told(path):
        building.mkdir(mode=_FOLDER)
        try:
            yield _Folder(building)
            os.sync()
            # an empty folder may be taken; anything else cannot be replaced
            building.rename(path)
        finally:
            shutil.rmtree(building, ignore_errors=True)
        flush_folder(path.absolute().parent)


@contextmanager
def new_zip(path: Path, top: str) -> Iterator[Sink]:
    """A zip file at `path`, everything in it below the folder `top`, as `new_folder`."""
    refuse_standing(path)
    building = unfinished(path)
    with _told(path):
        handle = os.open(building, os.O_RDWR | os.O_CREAT | os.O_EXCL, _FILE)
        try:
            with os.fdopen(handle, "w+b") as file:
                with zipfile.ZipFile(file, "w") as archive:
                    yield _Zip(archive, top)
                file.flush()
                os.fsync(file.fileno())
            refuse_standing(path)
            building.rename(path)
        finally:
            with suppress(OSError):
                building.unlink(missing_ok=True)
        flush_folder(path.absolute().parent)


@contextmanager
def _told(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise Refused(
            Problem(
                f"cannot be written: {error.strerror or error}",
                str(path),
                mend="see that the folder exists, is yours to write in and has room",
            )
        ) from error
