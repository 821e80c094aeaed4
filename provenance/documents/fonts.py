"""The typefaces of the papers, and whether they hold every character of a text."""

import unicodedata
from enum import StrEnum
from functools import cache

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from provenance.errors import Problem, Refused
from provenance.resources import resource


class Font(StrEnum):
    """A typeface, named by the file that holds it."""

    SERIF = "EBGaramond_400Regular"
    """For what is read."""
    ITALIC = "EBGaramond_400Regular_Italic"
    """For asides.  It lacks superscript figures."""
    SANS = "SourceSans3_400Regular"
    """For labels and small print."""
    STRONG = "SourceSans3_600SemiBold"
    """For headings among labels."""


@cache
def typeface(font: Font) -> TTFont:
    """The typeface, read once and made known to the page library."""
    face = TTFont(
        font.value,
        str(resource("templates", "fonts", f"{font.value}.ttf")),
        # With shaping the library maps ligatures to private-use characters,
        # and a reader could no longer copy or search the text.
        shapable=False,
        asciiReadable=False,
    )
    pdfmetrics.registerFont(face)
    return face


def width_pt(text: str, font: Font, size_pt: float) -> float:
    """How wide `text` is set, in points."""
    return float(typeface(font).stringWidth(text, size_pt))


def require_glyphs(font: Font, text: str, *, record: str, field: str) -> None:
    """Refuse a text that `font` cannot set, naming character, record and field.

    Without this a missing character would be printed as an empty box, or as
    nothing at all.  Marks that combine with the letter before them and signs
    that steer the direction of reading are refused as well: they cannot be
    placed here.
    """
    held = typeface(font).face.charToGlyph
    for character in dict.fromkeys(text):
        if character in " \t\r\n":
            continue
        if ord(character) in held and unicodedata.category(character) not in (
            "Mn",
            "Me",
            "Cf",
            "Cc",
        ):
            continue
        name = unicodedata.name(character, "no name")
        shown = f"{character} " if character.isprintable() and name != "no name" else ""
        raise Refused(
            Problem(
                what=f"the character {shown}(U+{ord(character):04X}, {name}) cannot be printed: "
                "the typeface has no sign for it",
                record=record,
                field=field,
                mend="write it another way, in letters that the typeface has",
            )
        )
