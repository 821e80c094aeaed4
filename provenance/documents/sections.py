"""What certificate and letter share: the title, and sentences with how each is known."""

from collections.abc import Iterable
from dataclasses import replace

from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    heading,
    paragraph,
    row,
    stacked,
    together,
)
from provenance.documents.fonts import width_pt
from provenance.documents.grid import GUTTER_PT, HEADING, LABEL, READ, TITLE
from provenance.documents.page import Element
from provenance.documents.room import Room

# A section of no more lines than this is not cut.
_LINES_TOGETHER = 5

Section = tuple[str, tuple[tuple[str, str], ...]]
"""A heading with its sentences, each with its standing in a word."""


def sections(told: Iterable[Section], continued: str, room: Room) -> list[Slab]:
    """Every section; `continued` stands below the heading of one that goes on."""
    slabs: list[Slab] = []
    for at, (title, sentences) in enumerate(told):
        body: list[Slab] = []
        for sentence, standing in sentences:
            said = Strand(sentence, room.grid.span(2, 5), READ, Element("P"))
            known = Strand(standing, room.grid.span(6, 6), LABEL, said.element, from_right=True)
            body += paragraph(said, room.gap(1.1 if body else 0), tail=known)
        slabs += headed(title, body, continued, room, room.gap(3 if at else 7))
    return slabs


def named(title: str, designation: str, room: Room) -> list[Slab]:
    """The title of a picture, with its number at the right where there is room."""
    line, element = room.grid.span(1, 6), Element("H1")
    own_pt = width_pt(designation, TITLE.font, TITLE.size_pt)
    beside = own_pt < 0.4 * line.width_pt
    taken_pt = own_pt + GUTTER_PT if beside and designation else 0.0
    first = Strand(title, Column(line.x_pt, line.width_pt - taken_pt), TITLE, element)
    number = Strand(designation, line, TITLE, element, from_right=beside)
    if not beside:
        return [*row([first], room.gap(3)), *row([number])]
    return row([first, number], room.gap(3))


def headed(
    title: str, body: list[Slab], continued: str, room: Room, gap_pt: float, level: str = "H2"
) -> list[Slab]:
    """`body` with its heading in the first column, level with its first line.

    A page that goes on with it has the heading again, and says so.
    """
    if not body:
        return []
    column, repeated = room.grid.span(1, 1), Element("Artifact")
    again = heading(Strand(title, column, HEADING, repeated))
    again += paragraph(Strand(continued, column, LABEL, repeated))
    body = [body[0], *(replace(slab, at_head=stacked(again).marks) for slab in body[1:])]
    head_lines = heading(Strand(title, column, HEADING, Element(level)))
    body = body + [Slab(HEADING.leading_pt, ())] * (len(head_lines) - len(body))
    beside = [
        replace(text, marks=(*head.marks, *text.marks), kept=True)
        for head, text in zip(head_lines, body, strict=False)
    ]
    beside[-1] = replace(beside[-1], kept=body[len(beside) - 1].kept)
    beside[0] = replace(beside[0], gap_pt=gap_pt)
    section = [*beside, *body[len(beside) :]]
    # What goes on is never shorter than the heading that stands beside it.
    section = [*section[: -len(again)], *together(section[-len(again) :])]
    return together(section) if len(section) <= _LINES_TOGETHER else section
