"""The past of a record: every version, and what each changed."""

from dataclasses import dataclass
from typing import Any

import msgspec

from provenance.records.entry import Verb
from provenance.records.reader import Reader


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


def past_of(reader: Reader, record: int) -> list[Event]:
    """Every entry about a record, oldest first; retired records too."""
    events: list[Event] = []
    before: dict[str, Any] = {}
    for version in reader.versions(record):
        after = msgspec.to_builtins(version.body) if version.body is not None else {}
        changed = {
            field: (before.get(field), after.get(field))
            for field in dict.fromkeys([*before, *after])
            if before.get(field) != after.get(field)
        }
        entry = version.entry
        events.append(
            Event(
                seq=entry.seq,
                act=entry.act,
                verb=entry.verb,
                at=entry.moment.at,
                offset_min=entry.moment.offset_min,
                who=entry.who,
                reason=entry.reason,
                changed=changed,
            )
        )
        before = after
    return events


def shown(value: Any) -> str:
    """A value of a body as a person reads it; empty where nothing was recorded."""
    if value in (None, "", [], {}):
        return ""
    if isinstance(value, dict):
        inner = ((name.replace("_", " "), shown(one)) for name, one in value.items())
        return ", ".join(f"{name} {text}" for name, text in inner if text)
    if isinstance(value, list):
        return "; ".join(shown(one) for one in value)
    return str(value)
