"""A point of the image on a day sheet: ``30 12`` is percent from the left and from the top."""

from provenance.craft.numbers import read_number
from provenance.errors import Problem, Refused
from provenance.model.quantities import Point


def read_point(text: str, *, field: str = "") -> Point:
    """The point that `text` names.  Raises Refused."""
    figures = text.replace("%", " ").split()
    if len(figures) != 2:
        raise Refused(
            Problem(
                what=f"“{text.strip()}” is no point of the image",
                field=field,
                mend="give percent from the left and from the top, as 30 12",
            )
        )
    across, down = (round(10 * read_number(one, field=field)) for one in figures)
    if not (0 <= across <= 1000 and 0 <= down <= 1000):
        raise Refused(
            Problem(
                what=f"“{text.strip()}” lies outside of the image",
                field=field,
                mend="give percent from the left and from the top, 0 to 100",
            )
        )
    return Point(across_permille=across, down_permille=down)
