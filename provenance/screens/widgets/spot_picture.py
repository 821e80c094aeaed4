"""A picture with letters at its spots."""

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from provenance.screens.widgets.picture import Picture


class SpotPicture(Picture):
    """Half cells, and a letter over the cell that each spot lies in."""

    letters: tuple[tuple[str, tuple[float, float]], ...] = ()
    """Letters, and where they lie: 0 to 1 from the left and from the top."""

    def render_line(self, y: int) -> Strip:
        """A line of the picture, with its letters."""
        strip = super().render_line(y)
        if y >= len(self._strips):
            return strip
        wide, high = self._strips[0].cell_length, len(self._strips)
        style = self.rich_style + Style(bold=True)
        for letter, (across, down) in self.letters:
            if round(down * (high - 1)) == y:
                at = round(across * (wide - 1))
                before, under, after = strip.divide([at, at + 1, strip.cell_length])
                del under
                strip = Strip.join([before, Strip([Segment(letter, style)], 1), after])
        return strip
