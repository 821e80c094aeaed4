"""The portrait of a print: its picture and its particulars, side by side or stacked."""

from provenance.documents.content import CertificatePage, Pair
from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    figure,
    height_pt,
    paragraph,
    row,
    side_by_side,
    stacked,
)
from provenance.documents.grid import CAPITALS_DOWN_PT, LABEL, READ, READ_QUIET, Grid
from provenance.documents.page import Element, Picture
from provenance.documents.room import Room

# A value of more lines than this gets the whole width of the page.
_LINES_IN_HALF = 4


def portrait(content: CertificatePage, room: Room) -> list[Slab]:
    """The picture with its caption, and the particulars."""
    if not room.beside:
        return [*_picture(content, room, room.picture_pt), *_particulars(content, room)]
    table = stacked(_column(content, room))
    bare = height_pt(_picture(content, room, 0.0))
    # Where the particulars are the longer, the picture may end with them.
    level_pt = min(room.picture_most_pt, table.height_pt - bare)
    picture = stacked(_picture(content, room, max(room.picture_pt, level_pt)))
    return [side_by_side(picture, table)]


def picture_height_pt(content: CertificatePage, grid: Grid, beside: bool) -> float:
    """How high the picture would stand if it filled its columns."""
    wide_px, high_px = content.picture_px
    return _picture_column(grid, beside).width_pt * high_px / wide_px


def fits_beside(content: CertificatePage, room: Room) -> bool:
    """Whether the particulars are few enough to stand beside a picture."""
    table_pt = height_pt(_column(content, room)) if content.particulars else 0.0
    return 0.0 < table_pt <= 0.5 * room.grid.height_pt


def _picture_column(grid: Grid, beside: bool) -> Column:
    return grid.span(1, 3 if beside else 6)


def _picture(content: CertificatePage, room: Room, most_pt: float) -> list[Slab]:
    line = _picture_column(room.grid, room.beside)
    wide_px, high_px = content.picture_px
    scale = min(line.width_pt / wide_px, most_pt / high_px)
    picture = Picture(
        x_pt=line.x_pt,
        down_pt=CAPITALS_DOWN_PT,
        width_pt=wide_px * scale,
        height_pt=high_px * scale,
        jpeg=content.picture_jpeg,
    )
    seen = Element("Figure", alternative=f"{content.title}. {content.picture_caption}")
    caption = Strand(content.picture_caption, line, READ_QUIET, Element("Caption"))
    return [*figure(picture, seen, room.gap(7)), *paragraph(caption, room.gap(1.2))]


def _column(content: CertificatePage, room: Room) -> list[Slab]:
    """The particulars one below the other, in the right half of the page."""
    table, slabs = Element("Table"), list[Slab]()
    for pair in content.particulars:
        cells = _cells(pair, room.grid, 4, 6, Element("TR", table))
        slabs += row(cells, room.gap(1) if slabs else room.gap(7), lines_whole=len(pair[1]))
    return slabs


def _particulars(content: CertificatePage, room: Room) -> list[Slab]:
    """The particulars two in a row, a long one in a row of its own."""
    table, slabs, waiting = Element("Table"), list[Slab](), list[Pair]()

    def close(last: int = 3) -> None:
        if waiting:
            line, gap_pt = Element("TR", table), room.gap(1 if slabs else 6)
            cells = _cells(waiting[0], room.grid, 1, last, line)
            if len(waiting) == 2:
                cells += _cells(waiting[1], room.grid, 4, 6, line)
            slabs.extend(row(cells, gap_pt))
            waiting.clear()

    for pair in content.particulars:
        half = Strand(pair[1], room.grid.span(2, 3), READ, table)
        if len(half.lines()) > _LINES_IN_HALF:
            close()
            waiting.append(pair)
            close(last=6)
        else:
            waiting.append(pair)
            if len(waiting) == 2:
                close()
    close()
    return slabs


def _cells(pair: Pair, grid: Grid, first: int, last: int, line: Element) -> list[Strand]:
    label, value = pair
    return [
        Strand(label, grid.span(first, first), LABEL, Element("TH", line)),
        Strand(value, grid.span(first + 1, last), READ, Element("TD", line)),
    ]
