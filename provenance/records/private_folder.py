"""A folder of small files that only its owner may read, replaced whole and erasable."""

import os
from collections.abc import Iterator
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.records.files import flush_folder, write_whole


class PrivateFolder:
    """A folder of small files that nobody else may read."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def write(self, name: str, data: bytes) -> None:
        """Put a file there, whole.  Raises Refused."""
        try:
            self._path.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path} cannot be made ({error.strerror})")
            ) from error
        write_whole(self._path / name, data, mode=0o600)

    def read(self, name: str) -> bytes | None:
        """The bytes of a file; None when there is none, or when its erasing was broken off."""
        try:
            data = (self._path / name).read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path / name} cannot be read ({error.strerror})")
            ) from error
        return None if data and data == overwriting(len(data)) else data

    def has(self, name: str) -> bool:
        """Whether anything lies there under that name, overwritten or not."""
        return os.path.lexists(self._path / name)

    def erase(self, name: str) -> bool:
        """Overwrite a file and unlink it; whether there was one.  Raises Refused."""
        path = self._path / name
        try:
            overwrite(path)
        except FileNotFoundError:
            return False
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path / name} cannot be erased ({error.strerror})")
            ) from error
        return True

    def names(self) -> Iterator[str]:
        """What the files are called, without `.json`."""
        return (path.stem for path in self._path.glob("*.json"))


def overwriting(size: int) -> bytes:
    """So many bytes that say why they are there, to whoever finds them before the file is gone."""
    return (b"erased\n" * (size // 7 + 1))[:size]


def overwrite(path: Path) -> None:
    """Overwrite a file, and unlink it.  Raises OSError."""
    # a disk may still keep the old blocks; an ordinary look at the device does not find them
    with path.open("r+b") as file:
        file.write(overwriting(path.stat().st_size))
        file.flush()
        os.fsync(file.fileno())
    path.unlink()
    flush_folder(path.parent)
