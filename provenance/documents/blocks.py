"""The blocks of a certificate, each as slabs for the flow."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from provenance.documents.content import CertificatePage, StudioMark
from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    artifact,
    paragraph,
    row,
    side_by_side,
    stacked,
    together,
)
from provenance.documents.grid import (
    CAPITALS_DOWN_PT,
    GUTTER_PT,
    HEADING,
    LABEL,
    READ,
    READ_QUIET,
    SMALL,
)
from provenance.documents.page import MM, Element, Mark, Picture, Rule, Squares
from provenance.documents.portrait import portrait
from provenance.documents.qr import code_rows
from provenance.documents.room import Room
from provenance.documents.sections import headed, named, sections

# Small, and still read from a scan at 150 dpi.
_CODE_PT = 22 * MM
# Dark enough for every reader, and no darker than the text around it.
_CODE_GREY = 0.25
# However wide the mark, the studio's name keeps the rest of its line.
_MARK_PART = 0.4
# A section of no more lines than this is not cut.
_LINES_TOGETHER = 5


def slabs_of(content: CertificatePage, blocks: Iterable[str], room: Room) -> list[Slab]:
    """The blocks named, in their order."""
    return [slab for name in blocks for slab in _BLOCKS[name](content, room)]


def _title(content: CertificatePage, room: Room) -> list[Slab]:
    grid, line = room.grid, room.grid.span(1, 6)
    kind = Strand(content.labels["certificate"], grid.span(1, 1), HEADING, Element("P"))
    place = Strand(content.place, grid.span(2, 6), READ_QUIET, Element("P"), from_right=True)
    artist = Strand(content.artist, line, READ, Element("P"))
    head = row([kind, place]) if content.mark is None else [_beside(content.mark, kind, place)]
    return together(
        [*head, *named(content.title, content.designation, room), *row([artist], room.gap(0.6))]
    )


def _beside(mark: StudioMark, kind: Strand, place: Strand) -> Slab:
    """The head of the page with the studio's mark at its right edge, level with its name."""
    wide_px, high_px = mark.px
    scale = min(mark.height_mm * MM / high_px, _MARK_PART * place.column.width_pt / wide_px)
    width_pt, height_pt = wide_px * scale, high_px * scale
    own = Column(place.column.x_pt, place.column.width_pt - width_pt - GUTTER_PT)
    text = stacked(row([kind, replace(place, column=own)]))
    whole_pt = max(height_pt, text.height_pt)
    x_pt = place.column.x_pt + place.column.width_pt - width_pt
    picture = Picture(x_pt, (whole_pt - height_pt) / 2, width_pt, height_pt, mark.jpeg)
    lower_pt = (whole_pt - text.height_pt) / 2
    seen = Mark(Element("Figure", alternative=mark.alternative), (picture,))
    return Slab(whole_pt, (*(one.lowered(lower_pt) for one in text.marks), seen))


def _sections(content: CertificatePage, room: Room) -> list[Slab]:
    return sections(content.sections, content.labels["continued"], room)


def _care(content: CertificatePage, room: Room) -> list[Slab]:
    body: list[Slab] = []
    for advice in content.care:
        body += paragraph(Strand(advice, room.grid.span(2, 6), READ, Element("P")))
    return headed(content.labels["care"], body, content.labels["continued"], room, room.gap(3))


def _signature(content: CertificatePage, room: Room) -> list[Slab]:
    # A hand needs its room whatever else must shrink.
    above_pt = 9 * MM
    lines = {"artist_signature": (2, 3), "date": (4, 4), "owner_name": (5, 6)}
    rules = []
    for first, last in lines.values():
        column = room.grid.span(first, last)
        rules.append(Rule(column.x_pt, above_pt, column.width_pt, weight_pt=0.5, grey=0.25))
    labels = row(
        [
            Strand(content.labels[name], room.grid.span(*columns), LABEL, Element("P"))
            for name, columns in lines.items()
        ]
    )
    return together(
        [
            # What follows stands at the foot of the page, however short the text.
            Slab(above_pt, (artifact(*rules),), gap_pt=room.gap(2), stretch_pt=room.grid.height_pt),
            *labels,
        ]
    )


def _marks(content: CertificatePage, room: Room) -> list[Slab]:
    labels, grid = content.labels, room.grid
    issue = (
        f"{content.number}, {labels['revision']} {content.revision}, "
        f"{labels['issued']} {content.issued_on}"
    )
    journal = f"{labels['journal']}, {labels['journal_entry']} {content.journal_head_seq}"
    told = (
        (labels["number"], issue),
        ("", content.replaces),
        (labels["changed"], content.changed),
        (labels["record"], _grouped(content.record_sha256)),
        (journal, _grouped(content.journal_head_sha256)),
        (labels["key"], _grouped(content.key_sha256)),
        ("", content.journal_note),
    )
    slabs: list[Slab] = []
    for label, text in told:
        if not text:
            continue
        cells = [
            Strand(label, grid.span(1, 1), SMALL, Element("P")),
            Strand(text, grid.span(2, 5), SMALL, Element("P")),
        ]
        slabs += row(cells, 1.5 if slabs else room.gap(6))
    return [side_by_side(stacked(slabs), _code(content, grid.span(6, 6)))]


def _code(content: CertificatePage, column: Column) -> Slab:
    """The QR code; the gutter and the margins keep the white that it needs."""
    side_pt, rows = _CODE_PT, code_rows(content.code)
    squares = Squares(
        column.x_pt + column.width_pt - side_pt, CAPITALS_DOWN_PT, side_pt, _CODE_GREY, rows
    )
    element = Element("Figure", alternative=content.labels["code"])
    return Slab(CAPITALS_DOWN_PT + side_pt, (Mark(element, (squares,)),))


def _grouped(digest: str) -> str:
    """A digest in groups of four, so that an eye can compare it."""
    return " ".join(digest[at : at + 4] for at in range(0, len(digest), 4))


_BLOCKS: dict[str, Callable[[CertificatePage, Room], list[Slab]]] = {
    "title": _title,
    "print": portrait,
    "sections": _sections,
    "care": _care,
    "signature": _signature,
    "marks": _marks,
}
