"""The negative that prints are made from."""

from typing import ClassVar, Literal

from provenance.model.body import Body
from provenance.model.quantities import Size

NegativeState = Literal[
    "in use", "retired", "altered", "cancelled", "defaced", "effaced", "destroyed", "lost"
]

UNPRINTABLE: frozenset[NegativeState] = frozenset(
    {"cancelled", "defaced", "effaced", "destroyed", "lost"}
)
"""States after which no new print may be recorded from the negative."""

FINAL: frozenset[NegativeState] = frozenset({"cancelled", "defaced", "effaced", "destroyed"})
"""States that a negative does not come back from; a lost one may be found."""


class Negative(Body, frozen=True, kw_only=True):
    """One negative: `made` is an EDTF date, `format` the size of its frame.

    `subject` and `description` are what Object ID (ICOM) asks of an image;
    `taken_by` and `copy_of` what tax rules and disclosure statutes ask.
    """

    KIND: ClassVar[str] = "negative"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "title", "subject")

    code: str
    title: str
    made: str | None = None
    format: Size | None = None
    state: NegativeState = "in use"
    state_since: str | None = None
    state_why: str = ""
    """How it came to that state, and what shows it."""
    subject: str = ""
    description: str = ""
    taken_by: Literal["artist", "other"] | None = None
    """Who took the photograph; None where it was not said."""
    copy_of: str | None = None
    """What it reproduces; an empty text says that it was taken from the subject itself."""
    note: str = ""
