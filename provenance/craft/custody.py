"""Where a print is, step by step: what may follow what, and who has it.

in the studio ── released, consigned, lent ──▶ away ── returned ──▶ in the studio
      │              └──── sold, given ────┐
      └──────────────── sold, given ───────▶ owned ── sold, given (by its holder) ──▶ owned

A print may be lost from anywhere and found again; a destroyed one stays so.
One of the opening balance begins with its whereabouts unknown.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from provenance.model.custody import OUT, OWNED, CustodyEvent
from provenance.model.dates import earliest, latest

Where = Literal[
    "in the studio", "released", "consigned", "lent", "owned", "lost", "destroyed", "unknown"
]
AWAY: frozenset[Where] = frozenset({"released", "consigned", "lent", "owned", "unknown"})
"""Not in the studio, as far as the record shows, and not lost either."""


@dataclass(frozen=True)
class Move:
    """An event with the id of its record; 0 while it has none."""

    id: int
    body: CustodyEvent


@dataclass(frozen=True)
class Whereabouts:
    """Where a print is by the record.

    `holder` is the key of a page of the contact book; None where it is the
    studio, or where nobody was named.
    """

    where: Where
    holder: str | None = None
    move: Move | None = None
    """What brought it there; None at the beginning."""
    lost_from: "Whereabouts | None" = None

    @property
    def away(self) -> bool:
        """Whether it is not in the studio."""
        return self.where in AWAY

    @property
    def since(self) -> str:
        """When it got there (EDTF); empty at the beginning."""
        return self.move.body.on if self.move else ""


@dataclass(frozen=True)
class Break:
    """An event that cannot follow what was before it."""

    move: Move
    before: Whereabouts
    why: str
    mend: str


def beginning(*, opening: bool) -> Whereabouts:
    """Where a print is before anything happened to it."""
    return Whereabouts("unknown" if opening else "in the studio")


def in_order(moves: Iterable[Move]) -> list[Move]:
    """Events in the order of their days; where dates overlap, as they were entered."""
    ordered: list[Move] = []
    for move in sorted(moves, key=lambda move: move.id):
        place = len(ordered)
        while place and latest(move.body.on) < earliest(ordered[place - 1].body.on):
            place -= 1
        ordered.insert(place, move)
    return ordered


def follow(moves: Iterable[Move], *, opening: bool = False) -> Iterator[Whereabouts | Break]:
    """Where each event, in order, leaves the print; ends with the first that cannot be."""
    now = beginning(opening=opening)
    for move in in_order(moves):
        if why := _against(now, move):
            yield Break(move, now, *why)
            return
        now = _after(now, move)
        yield now


def whereabouts(moves: Iterable[Move], *, opening: bool = False) -> Whereabouts:
    """Where a print is now; events after one that cannot be are not counted."""
    now = beginning(opening=opening)
    for reached in follow(moves, opening=opening):
        if isinstance(reached, Whereabouts):
            now = reached
    return now


def _after(now: Whereabouts, move: Move) -> Whereabouts:
    event = move.body.event
    if event in OWNED:
        return Whereabouts("owned", move.body.party, move)
    if event in OUT:
        where: Where = "released" if event == "released" else _CALLED[event]
        return Whereabouts(where, move.body.party, move)
    if event == "lost":
        return Whereabouts("lost", None, move, lost_from=now)
    if event == "destroyed":
        return Whereabouts("destroyed", None, move)
    if event == "found" and move.body.party is not None:
        return Whereabouts("owned", move.body.party, move)
    if event == "found" and now.lost_from is not None:
        return replace(now.lost_from, move=move)
    return Whereabouts("in the studio", None, move)


_CALLED: dict[str, Where] = {"consigned": "consigned", "lent": "lent"}


def _against(now: Whereabouts, move: Move) -> tuple[str, str] | None:
    """Why `move` cannot follow, and what to do; None when it can."""
    event, giver = move.body.event, move.body.giver
    if now.where == "destroyed":
        return f"{_told(now)}; nothing happens to it any more", "check which print is meant"
    if now.where == "lost" and event not in ("found", "destroyed"):
        return _told(now), "record first that it was found"
    if event == "found":
        if now.where not in ("lost", "unknown", "owned"):
            return f"{_told(now)}; it was not lost", "record a return, or check which print it is"
        if now.where == "owned" and move.body.party is None:
            return f"{_told(now)}; with whom it was found is not said", "name who has it now"
        return None
    if event == "returned":
        if now.where == "in the studio":
            return (_told(now), "record first how it left") if now.move else _NOT_LEFT
        return _giver_had_it(now, giver)
    if event in OUT:
        return None if now.where in ("in the studio", _FROM.get(event)) else _elsewhere(now, event)
    if event in OWNED:
        return _sale(now, event, giver)
    return None


_NOT_LEFT = ("it has not left the studio", "record first how it left")
_FROM: dict[str, Where] = {"consigned": "released", "lent": "released"}
"""What was only known to have left may turn out to be lent or consigned."""


def _sale(now: Whereabouts, event: str, giver: str | None) -> tuple[str, str] | None:
    if now.where == "lent":
        return f"{_told(now)}; a loan and a sale overlap", "record its return first"
    if now.where == "owned" and giver is None:
        return (
            f"{_told(now)} already",
            f"record its return first, or say from whom it was {event}",
        )
    if now.where == "in the studio" and giver is not None:
        return f"{_told(now)}; whoever is named never had it", "leave out from whom it came"
    return _giver_had_it(now, giver)


def _giver_had_it(now: Whereabouts, giver: str | None) -> tuple[str, str] | None:
    if giver is None or now.holder is None or now.holder == giver:
        return None
    return (
        f"{_told(now)}; whoever is named as having had it never had it, by the record",
        "check who it was, or record first how it got there",
    )


def _elsewhere(now: Whereabouts, event: str) -> tuple[str, str]:
    if now.where == "owned":
        return f"{_told(now)} and is not the studio's to be {event}", "record its return first"
    if now.where == "unknown":
        return _told(now), "record first that it was found, or came back"
    return f"{_told(now)} already", "record its return first"


def _told(now: Whereabouts) -> str:
    """How it got where it is, with the record that says so."""
    if now.move is None:
        return "its whereabouts are unknown" if now.where == "unknown" else _NOT_LEFT[0]
    event, on, record = now.move.body.event, now.move.body.on, f"(#{now.move.id})"
    if event == "returned":
        return f"it came back on {on} {record} already"
    if event == "released":
        return f"it left the studio on {on} {record}"
    if event in ("lent", "consigned"):
        return f"it has been {event} since {on} {record}"
    return f"it was {event} on {on} {record}"
