"""The studio's own mark: an image file that its certificate.toml names."""

import hashlib
from dataclasses import dataclass, replace

from provenance.documents.template import CertificateLayout
from provenance.errors import Refused
from provenance.records.images import make_thumbnail
from provenance.records.scans import PictureLimits
from provenance.studio.folder import StudioFolder

# A mark is a few centimetres of paper; whatever is larger was not meant for one.
_LIMITS = PictureLimits(pixels=50_000_000, long_edge_px=20_000)


@dataclass(frozen=True)
class MarkPicture:
    """The mark as it is put on the page: a JPEG in sRGB or grey, on white."""

    jpeg: bytes
    px: tuple[int, int]

    @property
    def sha256(self) -> str:
        """Its digest, by which a check knows it again."""
        return hashlib.sha256(self.jpeg).hexdigest()


def load_mark(folder: StudioFolder, layout: CertificateLayout) -> MarkPicture | None:
    """The mark that `layout` names; None where it names none.

    It is opened with the care of a scan, and the same file gives the same
    bytes.  Raises Refused, naming the file and the line of the layout.
    """
    place = layout.mark
    if place is None:
        return None
    path = folder.template("certificate.toml").with_name(place.file)
    try:
        made = make_thumbnail(path, _LIMITS)
    except Refused as error:
        raise Refused(
            *(
                replace(problem, record="certificate.toml", field="mark", line=place.line)
                for problem in error.problems
            )
        ) from error
    return MarkPicture(made.jpeg, (made.width_px, made.height_px))
