"""How much of a studio is handed over: to anybody, to an archive, or under seal."""

from typing import Literal, get_args

Level = Literal["public", "archive", "sealed"]
LEVELS: tuple[Level, ...] = get_args(Level)

PUBLIC: dict[str, tuple[str, ...]] = {
    "studio": ("name", "artist", "place"),
    "negative": ("code", "title", "made", "format"),
    "edition": (
        "negative",
        "code",
        "name",
        "promise",
        "numbered",
        "artist_proofs",
        "printers_proofs",
        "hors_commerce",
        "unnumbered",
        "image",
        "sheet",
        "opened",
        "closed",
    ),
    "paper": ("code", "base", "weight", "surface", "tone"),
    "print": ("edition", "designation", "image", "sheet", "existence"),
    "certificate": ("number", "revision", "print", "issued_at", "pdf_sha256", "state"),
}
"""What anybody may see: kinds, and of each the fields.  Whatever is not here is left out."""

_NEVER = (
    "the studio's key: whoever has it can seal certificates in the studio's name",
    "forms that were half filled when the bag was made",
)
_PRIVATE = (
    "persons, prices and places: the contact book, terms and private notes; the journal holds"
    " only commitments, which tell nothing without those pages",
)
_NOT_PUBLIC = (
    "the journal and the register: they hold working notes, inscriptions and custody beside what"
    " anybody may see, and the chain of digests cannot be kept with entries taken out",
    "printings, steps, baths, tests and readings, and who did the work",
    "sheets without a number; inscriptions and distinguishing features of prints",
    "where prints went, and when",
    "the files of certificates, so that none is handed on as another's; their numbers and"
    " digests are there, so that one that is shown can be checked",
)
_PART = (
    "everything of other editions; and with it the register, whose chain cannot be kept in part:"
    " no studio can be restored from this bag, and only the manifests show that its entries are"
    " as they were recorded",
)
_NOT_OF_IT = ("private notes, and persons whom no move of these prints names",)


def left_out(level: Level, *, part: bool) -> tuple[str, ...]:
    """What a bag at that level does not hold; `part` when it is of one edition."""
    if level == "sealed":
        return (*_NEVER[:1], *((*_PART, *_NOT_OF_IT) if part else ()))
    return (
        *(_NOT_PUBLIC if level == "public" else ()),
        *_PRIVATE,
        *_NEVER,
        *(_PART if part else ()),
    )
