"""How far a value from few readings may lie off: Student's distribution."""

SURE = 0.95
"""How often a band is meant to hold what it bands."""

_QUANTILES = {
    1: 12.706,
    2: 4.303,
    3: 3.182,
    4: 2.776,
    5: 2.571,
    6: 2.447,
    7: 2.365,
    8: 2.306,
    9: 2.262,
    10: 2.228,
    15: 2.131,
    20: 2.086,
    30: 2.042,
    60: 2.000,
}
"""Two-sided 95 % points (C: the distribution itself; the tests work them out anew)."""


def standard_errors(freedom: int) -> float:
    """How many standard errors either way hold 95 %, with `freedom` readings to spare.

    Between the rows of the table the wider band is given.  Raises ValueError
    when no reading is to spare.
    """
    if freedom < 1:
        raise ValueError("no reading is to spare")
    return _QUANTILES[max(known for known in _QUANTILES if known <= freedom)]
