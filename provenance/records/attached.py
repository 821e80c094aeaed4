"""Files beside a test: the photograph of a spot, and the report of a laboratory."""

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from provenance.errors import Problem, Refused
from provenance.model.proof import Attached
from provenance.records.files import write_whole
from provenance.records.images import make_thumbnail

MOST_BYTES = 20_000_000
"""A longer report was not meant to be kept with the register."""


@dataclass(frozen=True)
class Kept:
    """What is said of a file, and the bytes that are kept of it."""

    attached: Attached
    data: bytes


def read_attachment(what: Literal["photograph", "report"], path: Path) -> Kept:
    """The file at `path`: a report in PDF whole, any picture as a small one.

    Raises Refused for a file that is missing, too large, or neither.
    """
    try:
        with path.open("rb") as file:
            is_pdf = what == "report" and file.read(5) == b"%PDF-"
        size = path.stat().st_size
    except (OSError, ValueError) as error:
        # ValueError: a name that no file can have
        why = getattr(error, "strerror", None) or error
        raise Refused(
            Problem(f"{path} cannot be read: {why}", mend="see where it was saved")
        ) from error
    if is_pdf and size > MOST_BYTES:
        raise Refused(
            Problem(
                f"{path} is larger than {MOST_BYTES // 1_000_000} MB", mend="save a smaller PDF"
            )
        )
    if is_pdf:
        data = path.read_bytes()
        whole = kept = hashlib.sha256(data).hexdigest()
    else:
        small = make_thumbnail(path)
        data, whole = small.jpeg, small.source_sha256
        kept = hashlib.sha256(data).hexdigest()
    said = Attached(what=what, file_name=path.name, file_sha256=whole, kept_sha256=kept)
    return Kept(said, data)


def keep(images: Path, kept: Kept) -> None:
    """Put it on disk, whole, under its digest."""
    path = images / kept.attached.kept_name
    if not path.is_file() or path.read_bytes() != kept.data:
        write_whole(path, kept.data)
