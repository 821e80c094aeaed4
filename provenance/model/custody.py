"""Where a print went after it was finished."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Ref
from provenance.model.evidence import Source

CustodyKind = Literal["released", "returned"]


class CustodyEvent(Body, frozen=True, kw_only=True):
    """A print left the studio or came back; `on` is an EDTF date.

    `party` is a salted commitment (hex SHA-256) to a page of the contact book,
    which is kept apart and can be erased; the journal never holds a person.
    """

    KIND: ClassVar[str] = "custody"
    LINKS: ClassVar[dict[str, str]] = {"print": "print"}

    print: Ref
    event: CustodyKind
    on: str
    party: str | None = None
    source: Source = "notes"
