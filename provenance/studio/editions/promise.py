"""The promise of an edition: how it was changed, and changing it with the reason."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from provenance.model.edition import Edition
from provenance.model.quantity_text import Units
from provenance.records.act import Act
from provenance.records.reader import Reader, Stored
from provenance.studio.past import changes, past_of

PROMISED = (
    "promise",
    "numbered",
    "artist_proofs",
    "printers_proofs",
    "hors_commerce",
    "unnumbered",
    "image",
    "sheet",
    "closed",
)
"""What buyers may rely on; its changes are shown ever after."""


@dataclass(frozen=True)
class PromiseChange:
    """One field of a promise, what it said before and after, when it changed and why."""

    field: str
    before: str
    after: str
    reason: str
    day: str
    who: str


def promise_changes(reader: Reader, edition: int, units: Units) -> Iterator[PromiseChange]:
    """Every change of a promise, the first first; the closing of an edition is one."""
    names = {field.replace("_", " ") for field in PROMISED}
    for event in past_of(reader, edition)[1:]:
        for field, before, after in changes(event, units, "#{}".format):
            if field in names:
                yield PromiseChange(field, before, after, event.reason, event.at[:10], event.who)


def change_promise(
    act: Act, edition: Stored[Edition], reason: str, fields: dict[str, Any]
) -> tuple[str, ...]:
    """Correct a promise; returns the fields that changed.  Raises Refused."""
    act.correct(edition.id, edition.version, replace(edition.body, **fields), reason)
    return tuple(name for name, one in fields.items() if getattr(edition.body, name) != one)


def close_edition(act: Act, edition: Stored[Edition], on: str, why: str) -> None:
    """Close an edition: no new print of it may be made after `on`.  Raises Refused."""
    act.change(edition.id, edition.version, replace(edition.body, closed=on, closed_why=why))
