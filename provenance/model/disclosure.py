"""What a studio says, item by item, where its records do not say it."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Part, Ref

Item = Literal[
    "artist",
    "signature",
    "medium",
    "reproduction",
    "posthumous",
    "other editions",
    "negative made",
    "printed",
    "limited",
    "numbered",
    "unnumbered",
    "proofs",
    "total",
    "negative",
    "workshop",
]
"""The union of what the US disclosure statutes ask of a print that is offered."""

Reply = Literal["stated", "not applicable", "disclaimed"]


class Answer(Part, frozen=True, kw_only=True):
    """One item and what is said of it; `words` say what is stated, or why not."""

    item: Item
    reply: Reply
    words: str = ""


class Disclosure(Body, frozen=True, kw_only=True):
    """The answers for the prints of one edition; what the records state needs none."""

    KIND: ClassVar[str] = "disclosure"
    LINKS: ClassVar[dict[str, str]] = {"edition": "edition"}

    edition: Ref
    answers: tuple[Answer, ...]
