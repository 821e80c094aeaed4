"""What a studio folder holds, apart from the register: what goes along, and what never does."""

import os
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.records.connection import FILE
from provenance.records.exchange.bag import Into
from provenance.records.exchange.snapshot import copied_register
from provenance.records.progress import Progress
from provenance.records.reader import Reader
from provenance.records.witness import FILE as WITNESS
from provenance.records.witness import Head, head_line

STUDIO = "studio"
"""The folder of a bag that can be restored."""
PLAIN = ("images", "certificates", "templates")
PRIVATE = ("contacts", "private")
KEY = "private/key"
"""The studio's key lies here; it is in backups, locked by its passphrase, and in no bag."""
SETTINGS = "settings.toml"


def belongs(name: str) -> bool:
    """Whether a studio folder has a file of that name."""
    return name in (FILE, WITNESS, SETTINGS) or name.partition("/")[0] in (*PLAIN, *PRIVATE)


def files_of(studio: Path, *, private: bool, key: bool) -> Iterator[tuple[str, Path]]:
    """Every file that goes along, with its name in the folder.

    Raises Refused for a link: what it leads to may lie outside the folder.
    """
    if (studio / SETTINGS).is_file():
        yield SETTINGS, studio / SETTINGS
    for place in (*PLAIN, *(PRIVATE if private else ())):
        for name, path in sorted(_below(studio, place)):
            if key or not name.startswith(f"{KEY}/"):
                yield name, path


def _below(studio: Path, place: str) -> Iterator[tuple[str, Path]]:
    waiting = [place]
    while waiting:
        folder = waiting.pop()
        for entry in _entries(studio, folder):
            name = f"{folder}/{entry.name}"
            if entry.name.endswith(".part"):
                continue  # not whole yet: perhaps the very bag that is being written
            if entry.is_dir(follow_symlinks=False):
                waiting.append(name)
            elif entry.is_file(follow_symlinks=False):
                yield name, Path(entry.path)
            else:
                raise Refused(
                    Problem(
                        "is a link or a device, and cannot go along",
                        name,
                        mend="put the file itself there, or take it out",
                    )
                )


def _entries(studio: Path, folder: str) -> list[os.DirEntry[str]]:
    try:
        return list(os.scandir(studio / folder))
    except FileNotFoundError:
        return []
    except OSError as error:
        raise Refused(
            Problem(
                f"cannot be looked into: {error.strerror or error}",
                folder,
                mend="see that the folder is yours to read",
            )
        ) from error


def put_studio(
    stack: ExitStack,
    studio: Path,
    bag: Into,
    room: Path,
    *,
    private: bool,
    key: bool,
    progress: Progress | None,
) -> tuple[Reader, Head]:
    """Put the studio into `bag`, below ``studio/``; gives a reader of the copy and its head.

    `room` is a folder for the copy of the register, which is read from until
    `stack` is closed.  The register is copied before the files: each file was
    there before an entry named it.
    """
    copy = room / FILE
    pages = (lambda done, whole: progress("register", done, whole)) if progress else None
    reader, head = stack.enter_context(copied_register(studio, copy, pages))
    bag.copy(f"{STUDIO}/{FILE}", copy)
    bag.add(f"{STUDIO}/{WITNESS}", [head_line(head)])
    files = list(files_of(studio, private=private, key=key))
    for done, (name, path) in enumerate(files, start=1):
        if progress:
            progress("files", done, len(files))
        if path.exists() or name.partition("/")[0] not in PRIVATE:
            # a page may have been erased meanwhile
            bag.copy(f"{STUDIO}/{name}", path)
    return reader, head
