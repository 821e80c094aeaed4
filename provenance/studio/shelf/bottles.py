"""Bottles: what is left of each, how long it keeps, and what was made of it."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

from provenance.craft.solutions.drawing import left_hundredth_ml
from provenance.model.chemistry import Bath, Stock
from provenance.model.dates import latest
from provenance.model.formula import Formula
from provenance.model.quantity_text import format_volume
from provenance.records.at_hand import bottles_in_use
from provenance.records.reader import Reader, Stored
from provenance.studio.shelf.retired import with_retired

State = Literal["good", "mix soon", "past its time", "empty", "retired"]

LOW_SHARE = Fraction(1, 5)
SOON_DAYS = 14
"""When a bottle is low, or soon past its time: common practice of a tidy shelf, not a limit."""


@dataclass(frozen=True)
class Bottle:
    """A stock as it stands today."""

    stock: Stored[Stock]
    formula: Formula | None
    left_hundredth_ml: int
    baths: tuple[str, ...]
    """Codes of the baths that were made of it, in the order in which they were entered."""
    days_left: int | None
    """Until the last day that it keeps; negative when that is past, None when not on record."""

    @property
    def name(self) -> str:
        """What is in it: its own words, else its formula's."""
        return self.stock.body.made_from or (self.formula.name if self.formula else "")

    @property
    def left_share(self) -> float:
        """How much of it is left, from 0 to 1."""
        return self.left_hundredth_ml / self.stock.body.volume_hundredth_ml

    @property
    def state(self) -> State:
        """What to think of it, the gravest that holds."""
        if self.stock.body.retired_on is not None:
            return "retired"
        if self.left_hundredth_ml == 0:
            return "empty"
        if self.days_left is not None and self.days_left < 0:
            return "past its time"
        low = self.left_hundredth_ml <= self.stock.body.volume_hundredth_ml * LOW_SHARE
        soon = self.days_left is not None and self.days_left <= SOON_DAYS
        return "mix soon" if low or soon else "good"

    @property
    def left_text(self) -> str:
        """``640 ml``"""
        return format_volume(self.left_hundredth_ml)


def bottles(reader: Reader, today: date, *, retired: bool = False) -> list[Bottle]:
    """Every bottle in use, in the order in which they were entered.

    With `retired`, the latest of those that were thrown away too.
    """
    held = bottles_in_use(reader)
    every = with_retired(reader, Stock, held) if retired else held
    return [bottle(reader, stock, today) for stock in every]


def bottle(reader: Reader, stock: Stored[Stock], today: date) -> Bottle:
    """One bottle."""
    body = stock.body
    baths = reader.linked(stock.id, Bath, "drawn_from")
    return Bottle(
        stock=stock,
        formula=reader.get(Formula, body.formula).body if body.formula is not None else None,
        left_hundredth_ml=left_in(reader, stock),
        baths=tuple(bath.body.code for bath in baths),
        days_left=(latest(body.keeps_until) - today).days if body.keeps_until else None,
    )


def left_in(reader: Reader, stock: Stored[Stock]) -> int:
    """What is left of a bottle: what was mixed, less what every bath on record took."""
    draws = (
        draw.volume_hundredth_ml
        for bath in reader.linked(stock.id, Bath, "drawn_from")
        for draw in bath.body.drawn
        if draw.stock == stock.id
    )
    return left_hundredth_ml(stock.body.volume_hundredth_ml, draws)
