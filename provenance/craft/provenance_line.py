"""The line of provenance of a print, in the punctuated form of the museums (AAM).

A semicolon is a direct transfer, a full stop a gap; dealers stand in parentheses,
the years of a life in brackets.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from provenance.craft.custody import Move, Whereabouts, beginning, follow, in_order
from provenance.model.custody import OWNED, CustodyEvent


@dataclass(frozen=True)
class Holder:
    """Who had it, as a line names them."""

    name: str
    place: str = ""
    life: str = ""
    dealer: bool = False


Named = Callable[[CustodyEvent], Holder]
"""Who has a print by an event; somebody unnamed where nobody is, or a page was erased."""

_HOW = {"given": "by gift", "found": "by", "consigned": "on consignment"}


def provenance_line(moves: Iterable[Move], named: Named, *, opening: bool = False) -> str:
    """Every holder in order; loans are no part of it."""
    ordered = in_order(moves)
    text = "Whereabouts unknown" if opening else "The artist"
    gap, now = opening, beginning(opening=opening)
    for move, reached in zip(ordered, follow(ordered, opening=opening), strict=False):
        if not isinstance(reached, Whereabouts):
            break
        said = _said(move.body, now, named)
        if said:
            # an owner who comes to light has it from nobody that the record knows
            broken = gap or (move.body.event == "found" and move.body.party is not None)
            text += (". " if broken else "; ") + (said[:1].upper() + said[1:] if broken else said)
            gap = move.body.event == "lost"
        now = reached
    return text + "."


def _said(body: CustodyEvent, before: Whereabouts, named: Named) -> str:
    event, on = body.event, body.on
    if event in OWNED or event == "consigned" or (event == "found" and body.party):
        return _holder(named(body), _HOW.get(event, ""), on)
    if event in ("lost", "destroyed"):
        return f"{event} {on}"
    if event == "found":
        return f"found {on}"
    if event == "returned" and before.where in ("owned", "consigned", "unknown"):
        return f"returned to the artist’s studio, {on}"
    return ""


def _holder(who: Holder, how: str, on: str) -> str:
    life = f" [{who.life}]" if who.life else ""
    text = ", ".join(filter(None, (f"{who.name}{life}", who.place, f"{how} {on}".strip())))
    return f"({text})" if who.dealer else text
