"""Draw a roll: the list of an edition, or what an heir has to know, on several pages."""

from collections.abc import Iterator
from dataclasses import replace
from unicodedata import normalize

import msgspec

from provenance.craft.roll import Chapter, Facts, Pair, Part, Roll, Says, Table
from provenance.documents.flow import Slab, Strand, heading, paginate, paragraph, row, together
from provenance.documents.fonts import Font, require_glyphs
from provenance.documents.grid import HEADING, LABEL, READ, READ_QUIET, SMALL, TITLE, Grid
from provenance.documents.page import MM, SIZES_PT, About, Element, Paper, Style
from provenance.documents.room import Room
from provenance.documents.sections import headed, named
from provenance.documents.table import table

_MARGIN_PT = 25 * MM
_CHAPTER = Style(Font.SERIF, 14.0, 17.0, TITLE.grey)


def draw_roll(roll: Roll) -> bytes:
    """The roll as a PDF; equal rolls give equal bytes.

    Raises Refused, naming character and field, when the typefaces cannot set a
    text.
    """
    if roll.drawn_at_utc.utcoffset() is None:
        raise ValueError("drawn_at_utc must know its time zone")
    roll = _checked(roll)
    wide_pt, tall_pt = SIZES_PT[roll.page]
    grid = Grid(_MARGIN_PT, wide_pt - 2 * _MARGIN_PT, tall_pt - 2 * _MARGIN_PT, _MARGIN_PT)
    room = Room(grid, 0.0, 0.0, beside=False, gap_scale=1.0)
    pages = paginate(list(_slabs(roll, room)), grid.height_pt)
    paper = Paper(_about(roll), SIZES_PT[roll.page])
    for at, placed in enumerate(pages, 1):
        for place in placed:
            paper.draw(place.slab.marks, grid.bottom_pt + grid.height_pt - place.down_pt)
        _draw_foot(paper, roll, grid, at, len(pages))
        paper.turn()
    return paper.finish()


def _slabs(roll: Roll, room: Room) -> Iterator[Slab]:
    yield from _head(roll, room)
    several = len(roll.chapters) > 1
    for chapter in roll.chapters:
        if several and chapter.title:
            yield from _chapter_head(chapter, room)
        level = "H3" if several and chapter.title else "H2"
        for part in chapter.parts:
            yield from _part(part, roll.labels["continued"], room, level)
    note = Strand(roll.note, room.grid.span(2, 6), SMALL, Element("P"))
    (first, *others) = together(row([note], room.gap(7)))
    yield from (replace(first, stretch_pt=room.grid.height_pt), *others)


def _head(roll: Roll, room: Room) -> list[Slab]:
    grid = room.grid
    kind = Strand(roll.kind, grid.span(1, 3), HEADING, Element("P"))
    place = Strand(roll.place, grid.span(4, 6), READ_QUIET, Element("P"), from_right=True)
    artist = Strand(roll.artist, grid.span(1, 4), READ, Element("P"))
    day = Strand(roll.day, grid.span(4, 6), READ_QUIET, Element("P"), from_right=True)
    slabs = [
        *row([kind, place]),
        *named(roll.title, roll.designation, room),
        *row([artist, day], room.gap(0.6)),
    ]
    if roll.seal:
        slabs += row([Strand(roll.seal, grid.span(1, 6), HEADING, Element("P"))], room.gap(3))
    return together(slabs)


def _chapter_head(chapter: Chapter, room: Room) -> list[Slab]:
    grid, element = room.grid, Element("H2")
    title = Strand(chapter.title, grid.span(1, 5), _CHAPTER, element)
    own = Strand(chapter.designation, grid.span(6, 6), _CHAPTER, element, from_right=True)
    return [replace(slab, kept=True) for slab in row([title, own], room.gap(12))]


def _part(part: Part, continued: str, room: Room, level: str) -> Iterator[Slab]:
    """The heading beside facts and sentences; above a table, whose first column it would fill."""
    gap_pt = room.gap(6)
    for at, body in enumerate(part.body):
        title = "" if at else part.heading
        if isinstance(body, Table):
            if title:
                strand = Strand(title, room.grid.span(1, 6), HEADING, Element(level))
                yield from heading(strand, gap_pt)
                gap_pt = room.gap(0.6)
            yield from table(body, room.grid, gap_pt, room.gap(0.7))
        elif title:
            yield from headed(title, _lines(body, room), continued, room, gap_pt, level)
        else:
            first, *others = _lines(body, room)
            yield from (replace(first, gap_pt=room.gap(2)), *others)
        gap_pt = room.gap(3)


def _lines(body: Facts | Says, room: Room) -> list[Slab]:
    grid, slabs = room.grid, list[Slab]()
    if isinstance(body, Facts):
        whole = Element("Table")
        for label, value in body.pairs:
            line = Element("TR", whole)
            cells = [
                Strand(label, grid.span(2, 2), LABEL, Element("TH", line)),
                Strand(value, grid.span(3, 6), READ, Element("TD", line)),
            ]
            slabs += row(cells, room.gap(0.6) if slabs else 0.0)
        return slabs
    for sentence, known in body.sentences:
        last = 5 if known else 6
        said = Strand(sentence, grid.span(2, last), READ, Element("P"))
        tail = Strand(known, grid.span(6, 6), LABEL, said.element, from_right=True)
        slabs += paragraph(said, room.gap(1.1) if slabs else 0.0, tail=tail if known else None)
    return slabs


def _draw_foot(paper: Paper, roll: Roll, grid: Grid, page: int, pages: int) -> None:
    counted = roll.labels["page_of"].replace("{page}", str(page)).replace("{pages}", str(pages))
    element = Element("Artifact")
    told = ", ".join(filter(None, (roll.name, roll.day, roll.seal)))
    line = row(
        [
            Strand(told, grid.span(1, 5), SMALL, element),
            Strand(counted, grid.span(6, 6), SMALL, element, from_right=True),
        ]
    )
    paper.draw(line[0].marks, grid.bottom_pt - 8 * MM)


def _about(roll: Roll) -> About:
    return About(
        title=f"{roll.kind}: {roll.title} {roll.designation}".strip(),
        author=roll.artist,
        subject=roll.kind,
        language=roll.language,
        issued_at_utc=roll.drawn_at_utc,
        identity=msgspec.json.encode(roll, order="deterministic"),
    )


def _checked(roll: Roll) -> Roll:
    """The same roll in Unicode's composed form; Refused for what cannot be set."""

    def text(font: Font, given: str, field: str) -> str:
        composed = normalize("NFC", given)
        require_glyphs(font, composed, record=roll.name, field=field)
        return composed

    def pairs(given: tuple[Pair, ...], first: Font, second: Font) -> tuple[Pair, ...]:
        return tuple((text(first, one, one), text(second, two, one)) for one, two in given)

    def body(given: Facts | Says | Table) -> Facts | Says | Table:
        if isinstance(given, Facts):
            return Facts(pairs(given.pairs, Font.SANS, Font.SERIF))
        if isinstance(given, Says):
            return Says(pairs(given.sentences, Font.SERIF, Font.SANS))
        heads = [one.head for one in given.columns]
        return Table(
            tuple(replace(one, head=text(Font.SANS, one.head, one.head)) for one in given.columns),
            tuple(
                tuple(
                    text(Font.SERIF, cell, f"{cells[0]}, {head}")
                    for cell, head in zip(cells, heads, strict=True)
                )
                for cells in given.rows
            ),
        )

    def chapter(given: Chapter) -> Chapter:
        return Chapter(
            text(Font.SERIF, given.title, "title"),
            text(Font.SERIF, given.designation, "code"),
            tuple(
                Part(text(Font.STRONG, part.heading, "heading"), tuple(map(body, part.body)))
                for part in given.parts
            ),
        )

    return replace(
        roll,
        name=text(Font.SANS, roll.name, "name"),
        kind=text(Font.STRONG, roll.kind, "kind"),
        title=text(Font.SERIF, roll.title, "title"),
        designation=text(Font.SERIF, roll.designation, "code"),
        artist=text(Font.SERIF, roll.artist, "artist"),
        place=text(Font.SERIF, roll.place, "place"),
        day=text(Font.SERIF, text(Font.SANS, roll.day, "date"), "date"),
        seal=text(Font.STRONG, text(Font.SANS, roll.seal, "seal"), "seal"),
        chapters=tuple(map(chapter, roll.chapters)),
        note=text(Font.SANS, roll.note, "note"),
        labels={name: text(Font.SANS, said, name) for name, said in roll.labels.items()},
    )
