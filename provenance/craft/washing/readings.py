"""Readings of what was left after several wash times, and whether a curve can rest on them."""

from collections.abc import Sequence

from provenance.errors import Problem, Refused
from provenance.model.study import WashReading

LEAST_TIMES = 3
"""A line goes through any two points, and says nothing of how well."""


def check_readings(readings: Sequence[WashReading]) -> None:
    """Raises Refused when no curve can rest on `readings`."""
    if not readings:
        raise no_calibration()
    nothing = [place for place, one in enumerate(readings, 1) if one.left_ng_per_cm2 <= 0]
    if nothing:
        raise Refused(
            Problem(
                f"reading {nothing[0]} says that nothing was left, which no method can show",
                field="readings",
                mend="give the least that the method finds, or leave the reading out",
            )
        )
    times = len({reading.washed_ms for reading in readings})
    if times < LEAST_TIMES:
        said = "one wash time" if times == 1 else "two wash times"
        raise Refused(
            Problem(
                f"{said} cannot show how fast a paper washes: estimate only",
                field="readings",
                mend=f"test sheets after {LEAST_TIMES} different times or more; {_BOTH_PARTS}",
            )
        )


_BOTH_PARTS = "six, spread from minutes to more than an hour, can show both parts"


def no_calibration() -> Refused:
    """What is said where a time is asked for and no readings are there."""
    return Refused(
        Problem(
            "no calibration: estimate only",
            field="readings",
            mend=f"test sheets of this paper after several wash times; {_BOTH_PARTS}",
        )
    )
