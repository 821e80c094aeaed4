"""Throwing away: when, why, and how it was disposed of."""

from msgspec.structs import replace

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Stock
from provenance.records.act import Act
from provenance.records.reader import Stored


def retire_bath(act: Act, bath: Stored[Bath], *, on: str, why: str, disposed: str = "") -> None:
    """Record that a tray was emptied.  Raises Refused, as when it was before."""
    _not_yet(bath.body.code, bath.body.retired_on)
    act.change(
        bath.id,
        bath.version,
        replace(bath.body, retired_on=on, retired_why=why, disposed=disposed),
    )


def retire_stock(act: Act, stock: Stored[Stock], *, on: str, why: str, disposed: str = "") -> None:
    """Record that a bottle was emptied or thrown away.  Raises Refused, as when it was before."""
    _not_yet(stock.body.code, stock.body.retired_on)
    act.change(
        stock.id,
        stock.version,
        replace(stock.body, retired_on=on, retired_why=why, disposed=disposed),
    )


def _not_yet(code: str, retired_on: str | None) -> None:
    if retired_on is not None:
        raise Refused(
            Problem(
                what=f"{code} was retired on {retired_on} already",
                mend="leave it out, or correct the earlier record",
            )
        )
