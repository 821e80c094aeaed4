"""The picture of a print that screens and papers show: the thumbnail of its latest scan."""

from dataclasses import dataclass
from pathlib import Path

from provenance.model.prints import Scan
from provenance.records.images import load_thumbnail
from provenance.records.reader import Reader
from provenance.studio.folder import StudioFolder


@dataclass(frozen=True)
class HeldPicture:
    """Where a thumbnail is kept, and its size as its record has it."""

    folder: Path
    sha256: str
    width_px: int
    height_px: int

    def load(self) -> bytes:
        """Its JPEG, from any thread.  Raises NotFound or Damaged."""
        return load_thumbnail(self.folder, self.sha256)


def picture_of(reader: Reader, folder: StudioFolder, record: int) -> HeldPicture | None:
    """The picture of the print with id `record`; None where none was scanned."""
    scans = reader.linked(record, Scan, "print")
    if not scans:
        return None
    body = scans[-1].body
    return HeldPicture(
        folder.images, body.thumbnail_sha256, body.thumbnail_width_px, body.thumbnail_height_px
    )
