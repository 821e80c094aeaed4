"""Sizes and dilutions as they are kept: whole numbers of the smallest unit.

Single quantities need no type of their own, because the name of the field
carries the unit (`volume_hundredth_ml`, `temperature_tenth_c`).  These two have
an inner order that a bare number cannot hold.
"""

import msgspec

from provenance.errors import Problem, Refused

LONGEST_TENTH_MM = 100_000
"""Ten metres: wider than any roll of paper that goes through trays."""

MOST_PARTS_HUNDREDTHS = 1_000_000
"""Ten thousand parts: beyond any dilution used at the sink."""


class Size(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Height by width, height first, in tenths of a millimetre.

    Raises Refused when a side is not above zero or longer than ten metres.
    """

    height_tenth_mm: int
    width_tenth_mm: int

    def __post_init__(self) -> None:
        for side, length in (("height", self.height_tenth_mm), ("width", self.width_tenth_mm)):
            if not 0 < length <= LONGEST_TENTH_MM:
                raise Refused(
                    Problem(
                        what=f"a {side} of {length / 100:g} cm is not the {side} of a sheet",
                        mend="give a length above zero and at most 10 m",
                    )
                )

    def fits_inside(self, outer: "Size") -> bool:
        """Whether this size lies within `outer` without being turned."""
        return (
            self.height_tenth_mm <= outer.height_tenth_mm
            and self.width_tenth_mm <= outer.width_tenth_mm
        )


class Point(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A point of the image, seen upright.

    In thousandths: of its width from the left edge, of its height from the top.
    Raises Refused outside of the image.
    """

    across_permille: int
    down_permille: int

    def __post_init__(self) -> None:
        for way, value in (("across", self.across_permille), ("down", self.down_permille)):
            if not 0 <= value <= 1000:
                raise Refused(
                    Problem(
                        what=f"{value / 10:g} % {way} lies outside of the image",
                        mend="give percent from the left and from the top, 0 to 100",
                    )
                )


class Dilution(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Parts that are mixed: ``1+9`` is one part of stock and nine of water.

    The last part is water (or what stands in for it); those before it are the
    stocks, in the order they were written.  Parts are hundredths of a part, so
    that ``1+1.5`` is (100, 150).  `typed` is what the person wrote, which may
    have been ``1:10`` read by the studio's own convention.

    Raises Refused unless there are two parts or more, each above zero.
    """

    parts_hundredths: tuple[int, ...]
    typed: str

    def __post_init__(self) -> None:
        parts = self.parts_hundredths
        if len(parts) < 2 or not all(0 < part <= MOST_PARTS_HUNDREDTHS for part in parts):
            raise Refused(
                Problem(
                    what=f"“{self.typed}” is not a dilution of two parts or more, each above zero",
                    mend="write the parts with a plus, as 1+9; leave the field out for an "
                    "undiluted stock",
                )
            )

    @property
    def total_hundredths(self) -> int:
        """All the parts together, in hundredths of a part."""
        return sum(self.parts_hundredths)
