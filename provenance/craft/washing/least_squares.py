"""Least squares for a handful of parameters: damped Gauss-Newton steps inside bounds.

Small enough that no numerical library needs to be loaded for it.  Method:
Levenberg (1944) and Marquardt (1963); a parameter at its bound
is held there while it would leave.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Vector = tuple[float, ...]
Matrix = tuple[Vector, ...]
Misfit = Callable[[Vector], tuple[Vector, Matrix]]
"""Gives the misfit of each reading, and its slope by each parameter."""

_MOST_STEPS = 200
_GIVE_UP_DAMPING = 1e12
_SETTLED = 1e-12


@dataclass(frozen=True)
class Solution:
    """Where a search ended: the parameters, their squared misfit, and the normal matrix."""

    parameters: Vector
    squares: float
    normal: Matrix


def least_squares(misfit: Misfit, start: Vector, bounds: Sequence[tuple[float, float]]) -> Solution:
    """The parameters near `start` that make the squared misfit least."""
    here = _clipped(start, bounds)
    wrong, slopes = misfit(here)
    squares, damping = _squares(wrong), 1e-3
    for _step in range(_MOST_STEPS):
        normal, downhill = _inside(_normal(slopes), _downhill(slopes, wrong), here, bounds)
        while damping < _GIVE_UP_DAMPING:
            move = solved(_damped(normal, damping), downhill)
            there = _clipped(tuple(map(sum, zip(here, move, strict=True))), bounds)
            wrong_there, slopes_there = misfit(there)
            squares_there = _squares(wrong_there)
            if squares_there < squares:
                break
            damping *= 10
        else:
            break
        gained = squares - squares_there
        here, wrong, slopes, squares = there, wrong_there, slopes_there, squares_there
        damping = max(damping / 10, 1e-9)
        if gained <= _SETTLED * squares:
            break
    return Solution(here, squares, _normal(slopes))


def solved(matrix: Matrix, right: Vector) -> Vector:
    """x of matrix·x = right, by elimination with pivots.

    Raises ZeroDivisionError when the matrix is singular.
    """
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for column in range(size):
        pivot = max(range(column, size), key=lambda row: abs(rows[row][column]))
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for row in range(column + 1, size):
            factor = rows[row][column] / rows[column][column]
            rows[row] = [a - factor * b for a, b in zip(rows[row], rows[column], strict=True)]
    found = [0.0] * size
    for row in reversed(range(size)):
        known = sum(rows[row][column] * found[column] for column in range(row + 1, size))
        found[row] = (rows[row][size] - known) / rows[row][row]
    return tuple(found)


def inverse(matrix: Matrix) -> Matrix:
    """The inverse of a symmetric matrix.  Raises ZeroDivisionError when it is singular."""
    size = len(matrix)
    return tuple(
        solved(matrix, tuple(float(row == column) for row in range(size))) for column in range(size)
    )


def _normal(slopes: Matrix) -> Matrix:
    columns = tuple(zip(*slopes, strict=True))
    return tuple(
        tuple(sum(a * b for a, b in zip(one, other, strict=True)) for other in columns)
        for one in columns
    )


def _downhill(slopes: Matrix, wrong: Vector) -> Vector:
    columns = zip(*slopes, strict=True)
    return tuple(-sum(a * b for a, b in zip(column, wrong, strict=True)) for column in columns)


def _damped(normal: Matrix, damping: float) -> Matrix:
    return tuple(
        tuple(
            value + (damping * (value + 1e-12) if row == column else 0)
            for column, value in enumerate(values)
        )
        for row, values in enumerate(normal)
    )


def _inside(
    normal: Matrix, downhill: Vector, here: Vector, bounds: Sequence[tuple[float, float]]
) -> tuple[Matrix, Vector]:
    """The same problem with those parameters held that would leave their bounds."""
    held = [
        (value <= low and step < 0) or (value >= high and step > 0)
        for value, step, (low, high) in zip(here, downhill, bounds, strict=True)
    ]
    kept = tuple(
        tuple(
            float(row == column) if held[row] or held[column] else value
            for column, value in enumerate(values)
        )
        for row, values in enumerate(normal)
    )
    return kept, tuple(0.0 if stay else step for stay, step in zip(held, downhill, strict=True))


def _squares(wrong: Vector) -> float:
    return sum(one * one for one in wrong)


def _clipped(vector: Vector, bounds: Sequence[tuple[float, float]]) -> Vector:
    return tuple(
        min(max(value, low), high) for value, (low, high) in zip(vector, bounds, strict=True)
    )
