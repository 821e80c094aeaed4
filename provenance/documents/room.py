"""What a block may use of the page."""

from dataclasses import dataclass

from provenance.documents.grid import Grid
from provenance.documents.page import MM


@dataclass(frozen=True)
class Room:
    """The page as its blocks find it: how wide, how high a picture, how much white."""

    grid: Grid
    picture_pt: float
    """The height of the picture, which its proportions may make less."""
    picture_most_pt: float
    """The greatest height it may grow to where there is white left beside it."""
    beside: bool
    """Whether the particulars stand beside the picture, not below it."""
    gap_scale: float
    """1 for generous white between the blocks, less when room is short."""

    def gap(self, millimetres: float) -> float:
        """So much white, in points, scaled to the room there is."""
        return millimetres * MM * self.gap_scale
