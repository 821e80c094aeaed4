"""Write a file whole, or not at all."""

import contextlib
import os
import secrets
from pathlib import Path

from provenance.errors import Problem, Refused


def write_whole(path: Path, data: bytes, mode: int = 0o644) -> None:
    """Put `data` at `path` so that a reader sees the old file or the new one, never a part.

    When this returns, bytes and name have reached the disk.  `mode` gives the
    permissions of the file, before the umask; 0o600 keeps it to its owner.

    Raises Refused, naming the file, when it cannot be written.  The file that
    stood there before is then untouched, and nothing is left beside it.
    """
    part = unfinished(path)
    try:
        try:
            _write_through(part, data, mode)
            part.replace(path)
        except BaseException:
            with contextlib.suppress(FileNotFoundError):
                part.unlink()
            raise
        flush_folder(path.parent)
    except OSError as error:
        raise Refused(
            Problem(
                what=f"{path} cannot be written: {error.strerror or error}",
                mend="see that the folder exists, is yours to write in and has room",
            )
        ) from error


def write_new(path: Path, data: bytes, mode: int = 0o644) -> None:
    """`write_whole` for a file that a person named: nothing that stands there is replaced.

    Raises Refused for that too.
    """
    refuse_standing(path)
    write_whole(path, data, mode)


def refuse_standing(path: Path) -> None:
    """Raise Refused when anything but an empty folder stands at `path`, or nothing can."""
    try:
        path.name.encode("utf-8")
        path.with_name("part")
        free = _free(path)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise Refused(
            Problem(f"is no name for a file ({why})", str(path), mend="choose another")
        ) from error
    if not free:
        raise Refused(
            Problem("something stands there already", str(path), mend="choose a new name for it")
        )


def _free(path: Path) -> bool:
    empty = path.is_dir() and not path.is_symlink() and not any(path.iterdir())
    return empty or not (path.exists() or path.is_symlink())


def unfinished(path: Path) -> Path:
    """What a file or a folder is called beside `path` until it is whole, each time another name.

    One that was left behind is found by the audit.
    """
    return path.with_name(f".{path.name}.{secrets.token_hex(8)}.part")


def _write_through(path: Path, data: bytes, mode: int) -> None:
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), mode)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def flush_folder(folder: Path) -> None:
    """Make the names in `folder` reach the disk; a name is safe only once its folder is."""
    # Windows has no such call.
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
