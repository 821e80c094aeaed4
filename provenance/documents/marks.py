"""What can be put on a page, and what it is to a reader."""

import io
from dataclasses import dataclass, replace
from typing import Literal

from reportlab.pdfbase.pdfutils import readJPEGInfo

from provenance.documents.fonts import Font

_COLOUR_SPACES = {1: "DeviceGray", 3: "DeviceRGB"}


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


@dataclass(frozen=True)
class Squares:
    """A square of black and white modules; `down_pt` is its upper edge."""

    x_pt: float
    down_pt: float
    side_pt: float
    grey: float
    rows: tuple[bytes, ...]
    """From the top; 1 is black."""


Point = tuple[float, float]


@dataclass(frozen=True)
class Stroke:
    """A line through points, counted to the right and down from a drawing's upper left corner."""

    points: tuple[Point, ...]
    weight_pt: float
    dashed: bool = False


@dataclass(frozen=True)
class Drawing:
    """Black lines in a box; `down_pt` is its upper edge."""

    x_pt: float
    down_pt: float
    width_pt: float
    height_pt: float
    strokes: tuple[Stroke, ...]


Ink = Words | Rule | Picture | Squares | Drawing


@dataclass(frozen=True, eq=False)
class Element:
    """What a mark is to a reader: its role in the document, not its looks.

    `role` is a structure type of PDF (ISO 32000): H1, H2, H3, P, Figure, Table,
    TR, TH, TD; or Artifact for what is not part of the text.
    """

    role: str
    parent: "Element | None" = None
    alternative: str = ""
    """Words for who cannot see a picture."""
    scope: Literal["Row", "Column"] = "Row"
    """What a TH is the head of."""


@dataclass(frozen=True)
class Mark:
    """Ink that belongs to one element."""

    element: Element
    inks: tuple[Ink, ...]

    def lowered(self, by_pt: float) -> "Mark":
        """The same ink, `by_pt` further down."""
        if not by_pt:
            return self
        return Mark(self.element, tuple(_lowered(ink, by_pt) for ink in self.inks))


def _lowered(ink: Ink, by_pt: float) -> Ink:
    if isinstance(ink, Words):
        # A page of text is moved several times while its picture finds its size.
        return Words(ink.x_pt, ink.down_pt + by_pt, ink.text, ink.style)
    return replace(ink, down_pt=ink.down_pt + by_pt)


def jpeg_header(jpeg: bytes) -> tuple[tuple[int, int], str]:
    """Width and height in pixels, and PDF's name for the colours, read from the header.

    Raises ValueError for what is no JPEG in grey or RGB.
    """
    found = readJPEGInfo(io.BytesIO(jpeg)) if jpeg[:2] == b"\xff\xd8" else None
    if found is None or found[2] not in _COLOUR_SPACES:
        raise ValueError("the picture of a page must be a JPEG in grey or RGB")
    return (found[0], found[1]), _COLOUR_SPACES[found[2]]
