"""A print: one sheet of paper, and the scan of it."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Source
from provenance.model.quantities import Size

Existence = Literal["exists", "spoiled", "destroyed", "lost"]


class Signature(Part, frozen=True, kw_only=True):
    """Who signed, with what, where on the sheet and when (EDTF).

    Only the artist's own hand, after the print was made, is a signature
    (New York ACAL 11.01); a stamp or facsimile is recorded as what it is.
    """

    by: Literal["artist", "other"] = "artist"
    means: Literal["hand", "stamp", "facsimile"] = "hand"
    medium: str = ""
    where: str = ""
    on: str
    role: str = ""
    """Who it was where it was not the artist: the estate, the printer."""
    source: Source = "notes"

    @property
    def counts(self) -> bool:
        """Whether it is a signature by the artist's own hand."""
        return self.by == "artist" and self.means == "hand"


class Approval(Part, frozen=True, kw_only=True):
    """Who passed a print that another hand had printed, and when (EDTF)."""

    by: Literal["artist", "other"] = "artist"
    role: str = ""
    on: str


def on_the_back(mark: str, designation: str | None) -> str:
    """The pencil mark of a sheet; empty where it is known by its number only.

    A table without marks gives a sheet its number in place of one, and nobody
    said that the number stands on the back.
    """
    return "" if mark == designation else mark


class Print(Body, frozen=True, kw_only=True):
    """One sheet: the pencil mark on its back is the bridge to its record.

    A print of the opening balance was made, and has gone, before the records
    began: its mark may be unknown, and so is where it is.
    """

    KIND: ClassVar[str] = "print"
    LINKS: ClassVar[dict[str, str]] = {
        "edition": "edition",
        "printing": "printing",
        "replaces": "print",
    }
    WORDS: ClassVar[tuple[str, ...]] = ("mark", "designation", "inscriptions", "features")

    edition: Ref
    printing: Ref
    mark: str
    image: Size
    sheet: Size
    designation: str | None = None
    signature: Signature | None = None
    inscriptions: str = ""
    features: str = ""
    existence: Existence = "exists"
    gone_on: str | None = None
    gone_why: str = ""
    gone_evidence: str = ""
    """What shows that it is gone: a photograph of the torn sheet, a witness's role."""
    replaces: Ref | None = None
    approved: Approval | None = None
    counted: Literal["inside", "outside"] | None = None
    """Whether a bon à tirer or an exhibition print is within the declared total."""
    opening: bool = False
    source: Source = "notes"


class Scan(Body, frozen=True, kw_only=True):
    """A picture of a print: the digest of the scan, and the thumbnail kept of it."""

    KIND: ClassVar[str] = "scan"
    LINKS: ClassVar[dict[str, str]] = {"print": "print"}

    print: Ref
    file_name: str
    file_sha256: str
    width_px: Count
    height_px: Count
    bits: Count
    colour: str
    thumbnail_sha256: str
    thumbnail_width_px: Count
    thumbnail_height_px: Count
