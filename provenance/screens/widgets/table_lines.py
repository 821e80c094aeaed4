"""The lines of a table as texts with the names of their styles; cells, not pixels or colours."""

from collections.abc import Sequence

from provenance.screens.widgets.columns import GAP, Span, fit
from provenance.studio.rows import Sort

HERE, CHOSEN, BOTH = "▸", "•", "◆"
"""What stands before the row under the cursor, a marked one, and one that is both."""
GUTTER = 1
"""Cells before the first column, where that stands."""
RISING, FALLING = "▴", "▾"
RETIRED = "no longer on record"

Piece = tuple[str, tuple[str, ...]]
"""A text, and the styles that lie over each other on it."""


def heads(spans: Sequence[Span], sort: Sort) -> list[Piece]:
    """The line of heads, with a sign at the one that is sorted by."""
    pieces: list[Piece] = [(" " * GUTTER, ())]
    for span in spans:
        head = span.column.head
        if sort.key and sort.key == span.column.key:
            head = f"{head} {FALLING if sort.descending else RISING}"
        pieces.append((fit(head, span.width, right=span.column.right) + " " * GAP, ("quiet",)))
    return pieces


def row(
    spans: Sequence[Span], texts: Sequence[str] | None, width: int, *, here: bool, marked: bool
) -> list[Piece]:
    """A record's line, `width` cells or a few more; `texts` is None when it was retired."""
    ground = ("cursor",) if here else ()
    sign = (BOTH if here else CHOSEN) if marked else (HERE if here else " ")
    pieces: list[Piece] = [(sign, (*ground, "gutter"))]
    if texts is None:
        return [*pieces, (fit(RETIRED, max(0, width - GUTTER)), (*ground, "quiet"))]
    weight = ("marked",) if marked else ()
    for span in spans:
        tone = ("quiet",) if span.column.quiet else ()
        text = fit(texts[span.place], span.width, right=span.column.right)
        pieces += [(text, (*ground, *weight, *tone)), (" " * GAP, ground)]
    return [*pieces, (" " * width, ground)]


def note(text: str, width: int) -> list[Piece]:
    """One quiet line in place of rows."""
    return [(" " * GUTTER, ()), (fit(text, max(0, width - GUTTER)), ("quiet",))]
