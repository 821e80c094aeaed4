"""Dates in figures alone, read in the order that a person gives once for a whole table.

Nothing is guessed: without an order such a date is refused, and the refusal
says how to give one.  A date as the register keeps it is left as it is.
"""

import re
from typing import Literal, get_args

from provenance.errors import Problem, Refused
from provenance.model.dates import parse_edtf

DateOrder = Literal["day-first", "month-first", "year-first"]
DATE_ORDERS: tuple[DateOrder, ...] = get_args(DateOrder)
DATED = frozenset(
    (
        *("made", "state_since", "opened", "closed", "bought", "date", "done_on"),
        *("printed_on", "signed", "gone_on", "on", "until"),
    )
)
"""The fields that hold a date, of whatever kind of row."""

_KEPT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_FIGURES = re.compile(r"([0-9]{1,4})\s*([./-])\s*([0-9]{1,2})\s*\2\s*([0-9]{1,4})")


def read_day(text: str, order: DateOrder | None) -> str:
    """`text` as an EDTF date where it is in figures; any other text as it is.

    Raises Refused for a date in figures without an order, or one that its order
    makes impossible.
    """
    match = _FIGURES.fullmatch(text.strip())
    if match is None or _KEPT.fullmatch(text.strip()):
        return text
    parts = (match[1], match[3], match[4])
    if order is None:
        known = "--dates year-first" if len(parts[0]) == 4 else "--dates day-first or month-first"
        raise Refused(
            Problem(
                f"“{text}” does not say which of its figures is the day",
                mend=f"write it as 1998-03-14, or say once for the whole table: {known}",
            )
        )
    if order == "year-first":
        year, month, day = parts
    else:
        first, second, year = parts
        day, month = (first, second) if order == "day-first" else (second, first)
    if len(year) != 4 or max(len(month), len(day)) > 2:
        raise Refused(
            Problem(
                f"“{text}” has no year of four figures where --dates {order} looks for it",
                mend="write it as 1998-03-14",
            )
        )
    try:
        return parse_edtf(f"{year}-{int(month):02d}-{int(day):02d}").text
    except Refused as error:
        why = error.problems[0].what.partition(": ")[2]
        raise Refused(
            Problem(
                f"“{text}” is not a date: {why}",
                mend=f"it was read as --dates {order} says; check the cell",
            )
        ) from error
