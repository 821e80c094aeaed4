"""Put marks on pages.  Everything that reaches the paper goes through `Paper.draw`."""

import hashlib
import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.pdfutils import readJPEGInfo
from reportlab.pdfgen.canvas import Canvas

from provenance.documents.fonts import Font, typeface

MM = 72 / 25.4
"""One millimetre in points."""

# Streams as bytes, not as text a quarter longer.
rl_config.useA85 = 0

_COLOUR_SPACES = {1: "DeviceGray", 3: "DeviceRGB"}

SIZES_PT = {"A4": (210 * MM, 297 * MM), "letter": (8.5 * 72, 11 * 72)}


@dataclass(frozen=True)
class Style:
    """How a text is set; `grey` is 0 for black and 1 for white."""

    font: Font
    size_pt: float
    leading_pt: float
    grey: float


@dataclass(frozen=True)
class Words:
    """One line of text, its baseline `down_pt` below the top of its slab."""

    x_pt: float
    down_pt: float
    text: str
    style: Style


@dataclass(frozen=True)
class Rule:
    """A line to write on."""

    x_pt: float
    down_pt: float
    width_pt: float
    weight_pt: float
    grey: float


@dataclass(frozen=True)
class Picture:
    """A JPEG, put on the page as it is; `down_pt` is its upper edge."""

    x_pt: float
    down_pt: float
    width_pt: float
    height_pt: float
    jpeg: bytes


Ink = Words | Rule | Picture


@dataclass(frozen=True, eq=False)
class Element:
    """What a mark is to a reader: its role in the document, not its looks.

    `role` is a structure type of PDF (ISO 32000): H1, H2, P, Figure, Table,
    TR, TH, TD; or Artifact for what is not part of the text.
    """

    role: str
    parent: "Element | None" = None
    alternative: str = ""
    """Words for who cannot see a picture."""


@dataclass(frozen=True)
class Mark:
    """Ink that belongs to one element."""

    element: Element
    inks: tuple[Ink, ...]

    def lowered(self, by_pt: float) -> "Mark":
        """The same ink, `by_pt` further down."""
        inks = tuple(replace(ink, down_pt=ink.down_pt + by_pt) for ink in self.inks)
        return replace(self, inks=inks)


@dataclass(frozen=True)
class About:
    """What the file says of itself; `identity` makes its ID, 32 bytes or more."""

    title: str
    author: str
    subject: str
    language: str
    issued_at_utc: datetime
    identity: bytes


def jpeg_header(jpeg: bytes) -> tuple[tuple[int, int], str]:
    """Width and height in pixels, and PDF's name for the colours, read from the header.

    Raises ValueError for what is no JPEG in grey or RGB.
    """
    found = readJPEGInfo(io.BytesIO(jpeg)) if jpeg[:2] == b"\xff\xd8" else None
    if found is None or found[2] not in _COLOUR_SPACES:
        raise ValueError("the picture of a page must be a JPEG in grey or RGB")
    return (found[0], found[1]), _COLOUR_SPACES[found[2]]


class Paper:
    """A PDF in the making.  Equal calls give equal bytes."""

    def __init__(self, about: About, size_pt: tuple[float, float]) -> None:
        typeface(Font.SERIF)
        self._file = io.BytesIO()
        self._height_pt = size_pt[1]
        self._canvas = Canvas(
            self._file,
            pagesize=size_pt,
            pageCompression=1,
            invariant=1,
            lang=about.language,
            # Otherwise the library starts each page in a typeface it does not embed.
            initialFontName=Font.SERIF.value,  # type: ignore[arg-type]
        )
        self._canvas.setTitle(about.title)
        self._canvas.setAuthor(about.author)
        self._canvas.setSubject(about.subject)
        self._canvas.setCreator("darkroom-provenance")
        self._document: Any = self._canvas._doc  # type: ignore[attr-defined]
        self._document._timeStamp = _TimeStamp(about.issued_at_utc)
        identity = hashlib.sha256(about.identity).hexdigest()[:32].encode()
        self._document._ID = b"[<" + identity + b"><" + identity + b">]"

    def draw(self, marks: Iterable[Mark], top_pt: float) -> None:
        """Put `marks` on the page; their slab begins `top_pt` above its lower edge."""
        for mark in marks:
            for ink in mark.inks:
                self._put(ink, top_pt)

    def turn(self) -> None:
        """Go to a new page."""
        self._canvas.showPage()

    def finish(self) -> bytes:
        """The file, when the last page has been turned."""
        self._canvas.save()
        return self._file.getvalue()

    def _put(self, ink: Ink, top_pt: float) -> None:
        y_pt = top_pt - ink.down_pt
        if isinstance(ink, Words):
            typeface(ink.style.font)
            self._canvas.setFillGray(ink.style.grey)
            self._canvas.setFont(ink.style.font.value, ink.style.size_pt)
            self._canvas.drawString(ink.x_pt, y_pt, ink.text)
        elif isinstance(ink, Rule):
            self._canvas.setStrokeGray(ink.grey)
            self._canvas.setLineWidth(ink.weight_pt)
            self._canvas.line(ink.x_pt, y_pt, ink.x_pt + ink.width_pt, y_pt)
        else:
            self._put_picture(ink, y_pt)

    def _put_picture(self, picture: Picture, top_pt: float) -> None:
        # The library's own way decodes the picture first, only to name it.
        name = hashlib.sha256(picture.jpeg).hexdigest()
        key = self._document.getXObjectName(name)
        if key not in self._document.idToObject:
            image: Any = pdfdoc.PDFImageXObject(name)
            (image.width, image.height), image.colorSpace = jpeg_header(picture.jpeg)
            image.bitsPerComponent = 8
            image.streamContent = picture.jpeg
            image._filters = ("DCTDecode",)
            self._document.Reference(image, key)
            self._document.addForm(name, image)
        self._canvas.saveState()
        self._canvas.translate(picture.x_pt, top_pt - picture.height_pt)
        self._canvas.scale(picture.width_pt, picture.height_pt)
        self._canvas.doForm(name)
        self._canvas.restoreState()


class _TimeStamp:
    """The date of issue in the shape that the page library asks its clock for."""

    def __init__(self, at: datetime) -> None:
        utc = at.astimezone(UTC)
        self.t = utc.timestamp()
        self.lt = utc.timetuple()
        self.YMDhms = tuple(self.lt)[:6]
        self.dhh = self.dmm = 0
        self.tzname = "UTC"
