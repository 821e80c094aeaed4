"""An edition: what was promised about the prints of one negative in one size."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Ref
from provenance.model.quantities import Size


class Edition(Body, frozen=True, kw_only=True):
    """The promise verbatim, and the numbers declared in it.

    Total declared = numbered + artist's proofs + printer's proofs + hors
    commerce + unnumbered; trial proofs are outside it (North Carolina G.S.
    25C-14; Hawaii 481F-4).  `opened` and `closed` are EDTF dates.
    """

    KIND: ClassVar[str] = "edition"
    LINKS: ClassVar[dict[str, str]] = {"negative": "negative", "bon_a_tirer": "print"}
    WORDS: ClassVar[tuple[str, ...]] = ("code", "name", "promise")

    negative: Ref
    code: str
    name: str
    promise: str
    numbered: Count
    artist_proofs: Count = 0
    printers_proofs: Count = 0
    hors_commerce: Count = 0
    unnumbered: Count = 0
    image: Size
    sheet: Size
    opened: str | None = None
    closed: str | None = None
    closed_why: str = ""
    bon_a_tirer: Ref | None = None
    disclosed: str = ""
    """How buyers are told of the other editions of this negative, verbatim."""
    rights: Literal["stay", "pass"] | None = None
    """Whether rights of reproduction stay with the artist; None where nothing was said."""
    exhibition_only: bool | None = None
    """Whether the prints are made for exhibition only (17 USC 101); None where it was not said."""

    @property
    def declared(self) -> int:
        """How many impressions were declared in all."""
        return (
            self.numbered
            + self.artist_proofs
            + self.printers_proofs
            + self.hors_commerce
            + self.unnumbered
        )

    def maximum(self, series: str) -> int | None:
        """How many impressions of `series` were declared; None where no limit applies."""
        return {
            "numbered": self.numbered,
            "AP": self.artist_proofs,
            "PP": self.printers_proofs,
            "HC": self.hors_commerce,
            "unnumbered": self.unnumbered,
        }.get(series)
