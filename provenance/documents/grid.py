"""The six columns of a page, and the three sizes of its type."""

from dataclasses import dataclass

from provenance.documents.flow import Column
from provenance.documents.fonts import Font
from provenance.documents.page import MM, Style

COLUMNS = 6
GUTTER_PT = 4.5 * MM
CAPITALS_DOWN_PT = 2.7
"""From the upper edge of a line of text to the tops of its capitals."""

_INK, _QUIET = 0.08, 0.40

TITLE = Style(Font.SERIF, 21.0, 24.0, _INK)
READ = Style(Font.SERIF, 10.0, 12.2, _INK)
READ_QUIET = Style(Font.SERIF, 10.0, 12.2, _QUIET)
HEADING = Style(Font.STRONG, 7.4, 12.2, _INK)
LABEL = Style(Font.SANS, 7.4, 12.2, _QUIET)
SMALL = Style(Font.SANS, 7.4, 9.4, _QUIET)


@dataclass(frozen=True)
class Grid:
    """The text area of a page, in points."""

    left_pt: float
    width_pt: float
    height_pt: float
    bottom_pt: float
    """Its lower edge, above that of the page."""

    def span(self, first: int, last: int) -> Column:
        """From column `first` to column `last`, counted from 1, gutters between them."""
        column_pt = (self.width_pt - (COLUMNS - 1) * GUTTER_PT) / COLUMNS
        step_pt = column_pt + GUTTER_PT
        return Column(self.left_pt + (first - 1) * step_pt, (last - first) * step_pt + column_pt)
