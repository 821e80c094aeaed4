"""A later print that was held against a reference print."""

from typing import Annotated, ClassVar, Literal

import msgspec

from provenance.model.body import Body, Count, Ref
from provenance.model.evidence import Source

Outcome = Literal["matches", "differs"]


class MatchReport(Body, frozen=True, kw_only=True):
    """What readings of two prints of one negative said, and whether the new one was accepted.

    `outcome` is what the readings say under the tolerances written down here;
    `accepted` is a person's decision, which may go either way.  Densities are mD,
    ΔE00 in hundredths.  Between the two lightnesses (L* in hundredths) the
    tolerance of density goes in proportion.
    """

    KIND: ClassVar[str] = "match"
    LINKS: ClassVar[dict[str, str]] = {
        "print": "print",
        "reference": "print",
        "reading": "reading",
        "reference_reading": "reading",
    }
    WORDS: ClassVar[tuple[str, ...]] = ("why",)

    print: Ref
    reference: Ref
    reading: Ref
    reference_reading: Ref
    light_from_hundredth: Annotated[int, msgspec.Meta(ge=0, le=10_000)] = 5_000
    light_md: Count = 20
    dark_to_hundredth: Annotated[int, msgspec.Meta(ge=0, le=10_000)] = 2_000
    dark_md: Count = 50
    delta_e00_hundredth: Count = 100
    tolerance_source: str = ""
    outcome: Outcome
    differs_at: tuple[str, ...] = ()
    """The spots that are off by more than their tolerance, or were not read again."""
    accepted: bool
    by: str
    """A role or initials: the artist."""
    on: str
    why: str = ""
    source: Source = "notes"
