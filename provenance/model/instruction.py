"""What the artist wants done, and not done, by whoever comes after."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Ref

Topic = Literal["print", "sign", "stamp", "number", "negative", "must not", "other"]


class Instruction(Body, frozen=True, kw_only=True):
    """One instruction in the artist's own words, of one edition or of the whole studio.

    Whom it entrusts is named by a role in the words; `person` is a commitment to
    a page of the contact book.  `given_on` is an EDTF date.
    """

    KIND: ClassVar[str] = "instruction"
    LINKS: ClassVar[dict[str, str]] = {"edition": "edition"}
    WORDS: ClassVar[tuple[str, ...]] = ("words",)

    topic: Topic
    words: str
    edition: Ref | None = None
    person: str | None = None
    given_on: str
