"""Reminders of the law and of custom: whether a rule holds for an edition, and why.

The rules are data: a figure, its source, the day it was read.  They remind; they
are not legal advice, and local law decides.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from provenance.craft.counting import Share
from provenance.model.sources import Sourced

NOT_ADVICE = "not legal advice; local law decides"

Kind = Literal["copies", "proofs", "price from", "price above", "bands"]
Scope = Literal["edition", "negative"]
Result = Literal["holds", "does not hold", "cannot say"]
Need = Literal[
    "taken by the artist",
    "printed by or under the artist",
    "signed",
    "numbered",
    "made for exhibition only",
]
"""What a rule asks of the prints beside their count."""


@dataclass(frozen=True)
class Band:
    """A share of the part of a price up to `up_to`, in whole units; None has no end."""

    up_to: int | None
    per_myriad: int
    """Ten-thousandths: 400 are 4 %."""


@dataclass(frozen=True)
class Reminder:
    """One rule, as it was read."""

    id: str
    about: str
    kind: Kind
    scope: Scope
    figure: int
    currency: str
    needs: tuple[Need, ...]
    bands: tuple[Band, ...]
    source: Sourced
    read_on: str
    """When the source was read (EDTF)."""


@dataclass(frozen=True)
class Money:
    """A price, in hundredths of its currency."""

    hundredths: int
    currency: str

    def __str__(self) -> str:
        whole, rest = divmod(self.hundredths, 100)
        return f"{self.currency} {whole:,}" + (f".{rest:02}" if rest else "")


@dataclass(frozen=True)
class Facts:
    """What a record shows of the prints that a rule counts; None where it does not."""

    numbered: int
    """The most numbered prints that there are or may be."""
    copies: int
    """The same with proofs and unnumbered prints."""
    answers: dict[Need, bool | None]


@dataclass(frozen=True)
class Verdict:
    """Whether a rule holds, and why."""

    reminder: Reminder
    result: Result
    why: str


def judge(reminder: Reminder, facts: Facts, share: Share | None, price: Money | None) -> Verdict:
    """Hold a rule against what the record shows; `share` is of artist's proofs."""
    if reminder.kind == "copies":
        result, why = _copies(reminder, facts)
    elif reminder.kind == "proofs":
        result, why = _proofs(reminder, share)
    else:
        result, why = _price(reminder, price)
    return Verdict(reminder, result, why)


def _copies(reminder: Reminder, facts: Facts) -> tuple[Result, str]:
    limit = reminder.figure
    if facts.numbered > limit:
        return "does not hold", f"{facts.numbered} prints are more than {limit}"
    short = [need for need in reminder.needs if facts.answers.get(need) is False]
    if short:
        return "does not hold", f"the record shows prints that are not {_listed(short)}"
    unknown = [need for need in reminder.needs if facts.answers.get(need) is None]
    if facts.copies > limit:
        return (
            "cannot say",
            f"{facts.numbered} numbered prints are within {limit}, but {facts.copies} with proofs"
            " and unnumbered ones; the cautious reading counts them",
        )
    if unknown:
        return "cannot say", f"it is not on record whether they are {_listed(unknown)}"
    said = f", {_listed(list(reminder.needs))}" if reminder.needs else ""
    return "holds", f"{facts.copies} prints at most{said}"


def _proofs(reminder: Reminder, share: Share | None) -> tuple[Result, str]:
    if share is None:
        return "holds", "no artist's proofs are declared beside numbered prints"
    over = share.proofs * 100 > share.numbered * reminder.figure
    return ("does not hold" if over else "holds"), share.said


def _price(reminder: Reminder, price: Money | None) -> tuple[Result, str]:
    if price is None:
        return "cannot say", "no price was given"
    if price.currency != reminder.currency:
        return "cannot say", f"the rule is in {reminder.currency}, the price in {price.currency}"
    if reminder.kind == "bands":
        due = Money(resale_due(price.hundredths, reminder), price.currency)
        if not due.hundredths:
            return "does not hold", f"nothing is due on {price}"
        return "holds", f"{due} would be due on a resale at {price}"
    limit = reminder.figure * 100
    over = price.hundredths > limit or (reminder.kind == "price from" and price.hundredths == limit)
    said = "at or above" if reminder.kind == "price from" else "above"
    edge = Money(limit, price.currency)
    return (
        ("holds", f"{price} is {said} {edge}")
        if over
        else (
            "does not hold",
            f"{price} is not {said} {edge}",
        )
    )


def resale_due(price_hundredths: int, reminder: Reminder) -> int:
    """What is due on a resale at that price, in hundredths, rounded down; capped by the figure."""
    owed = sum(part * band.per_myriad for part, band in _parts(price_hundredths, reminder.bands))
    return min(owed // 10_000, reminder.figure * 100)


def _parts(price_hundredths: int, bands: tuple[Band, ...]) -> Iterator[tuple[int, Band]]:
    """The part of a price that lies in each band."""
    below = 0
    for band in bands:
        top = price_hundredths if band.up_to is None else min(price_hundredths, band.up_to * 100)
        if top > below:
            yield top - below, band
            below = top


def _listed(words: list[Need]) -> str:
    return ", ".join(words[:-1]) + (" and " if len(words) > 1 else "") + words[-1]
