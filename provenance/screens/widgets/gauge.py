"""A short bar of cells, to be read without colour."""

CELLS = 4
FULL, EMPTY, OVER = "▄", "·", "+"
WIDTH = CELLS + 1


def gauge(share: float | None) -> str:
    """How far something has come on the way to its limit, always in `WIDTH` cells.

    ``▄▄··`` is half of it, ``▄▄▄▄+`` past it; spaces where nothing can be told.
    It is full only at the limit itself, and empty only where there is nothing.
    """
    if share is None:
        return " " * WIDTH
    if share >= 1:
        return FULL * CELLS + (OVER if share > 1 else " ")
    return _bar(min(CELLS - 1, _cells(share)))


def level(share: float) -> str:
    """How much is left of something, from 0 to 1; the last drop still shows."""
    return _bar(_cells(share))


def _cells(share: float) -> int:
    return max(1, round(share * CELLS)) if share > 0 else 0


def _bar(full: int) -> str:
    return FULL * full + EMPTY * (CELLS - full) + " "
