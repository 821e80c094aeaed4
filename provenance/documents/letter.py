"""Draw the answer about a print as a letter: questions, and sentences with how each is known."""

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from unicodedata import normalize

import msgspec

from provenance.documents.flow import (
    Slab,
    Strand,
    figure,
    height_pt,
    paginate,
    paragraph,
    row,
    side_by_side,
    stacked,
    together,
)
from provenance.documents.fonts import Font, require_glyphs
from provenance.documents.grid import (
    CAPITALS_DOWN_PT,
    HEADING,
    LABEL,
    READ,
    READ_QUIET,
    SMALL,
    Grid,
)
from provenance.documents.page import MM, SIZES_PT, About, Element, Paper, Picture
from provenance.documents.room import Room
from provenance.documents.sections import Section, named, sections
from provenance.model.certificate import Page

Pair = tuple[str, str]

_MARGIN_PT = 25 * MM
_PICTURE_MM = (52.0, 26.0)
"""The picture is at most and at least so high."""
_STEPS = 12
_LEAST_WHITE = 0.35


@dataclass(frozen=True)
class LetterPicture:
    """The picture of the print, to know it by."""

    jpeg: bytes
    px: tuple[int, int]
    caption: str


@dataclass(frozen=True)
class Letter:
    """What a letter says, as finished text.  No text here is markup."""

    name: str
    """What the studio calls the print; it stands at the foot of every page of several."""
    title: str
    designation: str
    artist: str
    place: str
    day: str
    picture: LetterPicture | None
    particulars: tuple[Pair, ...]
    sections: tuple[Section, ...]
    """Questions with their sentences."""
    note: str
    meanings: tuple[Pair, ...]
    """The standings that stand in it, and what each means."""
    labels: Mapping[str, str]
    """`answer`, `continued` and `page_of` of the template."""
    answered_at_utc: datetime
    page: Page = "A4"
    language: str = "en"


def draw_letter(letter: Letter) -> bytes:
    """The letter as a PDF; equal letters give equal bytes.

    One page where possible, the picture and the white shrinking a little if they
    must; what does not fit runs on.  Raises Refused, naming character and field,
    when the typefaces cannot set a text.
    """
    if letter.answered_at_utc.utcoffset() is None:
        raise ValueError("answered_at_utc must know its time zone")
    letter = _checked(letter)
    grid = _grid(letter)
    pages = paginate(_fitted(letter, grid), grid.height_pt)
    paper = Paper(_about(letter), SIZES_PT[letter.page])
    for at, placed in enumerate(pages, 1):
        for place in placed:
            paper.draw(place.slab.marks, grid.bottom_pt + grid.height_pt - place.down_pt)
        if len(pages) > 1:
            _draw_foot(paper, letter, grid, at, len(pages))
        paper.turn()
    return paper.finish()


def _grid(letter: Letter) -> Grid:
    wide_pt, tall_pt = SIZES_PT[letter.page]
    return Grid(_MARGIN_PT, wide_pt - 2 * _MARGIN_PT, tall_pt - 2 * _MARGIN_PT, _MARGIN_PT)


def _fitted(letter: Letter, grid: Grid) -> list[Slab]:
    """The letter as generous as one page allows; as generous as can be where none does."""
    most_pt, least_pt = (height * MM for height in _PICTURE_MM)

    def room(step: int) -> Room:
        part = step / _STEPS
        picture_pt = most_pt - part * (most_pt - least_pt)
        scale = 1.0 - part * (1.0 - _LEAST_WHITE)
        return Room(grid, picture_pt, picture_pt, beside=True, gap_scale=scale)

    def fits(step: int) -> bool:
        return height_pt(_slabs(letter, room(step))) <= grid.height_pt

    steps = range(_STEPS + 1)
    step = bisect_left(steps, True, key=fits)
    return _slabs(letter, room(step if step in steps else 0))


def _slabs(letter: Letter, room: Room) -> list[Slab]:
    return [
        *_head(letter, room),
        *_portrait(letter, room),
        *sections(letter.sections, letter.labels["continued"], room),
        *_foot(letter, room),
    ]


def _head(letter: Letter, room: Room) -> list[Slab]:
    grid = room.grid
    kind = Strand(letter.labels["answer"], grid.span(1, 2), HEADING, Element("P"))
    place = Strand(letter.place, grid.span(3, 6), READ_QUIET, Element("P"), from_right=True)
    artist = Strand(letter.artist, grid.span(1, 4), READ, Element("P"))
    day = Strand(letter.day, grid.span(4, 6), READ_QUIET, Element("P"), from_right=True)
    return together(
        [
            *row([kind, place]),
            *named(letter.title, letter.designation, room),
            *row([artist, day], room.gap(0.6)),
        ]
    )


def _portrait(letter: Letter, room: Room) -> list[Slab]:
    """The picture at the left, small; what the sheet is, beside it."""
    grid, table = room.grid, Element("Table")
    first = 3 if letter.picture else 1
    slabs: list[Slab] = []
    for label, value in letter.particulars:
        line = Element("TR", table)
        cells = [
            Strand(label, grid.span(first, first), LABEL, Element("TH", line)),
            Strand(value, grid.span(first + 1, 6), READ, Element("TD", line)),
        ]
        slabs += row(cells, room.gap(0.6) if slabs else room.gap(6))
    if letter.picture is None:
        return slabs
    beside = stacked(slabs)
    picture = stacked(_picture(letter, letter.picture, room))
    return [side_by_side(picture, beside)]


def _picture(letter: Letter, held: LetterPicture, room: Room) -> list[Slab]:
    column = room.grid.span(1, 2)
    wide_px, high_px = held.px
    scale = min(column.width_pt / wide_px, room.picture_pt / high_px)
    picture = Picture(column.x_pt, CAPITALS_DOWN_PT, wide_px * scale, high_px * scale, held.jpeg)
    seen = Element("Figure", alternative=f"{letter.title}. {held.caption}")
    caption = Strand(held.caption, column, LABEL, Element("Caption"))
    return [*figure(picture, seen, room.gap(6)), *paragraph(caption, room.gap(0.8))]


def _foot(letter: Letter, room: Room) -> list[Slab]:
    """What the answer rests on, and what each standing in it means; at the foot of the page."""
    grid = room.grid
    slabs = row([Strand(letter.note, grid.span(2, 6), SMALL, Element("P"))])
    table = Element("Table")
    for standing, meaning in letter.meanings:
        line = Element("TR", table)
        slabs += row(
            [
                Strand(standing, grid.span(2, 3), SMALL, Element("TH", line)),
                Strand(meaning, grid.span(4, 6), SMALL, Element("TD", line)),
            ]
        )
    first = replace(slabs[0], gap_pt=room.gap(6), stretch_pt=grid.height_pt)
    return together([first, *slabs[1:]])


def _draw_foot(paper: Paper, letter: Letter, grid: Grid, page: int, pages: int) -> None:
    counted = letter.labels["page_of"].replace("{page}", str(page)).replace("{pages}", str(pages))
    element = Element("Artifact")
    line = row(
        [
            Strand(f"{letter.name}, {letter.day}", grid.span(2, 4), SMALL, element),
            Strand(counted, grid.span(5, 6), SMALL, element, from_right=True),
        ]
    )
    paper.draw(line[0].marks, grid.bottom_pt - 8 * MM)


def _about(letter: Letter) -> About:
    return About(
        title=f"{letter.title} {letter.designation}".strip(),
        author=letter.artist,
        subject=letter.labels["answer"],
        language=letter.language,
        issued_at_utc=letter.answered_at_utc,
        identity=msgspec.json.encode(letter, order="deterministic"),
    )


def _checked(letter: Letter) -> Letter:
    """The same letter in Unicode's composed form; Refused for what cannot be set."""

    def text(font: Font, given: str, field: str) -> str:
        composed = normalize("NFC", given)
        require_glyphs(font, composed, record=letter.name, field=field)
        return composed

    def pairs(given: tuple[Pair, ...], first: Font, second: Font) -> tuple[Pair, ...]:
        return tuple((text(first, one, one), text(second, two, one)) for one, two in given)

    picture = letter.picture
    if picture is not None:
        picture = replace(picture, caption=text(Font.SANS, picture.caption, "size"))
    return replace(
        letter,
        name=text(Font.SANS, letter.name, "print"),
        title=text(Font.SERIF, letter.title, "title"),
        designation=text(Font.SERIF, letter.designation, "designation"),
        artist=text(Font.SERIF, letter.artist, "artist"),
        place=text(Font.SERIF, letter.place, "place"),
        day=text(Font.SERIF, text(Font.SANS, letter.day, "date"), "date"),
        picture=picture,
        particulars=pairs(letter.particulars, Font.SANS, Font.SERIF),
        sections=tuple(
            (text(Font.STRONG, asked, "question"), pairs(said, Font.SERIF, Font.SANS))
            for asked, said in letter.sections
        ),
        note=text(Font.SANS, letter.note, "note"),
        meanings=pairs(letter.meanings, Font.SANS, Font.SANS),
        labels={name: text(Font.STRONG, said, name) for name, said in letter.labels.items()},
    )
