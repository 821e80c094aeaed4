"""A table that may run over many pages; each of them repeats its heads."""

from collections.abc import Sequence
from dataclasses import replace

from provenance.craft.roll import Table, TableColumn
from provenance.documents.flow import Column, Slab, Strand, artifact, row, stacked
from provenance.documents.grid import GUTTER_PT, LABEL, READ, READ_QUIET, Grid
from provenance.documents.page import MM, Element, Mark, Rule

_BETWEEN_PT = 3 * MM
_HAIR_PT, _HAIR_GREY = 0.35, 0.70
_LINES_WHOLE = 12
"""A row of no more lines than this is not cut."""

NOTHING = "–"
"""Stands in a cell that would be empty: a reader who cannot see the page hears that it is there."""


def table(held: Table, grid: Grid, gap_pt: float, between_pt: float) -> list[Slab]:
    """The slabs of a table: `gap_pt` above it, `between_pt` between two rows."""
    places, whole = lay_out(held.columns, grid), Element("Table")
    heads = _heads(held.columns, places, Element("TR", whole), grid)
    first = replace(stacked(heads), gap_pt=gap_pt, kept=True)
    above = stacked([_as_artifact(slab) for slab in heads])
    slabs = [first]
    for cells in held.rows:
        line = Element("TR", whole)
        strands = [
            Strand(
                cell or NOTHING,
                place,
                READ_QUIET if column.quiet else READ,
                Element("TD" if at else "TH", line),
                from_right=column.right,
            )
            for at, (cell, column, place) in enumerate(
                zip(cells, held.columns, places, strict=True)
            )
        ]
        slabs += row(strands, between_pt, _LINES_WHOLE)
    return [first, *(replace(slab, above=above) for slab in slabs[1:])]


def lay_out(columns: Sequence[TableColumn], grid: Grid) -> list[Column]:
    """The first column is the first of the grid; the others share the five after it."""
    lead, rest = grid.span(1, 1), grid.span(2, 6)
    others = columns[1:]
    spare_pt = rest.width_pt - sum(one.width_mm for one in others) * MM
    spare_pt -= _BETWEEN_PT * (len(others) - 1)
    sharing = sum(not one.width_mm for one in others)
    places, x_pt = [lead], rest.x_pt
    for one in others:
        width_pt = one.width_mm * MM or spare_pt / sharing
        places.append(Column(x_pt, width_pt))
        x_pt += width_pt + _BETWEEN_PT
    return places


def _heads(
    columns: Sequence[TableColumn], places: Sequence[Column], line: Element, grid: Grid
) -> list[Slab]:
    strands = [
        Strand(
            column.head or NOTHING,
            place,
            LABEL,
            Element("TH", line, scope="Column"),
            from_right=column.right,
        )
        for column, place in zip(columns, places, strict=True)
    ]
    width_pt = grid.span(1, 6).width_pt
    hair = artifact(Rule(grid.left_pt, 1.0, width_pt, _HAIR_PT, _HAIR_GREY))
    return [*row(strands), Slab(GUTTER_PT / 3, (hair,))]


def _as_artifact(slab: Slab) -> Slab:
    """The same ink, which a reader has heard before."""
    marks = tuple(Mark(Element("Artifact"), mark.inks) for mark in slab.marks)
    return replace(slab, marks=marks)
