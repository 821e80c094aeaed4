"""What was thrown away, beside what stands ready."""

from collections.abc import Iterable
from itertools import chain, islice
from typing import TypeVar

from provenance.model.chemistry import Bath, Stock
from provenance.records.newest import newest_first
from provenance.records.reader import Reader, Stored

B = TypeVar("B", Bath, Stock)

RETIRED = 100
"""How many of the baths or bottles that were thrown away are listed: those entered last."""


def with_retired(reader: Reader, kind: type[B], in_use: Iterable[Stored[B]]) -> list[Stored[B]]:
    """What is in use and the latest of what is not, in the order in which they were entered."""
    gone = filter(_is_gone, newest_first(reader, kind))
    return sorted(chain(in_use, islice(gone, RETIRED)), key=lambda one: one.id)


def _is_gone(one: Stored[Bath] | Stored[Stock]) -> bool:
    return one.body.retired_on is not None
