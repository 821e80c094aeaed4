"""Draw the report of a match: spot by spot, and beside the picture where it differs."""

from dataclasses import dataclass
from datetime import datetime
from unicodedata import normalize

import msgspec

from provenance.documents.flow import Column, Slab, Strand, artifact, row, side_by_side, stacked
from provenance.documents.fonts import Font, require_glyphs
from provenance.documents.marks import Drawing, Mark, Stroke, Words
from provenance.documents.page import MM, SIZES_PT, About, Element, Paper, Picture, Rule, Style
from provenance.errors import Problem, Refused
from provenance.model.certificate import Page

_MARGIN_PT = 22 * MM
_PICTURE_PT = (76 * MM, 84 * MM)
_SHARES = (0.06, 0.30, 0.13, 0.15, 0.15, 0.09, 0.12)
"""Of the width: letter, spot, then, off by, allowed, ΔE00, verdict."""
_TEXT, _STRONG = (Style(font, 10.5, 14, 0.0) for font in (Font.SANS, Font.STRONG))
_SMALL = Style(Font.SANS, 9, 12, 0.0)
_TITLE = Style(Font.STRONG, 16, 20, 0.0)


@dataclass(frozen=True)
class MatchSheet:
    """One side of paper, as finished text.  No text here is markup."""

    title: str
    verdict: str
    heads: tuple[str, ...]
    """Seven, as the cells of a row."""
    rows: tuple[tuple[str, ...], ...]
    differs: tuple[bool, ...]
    """Which rows stand out."""
    image: tuple[int, int]
    """Height and width of the image, in any one unit."""
    letters: tuple[tuple[str, float, float], ...]
    """A letter, and where it lies: 0 to 1 across, and down."""
    sketch_alternative: str
    picture: tuple[bytes, str] | None
    """A JPEG, and words for who cannot see it."""
    lines: tuple[str, ...]
    """What it was held to, what to heed, what was decided."""
    drawn_at_utc: datetime
    author: str = ""
    page: Page = "A4"
    language: str = "en"


def draw_match_sheet(sheet: MatchSheet) -> bytes:
    """The report as a PDF; equal sheets give equal bytes.

    Raises Refused for a character that cannot be printed, and for more spots
    than one side holds.
    """
    if sheet.drawn_at_utc.utcoffset() is None:
        raise ValueError("drawn_at_utc must know its time zone")
    texts = (sheet.title, sheet.verdict, *sheet.heads, *sheet.lines)
    for text in (*texts, *(cell for cells in sheet.rows for cell in cells)):
        for font in (Font.SANS, Font.STRONG):
            require_glyphs(font, normalize("NFC", text), record=sheet.title, field=text[:40])
    wide, tall = SIZES_PT[sheet.page]
    area = Column(_MARGIN_PT, wide - 2 * _MARGIN_PT)
    whole = stacked(_slabs(sheet, area))
    if whole.height_pt > tall - 2 * _MARGIN_PT:
        raise Refused(
            Problem(
                what="the report is longer than one side",
                record=sheet.title,
                mend="hold the prints against each other at fewer spots",
            )
        )
    paper = Paper(_about(sheet), (wide, tall))
    paper.draw(whole.marks, tall - _MARGIN_PT)
    paper.turn()
    return paper.finish()


def _about(sheet: MatchSheet) -> About:
    return About(
        title=sheet.title,
        author=sheet.author,
        subject=sheet.verdict,
        language=sheet.language,
        issued_at_utc=sheet.drawn_at_utc,
        identity=msgspec.json.encode(sheet, order="deterministic"),
    )


def _slabs(sheet: MatchSheet, area: Column) -> list[Slab]:
    slabs = row([Strand(sheet.title, area, _TITLE, Element("H1"))])
    slabs += row([Strand(sheet.verdict, area, _STRONG, Element("P"))], gap_pt=4)
    table = Element("Table")
    slabs += _cells(sheet.heads, area, _SMALL, Element("TR", table), head=True)
    slabs.append(Slab(3, (artifact(Rule(area.x_pt, 1, area.width_pt, 1, 0.0)),)))
    for cells, off in zip(sheet.rows, sheet.differs, strict=True):
        slabs += _cells(cells, area, _STRONG if off else _TEXT, Element("TR", table), head=False)
    slabs.append(_pictures(sheet, area))
    for text in sheet.lines:
        slabs += row([Strand(text, area, _SMALL, Element("P"))], gap_pt=3)
    return slabs


def _cells(
    cells: tuple[str, ...], area: Column, style: Style, line: Element, *, head: bool
) -> list[Slab]:
    strands, x_pt = [], area.x_pt
    for at, (text, share) in enumerate(zip(cells, _SHARES, strict=True)):
        element = Element("TH", line, scope="Column") if head else Element("TD", line)
        if at == 1 and not head:
            element = Element("TH", line)
        wide_pt = share * area.width_pt
        strands.append(Strand(text, Column(x_pt, wide_pt - 4), style, element))
        x_pt += wide_pt
    return row(strands, gap_pt=10 if head else 2)


def _pictures(sheet: MatchSheet, area: Column) -> Slab:
    """The frame with its letters; the picture of the print beside it."""
    high, wide = sheet.image
    unit = min(_PICTURE_PT[0] / wide, _PICTURE_PT[1] / high)
    width_pt, height_pt = wide * unit, high * unit
    edge = (
        (0.0, 0.0), (width_pt, 0.0), (width_pt, height_pt), (0.0, height_pt), (0.0, 0.0),
    )  # fmt: skip
    drawing = Drawing(area.x_pt, 0, width_pt, height_pt, (Stroke(edge, 1),))
    words = (
        Words(area.x_pt + across * width_pt - 3, down * height_pt + 4, letter, _STRONG)
        for letter, across, down in sheet.letters
    )
    sketch = Mark(Element("Figure", alternative=sheet.sketch_alternative), (drawing, *words))
    first = Slab(height_pt, (sketch,), gap_pt=16)
    if sheet.picture is None:
        return first
    jpeg, alternative = sheet.picture
    x_pt = area.x_pt + width_pt + 6 * MM
    seen = Picture(x_pt, 0, width_pt, height_pt, jpeg)
    mark = Mark(Element("Figure", alternative=alternative), (seen,))
    return side_by_side(first, Slab(height_pt, (mark,)))
