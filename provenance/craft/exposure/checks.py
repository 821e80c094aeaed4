"""What every calculation at the enlarger asks of its figures."""

from math import isfinite

from provenance.errors import Problem, Refused


def above_zero(value: float, noun: str, *, field: str = "") -> float:
    """`value`, when it is a finite figure above zero.  Raises Refused otherwise."""
    if not isfinite(value) or value <= 0:
        raise Refused(
            Problem(
                what=f"{noun} of {value:g} is not above zero",
                field=field,
                mend=f"give {noun} above zero",
            )
        )
    return value
