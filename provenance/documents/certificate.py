"""Draw the certificate of a print from finished sentences."""

import msgspec

from provenance.documents.blocks import Room, picture_height_pt, slabs_of
from provenance.documents.content import CertificatePage, checked
from provenance.documents.flow import Slab, Strand, height_pt, paginate, row
from provenance.documents.grid import SMALL, Grid
from provenance.documents.page import MM, SIZES_PT, About, Element, Paper
from provenance.documents.template import CertificateLayout, shipped_layout

__all__ = ["CertificatePage", "draw_certificate"]

# How near the blocks may move to each other before a second page is begun.
_GAP_SCALES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.55)
# The blocks move before the picture shrinks below this part of its full height.
_COMFORTABLE = 0.7


def draw_certificate(content: CertificatePage, layout: CertificateLayout | None = None) -> bytes:
    """The certificate as a PDF; equal content and layout give equal bytes.

    An ordinary print fits one page, the picture shrinking a little if it must;
    what does not fit runs on to further pages, each with number and page at
    its foot.  Raises Refused, naming character, record and field, when the
    typefaces cannot set a text.
    """
    content = checked(content)
    layout = layout or shipped_layout(content.language)
    grid = _grid(content, layout)
    pages = paginate(_fitted(content, layout, grid), grid.height_pt)
    paper = Paper(_about(content, layout), SIZES_PT[content.page])
    for at, placed in enumerate(pages, 1):
        for place in placed:
            paper.draw(place.slab.marks, grid.bottom_pt + grid.height_pt - place.down_pt)
        if len(pages) > 1:
            _draw_foot(paper, content, grid, at, len(pages))
        paper.turn()
    return paper.finish()


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
    """The blocks with the largest picture that leaves them on one page, if one can."""
    most_pt = picture_height_pt(content, grid, layout.measures.picture_most_mm * MM)
    least_pt = min(most_pt, layout.measures.picture_least_mm * MM)
    for wanted_pt in (_COMFORTABLE * most_pt, least_pt):
        for scale in _GAP_SCALES:
            rest = slabs_of(content, layout.blocks, Room(grid, 0.0, scale))
            picture_pt = min(most_pt, grid.height_pt - height_pt(rest))
            if picture_pt >= max(wanted_pt, least_pt):
                return slabs_of(content, layout.blocks, Room(grid, picture_pt, scale))
    return slabs_of(content, layout.blocks, Room(grid, most_pt, 1.0))


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
        language=content.language,
        issued_at_utc=content.issued_at_utc,
        identity=msgspec.json.encode((content, layout), order="deterministic"),
    )
