"""Rows in the order of their days, without asking every row against every other."""

from collections.abc import Sequence
from datetime import date
from heapq import heappop, heappush

from provenance.errors import Refused
from provenance.model.dates import earliest, latest

Span = tuple[date, date]
"""The first and the last day that a date may mean."""


def span(text: str) -> Span:
    """Of an EDTF date; the whole calendar for what is none, which is told when its row is taken."""
    try:
        return earliest(text), latest(text)
    except Refused:
        return date.min, date.max


def by_day(spans: Sequence[Span]) -> list[int]:
    """The places of `spans` so that none stands behind one that begins after it ended.

    Where days overlap they stay as they came.
    """
    by_end = sorted(range(len(spans)), key=lambda place: spans[place][1])
    by_start = sorted(range(len(spans)), key=lambda place: spans[place][0])
    ordered: list[int] = []
    done = [False] * len(spans)
    ready: list[int] = []
    first, waiting = 0, 0
    while len(ordered) < len(spans):
        while done[by_end[first]]:
            first += 1
        # whatever begins before the first of those left has ended may come next
        ends = spans[by_end[first]][1]
        while waiting < len(spans) and spans[by_start[waiting]][0] <= ends:
            heappush(ready, by_start[waiting])
            waiting += 1
        place = heappop(ready)
        done[place] = True
        ordered.append(place)
    return ordered
