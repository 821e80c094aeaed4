"""Throwing away: when, why, and how it was disposed of."""

from collections.abc import Iterable

from msgspec.structs import replace

from provenance.craft.hazards.meetings import families_in, wastes_for
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Stock
from provenance.records.act import Act
from provenance.records.reader import Reader, Stored
from provenance.studio.bottle_contents import held_by_bath, held_by_stock
from provenance.studio.chemicals import Chemicals

ELSEWHERE = "Do not pour wastes together. Local rules decide what may go down a drain."


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


def disposal_of(
    reader: Reader, chemicals: Chemicals, held: Iterable[Stored[Bath] | Stored[Stock]]
) -> tuple[str, ...]:
    """What is collected by itself of what is thrown away, and whose rules decide; a line each.

    A tray of which no formula is on record is judged by what such a bath usually holds.
    """
    families: set[str] = set()
    for one in held:
        body = one.body
        if isinstance(body, Bath):
            inside = held_by_bath(reader, body)
            if inside.unknown:
                families |= set(chemicals.hazards.role.get(body.role, ()))
        else:
            inside = held_by_stock(reader, body)
        ids = [content.substance for content in inside.contents]
        families |= families_in(ids, chemicals.hazards)
    said = dict.fromkeys(one.say for one in wastes_for(families, chemicals.hazards))
    return (*said, ELSEWHERE)
