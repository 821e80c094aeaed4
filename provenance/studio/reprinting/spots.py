"""Where a print differs from its reference: a letter for each spot, and where it lies."""

from dataclasses import dataclass

from provenance.craft.comparing import SpotMatch
from provenance.model.quantities import Point
from provenance.studio.reprinting.matching import Matched

LETTERS = "abcdefghijklmnopqrstuvwxyz"
LEGEND = "a capital differs, a small letter matches"


@dataclass(frozen=True)
class Spot:
    """A spot of the reference: a capital letter where the new print is not as it is there."""

    letter: str
    name: str
    at: Point | None
    """As the new print's reading has it, else the reference's."""
    found: SpotMatch | None
    """None where it was not read again."""

    @property
    def share(self) -> tuple[float, float] | None:
        """From the left and from the top, 0 to 1."""
        if self.at is None:
            return None
        return self.at.across_permille / 1000, self.at.down_permille / 1000


def spots_of(matched: Matched) -> tuple[Spot, ...]:
    """Every spot of the reference in its order; past the 26th none has a letter of its own."""
    found = {one.spot: one for one in matched.found.spots}
    again = {one.spot: one.at for one in matched.new.body.patches}
    spots = []
    for place, patch in enumerate(matched.old.body.patches):
        one = found.get(patch.spot)
        letter = LETTERS[place] if place < len(LETTERS) else "*"
        off = one is None or not one.matches
        at = again.get(patch.spot) or patch.at
        spots.append(Spot(letter.upper() if off else letter, patch.spot, at, one))
    return tuple(spots)
