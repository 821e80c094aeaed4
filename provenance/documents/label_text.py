"""What one label says, and that every character of it can be printed."""

from dataclasses import dataclass, replace
from unicodedata import normalize

from provenance.documents.fonts import Font, require_glyphs

Pair = tuple[str, str]


@dataclass(frozen=True)
class LabelText:
    """One label as finished text.  No text here is markup."""

    code: str
    """What the bottle or tray is called in the records."""
    name: str
    contents: str
    """What is in it, and how much."""
    basis: str
    """Where the codes come from, what else was found, and whose word is above them."""
    keep_from: Pair
    """Label and text, as for the lines below."""
    protect: Pair
    """Gloves, eyes, air."""
    mixed: Pair
    """Label and date; without a date, room to write it."""
    discard: Pair
    """The same for the date after which it is not used."""
    signal_word: str = ""
    pictograms: tuple[Pair, ...] = ()
    """Codes and their words."""
    hazards: tuple[Pair, ...] = ()
    """Codes and what they mean in short.  The meaning gives way before a code does."""
    no_codes: str = ""
    """Said in the place of codes: why there are none."""
    lines: tuple[Pair, ...] = ()
    """Labels and texts of further lines, such as waste, keeping, dilution.  Where
    room is short the last of them gives way first, and all before a meaning does."""


def checked(label: LabelText) -> LabelText:
    """The same in Unicode's composed form (NFC).

    Raises Refused, naming character, label and field, when the typeface that
    will set a text lacks one of its characters.
    """

    def text(font: Font, given: str, field: str) -> str:
        composed = normalize("NFC", given)
        require_glyphs(font, composed, record=label.code, field=field)
        return composed

    def pair(given: Pair, field: str, second: Font = Font.SANS) -> Pair:
        return text(Font.STRONG, given[0], field), text(second, given[1], field)

    return replace(
        label,
        code=text(Font.STRONG, label.code, "code"),
        name=text(Font.STRONG, label.name, "name"),
        contents=text(Font.SANS, label.contents, "contents"),
        basis=text(Font.SANS, label.basis, "basis"),
        keep_from=pair(label.keep_from, "keep from"),
        protect=pair(label.protect, "protect"),
        mixed=pair(label.mixed, "mixed", Font.STRONG),
        discard=pair(label.discard, "discard", Font.STRONG),
        signal_word=text(Font.STRONG, label.signal_word.upper(), "signal word"),
        pictograms=tuple(pair(one, "pictograms", Font.STRONG) for one in label.pictograms),
        hazards=tuple(pair(one, "hazards") for one in label.hazards),
        no_codes=text(Font.SANS, label.no_codes, "no codes"),
        lines=tuple(pair(one, one[0]) for one in label.lines),
    )
