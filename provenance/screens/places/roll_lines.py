"""A roll as lines of the screen: the same chapters, facts, tables and sentences as on paper."""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from provenance.craft.roll import Facts, Part, Roll, Table
from provenance.screens.widgets.columns import fit
from provenance.screens.widgets.line_list import Line

MOST_LEAD, MOST_RIGHT, GAP = 30, 18, 2
"""Cells at most before the text and behind it, and between two columns."""


def lead_width(roll: Roll) -> int:
    """Cells before the text of every line: as many as the widest table wants."""
    bodies = [body for chapter in roll.chapters for part in chapter.parts for body in part.body]
    wanted = [16, *(sum(_leads(body)[1]) for body in bodies if isinstance(body, Table))]
    return min(MOST_LEAD, max(wanted))


def roll_lines(roll: Roll) -> Iterator[Line]:
    """Every line, headings above what they head."""
    width = lead_width(roll)
    if roll.seal:
        yield Line(roll.seal, strong=True, wide=True)
        yield Line("", heading=True)
    for chapter in roll.chapters:
        if len(roll.chapters) > 1 and chapter.title:
            yield Line(f"{chapter.designation}   {chapter.title}", heading=True)
            yield Line("", heading=True)
        for part in chapter.parts:
            yield from _part(part, width)
            yield Line("", heading=True)
    yield Line(roll.note, quiet=True, wide=True)


def _part(part: Part, width: int) -> Iterator[Line]:
    yield Line(part.heading, heading=True)
    for body in part.body:
        if isinstance(body, Table):
            yield from _table(body, width)
        elif isinstance(body, Facts):
            yield from (Line(value, lead=label) for label, value in body.pairs)
        else:
            yield from (Line(said, right=known, wide=True) for said, known in body.sentences)


def _table(table: Table, width: int) -> Iterator[Line]:
    count, widths = _leads(table)
    widest = max((cell_len(row[-1]) for row in table.rows), default=0)
    ends = len(table.columns) if widest > MOST_RIGHT else len(table.columns) - 1
    heads = [one.head for one in table.columns]
    rest = [
        max(map(cell_len, column)) + GAP
        for column in list(zip(heads, *table.rows, strict=True))[count : ends - 1]
    ]
    text = _side_by_side(heads[count : ends - 1], rest) + heads[ends - 1]
    head = fit(_side_by_side(heads[:count], widths), width) + text
    # a heading stands one cell further left than what it heads
    yield Line(f" {head}", heading=True, quiet=True)
    for row, record in zip(table.rows, table.records or (0,) * len(table.rows), strict=True):
        yield Line(
            (_side_by_side(row[count : ends - 1], rest) + row[ends - 1]).rstrip(),
            lead=_side_by_side(row[:count], widths),
            right="" if ends == len(row) else row[-1],
            records=(record,) if record else (),
        )


def _leads(table: Table) -> tuple[int, list[int]]:
    """How many columns stand before the text, and how wide each is with its gap."""
    rows = [tuple(one.head for one in table.columns), *table.rows]
    widths: list[int] = []
    for column in list(zip(*rows, strict=True))[:-2]:
        wide = max(map(cell_len, column)) + GAP
        if widths and sum(widths) + wide > MOST_LEAD:
            break
        widths.append(wide)
    return len(widths), widths


def _side_by_side(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "".join(fit(cell, width) for cell, width in zip(cells, widths, strict=True))
