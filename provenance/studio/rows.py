"""What a table of any number of records asks for: ids in an order, then rows by id."""

from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

SMALL = 5_000
"""Up to so many records an order comes in a few milliseconds."""


@dataclass(frozen=True)
class Sort:
    """By which column, and whether the last comes first; no key is the order of the source."""

    key: str = ""
    descending: bool = False


class RowSource(Protocol):
    """Where a table gets its rows from.

    `order` is the only slow one: it is asked for in a thread unless `small`.
    All raise Refused or Damaged.
    """

    @property
    def small(self) -> bool:
        """Whether an order comes at once."""

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        """The ids that `words` leave; None when another order was asked for meanwhile."""

    def first(self, count: int) -> "array[int]":
        """The first `count` ids of the source's own order, at once at any size."""

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        """The texts of a page of records, column by column; what is retired is left out."""

    def stop(self) -> None:
        """Give up an order that is being made: nobody waits for it."""
