"""How much room a page has for its charts."""

from textual.screen import Screen

ROWS = 13
MOST_COLUMNS = 110
_EDGES = 6
"""Margins, the cursor's column and the bar at the right."""


def columns_of(page: Screen[None]) -> int:
    """The columns that charts may take on `page`."""
    return max(40, min(MOST_COLUMNS, page.size.width - _EDGES))
