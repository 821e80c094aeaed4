"""A short bar of cells, to be read without colour."""

CELLS = 4
FULL, EMPTY, OVER = "█", "░", "+"
WIDTH = CELLS + 1


def gauge(share: float | None) -> str:
    """``██░░``; ``████+`` past the end, spaces where nothing can be told; always `WIDTH` cells.

    It is full only at the end itself, and empty only where there is nothing.
    """
    if share is None:
        return " " * WIDTH
    full = CELLS if share >= 1 else min(CELLS - 1, round(share * CELLS))
    full = max(full, 1) if share > 0 else 0
    return FULL * full + EMPTY * (CELLS - full) + (OVER if share > 1 else " ")
