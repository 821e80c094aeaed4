"""Where a print went after it was finished, and who has it."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Ref
from provenance.model.evidence import Source

CustodyKind = Literal[
    "released",
    "sold",
    "consigned",
    "lent",
    "given",
    "returned",
    "lost",
    "found",
    "destroyed",
]

OWNED: frozenset[CustodyKind] = frozenset({"sold", "given"})
"""What passes a print on for good."""
OUT: frozenset[CustodyKind] = frozenset({"released", "consigned", "lent"})
"""What takes a print out of the studio and leaves it the studio's."""


class CustodyEvent(Body, frozen=True, kw_only=True):
    """A print changed hands, or came to light, or is no more; `on` is an EDTF date.

    `party` (who has it now) and `giver` (who had it, where that was not the
    studio) are salted commitments (hex SHA-256) to pages of the contact book,
    and `terms` one to a page of terms: price, place, conditions.  Those pages
    are kept apart and can be erased; the journal never holds a person.
    """

    KIND: ClassVar[str] = "custody"
    LINKS: ClassVar[dict[str, str]] = {"print": "print"}

    print: Ref
    event: CustodyKind
    on: str
    party: str | None = None
    giver: str | None = None
    until: str | None = None
    """When a loan or a consignment ends (EDTF), as was agreed."""
    terms: str | None = None
    rights: Literal["stay", "pass"] | None = None
    """Whether rights of reproduction passed with it; None where nothing was said."""
    source: Source = "notes"
