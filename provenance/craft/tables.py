"""What the reader of tables fails on, in words."""

import csv
from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

from provenance.errors import Problem, Refused

P = ParamSpec("P")
T = TypeVar("T")


def reads_a_table(read: Callable[P, T]) -> Callable[P, T]:
    """Let a function that reads CSV refuse what is no table, such as a cell without end."""

    @wraps(read)
    def refusing(*args: P.args, **kwargs: P.kwargs) -> T:
        try:
            return read(*args, **kwargs)
        except csv.Error as error:
            raise Refused(
                Problem(f"this is not a table: {error}", mend="mend its rows and cells")
            ) from error

    return refusing
