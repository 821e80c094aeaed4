"""The blocks of a certificate, each as slabs for the flow."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from provenance.documents.content import CertificatePage, Pair
from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    artifact,
    figure,
    heading,
    paragraph,
    row,
    together,
)
from provenance.documents.fonts import width_pt
from provenance.documents.grid import (
    GUTTER_PT,
    HEADING,
    LABEL,
    READ,
    READ_QUIET,
    SMALL,
    TITLE,
    Grid,
)
from provenance.documents.page import MM, Element, Picture, Rule

# A value of more lines than this gets the whole width of the page.
_LINES_IN_HALF = 4
# A section of no more lines than this is not cut.
_LINES_TOGETHER = 10


@dataclass(frozen=True)
class Room:
    """What a block may use of the page."""

    grid: Grid
    picture_pt: float
    """The greatest height of the picture."""
    gap_scale: float
    """1 for generous white between the blocks, less when room is short."""

    def gap(self, millimetres: float) -> float:
        """So much white, in points, scaled to the room there is."""
        return millimetres * MM * self.gap_scale


def picture_height_pt(content: CertificatePage, grid: Grid, most_pt: float) -> float:
    """How high the picture stands when it may fill its columns, at most `most_pt`."""
    wide_px, high_px = content.picture_px
    return min(most_pt, grid.span(2, 6).width_pt * high_px / wide_px)


def slabs_of(content: CertificatePage, blocks: Iterable[str], room: Room) -> list[Slab]:
    """The blocks named, in their order."""
    return [slab for name in blocks for slab in _BLOCKS[name](content, room)]


def _title(content: CertificatePage, room: Room) -> list[Slab]:
    grid, line = room.grid, room.grid.span(2, 6)
    own_pt = width_pt(content.designation, TITLE.font, TITLE.size_pt)
    beside = own_pt < 0.4 * line.width_pt
    taken_pt = own_pt + GUTTER_PT if beside else 0.0
    element = Element("H1")
    top = [
        Strand(content.labels["certificate"], grid.span(1, 1), HEADING, Element("P")),
        Strand(content.title, Column(line.x_pt, line.width_pt - taken_pt), TITLE, element),
    ]
    number = Strand(content.designation, line, TITLE, element, from_right=beside)
    rows = row([*top, number]) if beside else [*row(top), *row([number])]
    artist = Strand(content.artist, grid.span(2, 4), READ, Element("P"))
    place = Strand(content.place, grid.span(5, 6), READ_QUIET, Element("P"), from_right=True)
    return together([*rows, *row([artist, place], room.gap(0.6))])


def _picture(content: CertificatePage, room: Room) -> list[Slab]:
    line = room.grid.span(2, 6)
    wide_px, high_px = content.picture_px
    scale = min(line.width_pt / wide_px, room.picture_pt / high_px)
    picture = Picture(
        x_pt=line.x_pt,
        down_pt=0.0,
        width_pt=wide_px * scale,
        height_pt=high_px * scale,
        jpeg=content.picture_jpeg,
    )
    seen = Element("Figure", alternative=f"{content.title}. {content.picture_caption}")
    caption = Strand(content.picture_caption, line, READ_QUIET, Element("Caption"))
    return [*figure(picture, seen, room.gap(6)), *paragraph(caption, room.gap(1.2))]


def _particulars(content: CertificatePage, room: Room) -> list[Slab]:
    table, slabs, waiting = Element("Table"), list[Slab](), list[Pair]()

    def close() -> None:
        if waiting:
            gap_pt = room.gap(1.0 if slabs else 6)
            slabs.extend(row(_cells(waiting, room.grid, Element("TR", table)), gap_pt))
            waiting.clear()

    for pair in content.particulars:
        half = Strand(pair[1], room.grid.span(2, 3), READ, table)
        if len(half.lines()) > _LINES_IN_HALF:
            close()
            gap_pt = room.gap(1.0 if slabs else 6)
            slabs += row(_cells([pair], room.grid, Element("TR", table), last=6), gap_pt)
        else:
            waiting.append(pair)
            if len(waiting) == 2:
                close()
    close()
    return slabs


def _cells(pairs: list[Pair], grid: Grid, parent: Element, last: int = 3) -> list[Strand]:
    cells = []
    for first, (label, value) in zip((1, 4), pairs, strict=False):
        cells.append(Strand(label, grid.span(first, first), LABEL, Element("TH", parent)))
        column = grid.span(first + 1, first - 1 + last)
        cells.append(Strand(value, column, READ, Element("TD", parent)))
    return cells


def _sections(content: CertificatePage, room: Room) -> list[Slab]:
    slabs = []
    for at, (title, sentences) in enumerate(content.sections):
        body: list[Slab] = []
        for sentence, standing in sentences:
            told = Strand(sentence, room.grid.span(2, 5), READ, Element("P"))
            known = Strand(standing, room.grid.span(6, 6), LABEL, told.element, from_right=True)
            body += paragraph(told, room.gap(0.9 if body else 0), tail=known)
        section = _headed(title, body, room, room.gap(3 if at else 6))
        slabs += together(section) if len(section) <= _LINES_TOGETHER else section
    return slabs


def _care(content: CertificatePage, room: Room) -> list[Slab]:
    body: list[Slab] = []
    for advice in content.care:
        body += paragraph(Strand(advice, room.grid.span(2, 6), READ, Element("P")))
    return _headed(content.labels["care"], body, room, room.gap(4))


def _headed(title: str, body: list[Slab], room: Room, gap_pt: float) -> list[Slab]:
    """`body` with its heading in the first column, level with its first line."""
    if not body:
        return []
    head_lines = heading(Strand(title, room.grid.span(1, 1), HEADING, Element("H2")))
    body = body + [Slab(HEADING.leading_pt, ())] * (len(head_lines) - len(body))
    beside = [
        replace(text, marks=(*head.marks, *text.marks), kept=True)
        for head, text in zip(head_lines, body, strict=False)
    ]
    beside[-1] = replace(beside[-1], kept=body[len(beside) - 1].kept)
    beside[0] = replace(beside[0], gap_pt=gap_pt)
    return [*beside, *body[len(beside) :]]


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
            Slab(above_pt, (artifact(*rules),), gap_pt=room.gap(3), stretch_pt=12 * MM),
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
        (labels["number"], issue, 5),
        (labels["record"], _grouped(content.record_sha256), 4),
        (journal, _grouped(content.journal_head_sha256), 4),
        ("", content.journal_note, 5),
    )
    slabs: list[Slab] = []
    for label, text, last in told:
        cells = [
            Strand(label, grid.span(1, 1), SMALL, Element("P")),
            Strand(text, grid.span(2, last), SMALL, Element("P")),
        ]
        slabs += row(cells, 1.5 if slabs else room.gap(5))
    slabs[0] = replace(slabs[0], stretch_pt=200 * MM)
    return together(slabs)


def _grouped(digest: str) -> str:
    """A digest in groups of four, eight to a line, so that an eye can compare it."""
    fours = [digest[at : at + 4] for at in range(0, len(digest), 4)]
    lines = [fours[at : at + 8] for at in range(0, len(fours), 8)]
    return " ".join("\N{NO-BREAK SPACE}".join(line) for line in lines)


_BLOCKS: dict[str, Callable[[CertificatePage, Room], list[Slab]]] = {
    "title": _title,
    "picture": _picture,
    "particulars": _particulars,
    "sections": _sections,
    "care": _care,
    "signature": _signature,
    "marks": _marks,
}
