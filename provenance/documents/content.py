"""What a certificate says, and that every character of it can be printed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal
from unicodedata import normalize

from provenance.documents.fonts import Font, require_glyphs
from provenance.documents.page import Attachment, jpeg_header

Pair = tuple[str, str]


@dataclass(frozen=True)
class StudioMark:
    """The studio's own mark, which stands beside its name."""

    jpeg: bytes
    px: tuple[int, int]
    """Width and height of the picture."""
    height_mm: float
    alternative: str
    """Words for who cannot see it."""


@dataclass(frozen=True)
class CertificatePage:
    """What a certificate says, as finished text.  No text here is markup.

    `labels` are the fixed words of the template (`template.LABELS`).
    """

    title: str
    designation: str
    """The number in the edition: ``7/25``."""
    artist: str
    place: str
    picture_jpeg: bytes
    picture_px: tuple[int, int]
    """Width and height of the picture."""
    picture_caption: str
    """Image and sheet size."""
    particulars: tuple[Pair, ...]
    """Label and value, in the order of reading."""
    sections: tuple[tuple[str, tuple[Pair, ...]], ...]
    """A heading with its sentences, each with its standing in a word."""
    care: tuple[str, ...]
    number: str
    revision: int
    record_sha256: str
    """Digest of the record, in hexadecimal."""
    journal_head_seq: int
    journal_head_sha256: str
    journal_note: str
    """What the digests can and cannot show."""
    issued_on: str
    """Date of issue, as it is printed."""
    issued_at_utc: datetime
    """Moment of issue, for the file; it must know its time zone."""
    labels: Mapping[str, str]
    code: str
    """What the QR code holds."""
    attachments: tuple[Attachment, ...] = ()
    replaces: str = ""
    """Which revision it takes the place of, and why."""
    changed: str = ""
    """What it says otherwise than that revision."""
    key_sha256: str = ""
    """Fingerprint of the key that seals it, in hexadecimal."""
    mark: StudioMark | None = None
    page: Literal["A4", "letter"] = "A4"
    language: str = "en"


def checked(content: CertificatePage) -> CertificatePage:
    """The same content in Unicode's composed form (NFC).

    Raises Refused when the typeface that will set a text lacks one of its
    characters; ValueError when the moment of issue knows no time zone or the
    picture, or the mark, is not a JPEG of the size given.
    """
    if jpeg_header(content.picture_jpeg)[0] != content.picture_px:
        raise ValueError("picture_px is not the size of picture_jpeg")
    mark = content.mark
    if mark is not None and jpeg_header(mark.jpeg)[0] != mark.px:
        raise ValueError("mark.px is not the size of mark.jpeg")
    if content.issued_at_utc.utcoffset() is None:
        raise ValueError("issued_at_utc must know its time zone")

    def text(font: Font, given: str, field: str) -> str:
        composed = normalize("NFC", given)
        require_glyphs(font, composed, record=content.number, field=field)
        return composed

    def pair(label: str, value: str) -> Pair:
        return text(Font.SANS, label, "particulars"), text(Font.SERIF, value, label)

    def section(heading: str, sentences: tuple[Pair, ...]) -> tuple[str, tuple[Pair, ...]]:
        return text(Font.STRONG, heading, "sections"), tuple(
            (text(Font.SERIF, sentence, heading), text(Font.SANS, standing, heading))
            for sentence, standing in sentences
        )

    return replace(
        content,
        title=text(Font.SERIF, content.title, "title"),
        designation=text(Font.SERIF, content.designation, "designation"),
        artist=text(Font.SERIF, content.artist, "artist"),
        place=text(Font.SERIF, content.place, "place"),
        picture_caption=text(Font.SERIF, content.picture_caption, "size"),
        particulars=tuple(pair(*each) for each in content.particulars),
        sections=tuple(section(*each) for each in content.sections),
        care=tuple(text(Font.SERIF, each, "care") for each in content.care),
        number=text(Font.SANS, content.number, "number"),
        journal_note=text(Font.SANS, content.journal_note, "journal note"),
        replaces=text(Font.SANS, content.replaces, "reason"),
        changed=text(Font.SANS, content.changed, "changed"),
        issued_on=text(Font.SANS, content.issued_on, "issued on"),
        labels={
            name: text(Font.STRONG, label, f"label {name}")
            for name, label in content.labels.items()
        },
    )
