"""The past of a record: every version, and what each changed."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import msgspec

from provenance.model.body import Body
from provenance.model.prints import Print
from provenance.model.quantity_text import Units
from provenance.records.entry import Entry, Verb
from provenance.records.overridden import overridden
from provenance.records.reader import Reader
from provenance.studio.overrides import override_text
from provenance.studio.plain import plain_fields


@dataclass(frozen=True)
class Event:
    """One entry about a record, with the fields whose values it changed."""

    seq: int
    act: int
    verb: Verb
    at: str
    offset_min: int
    who: str
    reason: str
    changed: dict[str, tuple[Any, Any]]
    """field: (value before, value after); the first entry has None before."""
    was: Body | None = None
    """The record before this entry; None before the first, and after it was retired."""
    now: Body | None = None


def past_of(reader: Reader, record: int) -> list[Event]:
    """Every entry about a record, oldest first; retired records too."""
    events: list[Event] = []
    before: dict[str, Any] = {}
    was: Body | None = None
    for version in reader.versions(record):
        after = msgspec.to_builtins(version.body) if version.body is not None else {}
        changed = {
            field: (before.get(field), after.get(field))
            for field in dict.fromkeys([*before, *after])
            if before.get(field) != after.get(field)
        }
        events.append(_event(version.entry, changed, was, version.body))
        before, was = after, version.body
    return events


def past_with_overrides(reader: Reader, record: int) -> list[Event]:
    """The past of a record; of a print also what was overridden at the trays with it in hand.

    An override is written into the record of its run, which is not the print's own.
    """
    events = past_of(reader, record)
    if reader.kind_of(record) != Print.KIND:
        return events
    for over in overridden(reader, record):
        told = override_text(over.body, over.explained_on)
        events.append(_event(reader.entry(over.entry), {"overridden": (None, told)}))
    return sorted(events, key=lambda event: event.seq)


def _event(
    entry: Entry,
    changed: dict[str, tuple[Any, Any]],
    was: Body | None = None,
    now: Body | None = None,
) -> Event:
    return Event(
        seq=entry.seq,
        act=entry.act,
        verb=entry.verb,
        at=entry.moment.at,
        offset_min=entry.moment.offset_min,
        who=entry.who,
        reason=entry.reason,
        changed=changed,
        was=was,
        now=now,
    )


def changes(event: Event, units: Units, called: Callable[[int], str]) -> list[tuple[str, str, str]]:
    """(field, before, after) of what an entry changed, as a person reads it."""
    if event.was is None and event.now is None:
        # of another record: it was told when it was read
        return [(field, was or "", now or "") for field, (was, now) in event.changed.items()]
    before, after = (
        dict(plain_fields(body, units, called=called)) if body is not None else {}
        for body in (event.was, event.now)
    )
    return [
        (field, before.get(field, ""), after.get(field, ""))
        for field in dict.fromkeys([*before, *after])
        if before.get(field) != after.get(field)
    ]
