"""What is left in a bottle."""

from collections.abc import Iterable

from provenance.errors import Problem, Refused
from provenance.model.quantity_text import format_volume


def left_hundredth_ml(held_hundredth_ml: int, draws_hundredth_ml: Iterable[int]) -> int:
    """What is left of a bottle after draws, in hundredths of a millilitre.

    Raises Refused for a draw that is not above zero or more than what was left.
    """
    left = held_hundredth_ml
    for draw in draws_hundredth_ml:
        if draw <= 0:
            raise Refused(
                Problem(
                    what="a draw is not above zero",
                    field="volume",
                    mend="give the volume that was taken",
                )
            )
        if draw > left:
            raise Refused(
                Problem(
                    what=f"{format_volume(draw)} is more than the {format_volume(left)}"
                    " that is left in the bottle",
                    field="volume",
                    mend="draw less, open another bottle, or correct what the bottle held",
                )
            )
        left -= draw
    return left
