"""The studio whose register this is."""

from typing import ClassVar

from provenance.model.body import Body


class Studio(Body, frozen=True, kw_only=True):
    """The first record of every register.

    `studio_id` is 128 random bits in hex: it tells apart two registers, and two
    copies of one register that went separate ways.
    """

    KIND: ClassVar[str] = "studio"
    WORDS: ClassVar[tuple[str, ...]] = ("name", "artist", "place")

    studio_id: str
    name: str
    artist: str
    place: str = ""
    mark: str
    """The letters that certificate numbers of this studio begin with."""
    died: str | None = None
    """When the artist died (EDTF): prints made later are posthumous."""
