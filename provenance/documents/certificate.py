"""Draw the certificate of a print from finished sentences."""

from bisect import bisect_left
from collections.abc import Callable, Iterator
from dataclasses import replace

import msgspec

from provenance.documents.blocks import slabs_of
from provenance.documents.content import CertificatePage, checked
from provenance.documents.flow import Slab, Strand, height_pt, paginate, row
from provenance.documents.grid import SMALL, Grid
from provenance.documents.page import MM, SIZES_PT, About, Element, Paper
from provenance.documents.portrait import fits_beside, picture_height_pt
from provenance.documents.room import Room
from provenance.documents.template import CertificateLayout, shipped_layout

__all__ = ["CertificatePage", "draw_certificate"]

# From a generous page to a full one the picture and the white shrink together,
# in so many steps, the white to this part of itself.
_STEPS = 12
_LEAST_WHITE = 0.42
# Particulars below a picture take more of the page than beside it: that must
# make the picture so much larger.
_WORTH = 1.2


def draw_certificate(
    content: CertificatePage,
    layout: CertificateLayout | None = None,
    sign: Callable[[bytes], bytes] | None = None,
) -> bytes:
    """The certificate as a PDF; equal content and layout give equal bytes.

    An ordinary print fits one page, the picture shrinking a little if it must;
    what does not fit runs on to further pages, each with number and page at
    its foot.  `sign` gives the Ed25519 signature that seals the file.  Raises
    Refused, naming character, record and field, when the typefaces cannot set a
    text.
    """
    content = checked(content)
    layout = layout or shipped_layout(content.language)
    grid = _grid(content, layout)
    pages = paginate(_fitted(content, layout, grid), grid.height_pt)
    if len(pages) > 1 and content.changed:
        # The record has it in full; no second page is begun for these words alone.
        shorter = paginate(_fitted(replace(content, changed=""), layout, grid), grid.height_pt)
        pages = shorter if len(shorter) == 1 else pages
    paper = Paper(_about(content, layout), SIZES_PT[content.page], content.attachments)
    for at, placed in enumerate(pages, 1):
        for place in placed:
            paper.draw(place.slab.marks, grid.bottom_pt + grid.height_pt - place.down_pt)
        if len(pages) > 1:
            _draw_foot(paper, content, grid, at, len(pages))
        paper.turn()
    return paper.finish(sign)


def _grid(content: CertificatePage, layout: CertificateLayout) -> Grid:
    width_pt, height_pt = SIZES_PT[content.page]
    measures = layout.measures
    return Grid(
        left_pt=measures.margin_left_mm * MM,
        width_pt=width_pt - (measures.margin_left_mm + measures.margin_right_mm) * MM,
        height_pt=height_pt - (measures.margin_top_mm + measures.margin_bottom_mm) * MM,
        bottom_pt=measures.margin_bottom_mm * MM,
    )


def _fitted(content: CertificatePage, layout: CertificateLayout, grid: Grid) -> list[Slab]:
    """The blocks in the most generous way that leaves them on one page, if one does."""

    def blocks(room: Room) -> list[Slab]:
        return slabs_of(content, layout.blocks, room)

    def fits(room: Room) -> bool:
        return height_pt(blocks(room)) <= grid.height_pt

    ways = list(_ways(content, layout, grid))
    for most, least_pt in ways:
        steps = [_narrowed(most, least_pt, step / _STEPS) for step in range(_STEPS + 1)]
        if fits(steps[-1]):
            return blocks(steps[bisect_left(steps, True, key=fits)])
    return blocks(ways[0][0])


def _ways(
    content: CertificatePage, layout: CertificateLayout, grid: Grid
) -> Iterator[tuple[Room, float]]:
    """The ways to place picture and particulars: the room at best, the least picture."""
    most_pt, least_pt = layout.measures.picture_most_mm * MM, layout.measures.picture_least_mm * MM
    below_pt, beside_pt = (
        min(most_pt, picture_height_pt(content, grid, beside)) for beside in (False, True)
    )
    below, beside = (
        Room(grid, height, height, beside=beside, gap_scale=1.0)
        for height, beside in ((below_pt, False), (beside_pt, True))
    )
    if not fits_beside(content, beside):
        yield below, min(below_pt, least_pt)
        return
    if below_pt > _WORTH * beside_pt:
        yield below, _WORTH * beside_pt
    yield beside, min(beside_pt, least_pt)


def _narrowed(room: Room, least_pt: float, part: float) -> Room:
    picture_pt = room.picture_pt - part * (room.picture_pt - least_pt)
    return replace(room, picture_pt=picture_pt, gap_scale=1.0 - part * (1.0 - _LEAST_WHITE))


def _draw_foot(paper: Paper, content: CertificatePage, grid: Grid, page: int, pages: int) -> None:
    counted = content.labels["page_of"].replace("{page}", str(page)).replace("{pages}", str(pages))
    element = Element("Artifact")
    line = row(
        [
            Strand(content.number, grid.span(2, 4), SMALL, element),
            Strand(counted, grid.span(5, 6), SMALL, element, from_right=True),
        ]
    )
    paper.draw(line[0].marks, grid.bottom_pt - 8 * MM)


def _about(content: CertificatePage, layout: CertificateLayout) -> About:
    return About(
        title=f"{content.title} {content.designation}",
        author=content.artist,
        subject=content.number,
        identifier=content.number,
        language=content.language,
        issued_at_utc=content.issued_at_utc,
        identity=msgspec.json.encode((content, layout), order="deterministic"),
    )
