"""Throwing away: when, why, and how it was disposed of."""

from msgspec.structs import replace

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Stock
from provenance.records.act import Act
from provenance.records.reader import Stored


def retire(
    act: Act, held: Stored[Bath] | Stored[Stock], *, on: str, why: str, disposed: str = ""
) -> None:
    """Record that a tray or a bottle was emptied.  Raises Refused, as when it was before."""
    body = held.body
    if body.retired_on is not None:
        raise Refused(
            Problem(
                what=f"{body.code} was retired on {body.retired_on} already",
                field="retired_on",
                mend="leave it out, or correct the earlier record",
            )
        )
    act.change(
        held.id,
        held.version,
        replace(body, retired_on=on, retired_why=why, disposed=disposed),
    )
