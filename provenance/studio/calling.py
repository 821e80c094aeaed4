"""What to call prints so that each name leads back to the very same one."""

from collections.abc import Iterable, Mapping, Sequence

from provenance.errors import NotFound
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.reader import Reader
from provenance.studio.browsing import name_of
from provenance.studio.past import past_of
from provenance.studio.references import resolve_print


def names_of(reader: Reader, prints: Iterable[int]) -> list[str]:
    """The names of `prints`: by number, or by mark where a number has had several bearers.

    Raises NotFound for an id that is no print's.
    """
    return [_name(reader, record) for record in prints]


def in_short(reader: Reader, prints: Sequence[int], most: int = 24) -> str:
    """The names of `prints`; of more than `most`, the first ones and how many follow."""
    said = ", ".join(names_of(reader, prints[:most]))
    return f"{said} and {len(prints) - most:,} more" if len(prints) > most else said


def _name(reader: Reader, record: int) -> str:
    body = reader.get(Print, record).body
    code = reader.get(Edition, body.edition).body.code
    if body.designation is not None:
        name = f"{code} {body.designation}"
        try:
            if resolve_print(reader, name).id == record:
                return name
        except NotFound:
            pass
    return f"{code} {body.mark}"


def versions_of(reader: Reader, records: Iterable[int]) -> dict[int, int]:
    """The present version of each record; of one that was retired, the last it had."""
    found: dict[int, int] = {}
    for record in records:
        stored = reader.find(record)
        found[record] = stored.version if stored else 0
    return found


def changed_since(reader: Reader, versions: Mapping[int, int]) -> list[str]:
    """Of each record that is no longer at its version: its name, who changed it, and what."""
    said: list[str] = []
    for record, version in versions.items():
        stored = reader.find(record)
        if stored is not None and stored.version == version:
            continue
        events = [event for event in past_of(reader, record) if event.seq > version]
        name = name_of(reader, stored) if stored else f"#{record}"
        fields = sorted({field for event in events for field in event.changed})
        who = events[-1].who if events else "somebody"
        what = f"changed ({', '.join(fields)})" if stored else "retired"
        said.append(f"{name} was {what} by {who}".replace("_", " "))
    return said
