"""Looking things up: lists of every kind, and searches."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.forms import KINDS
from provenance.records.listing import found_ids
from provenance.records.reader import Reader, Stored

_PLURAL = {
    "process": "processes",
    "studio": "studio",
    "custody": "custody",
    "match": "matches",
    "finish": "finishes",
    "wash-study": "wash-studies",
    "toning-study": "toning-studies",
}


def plural(kind: str) -> str:
    """What many records of a kind are called."""
    return _PLURAL.get(kind, f"{kind}s")


def kind_called(word: str) -> type[Body]:
    """The kind that a person means by ``prints`` or ``print``.  Raises Refused."""
    names = KINDS | {plural(name): kind for name, kind in KINDS.items()}
    try:
        return names[word.casefold()]
    except KeyError:
        known = ", ".join(plural(name) for name in KINDS)
        raise Refused(
            Problem(what=f"there is no kind of record called {word!r}", mend=f"known are: {known}")
        ) from None


@dataclass(frozen=True)
class Found:
    """One record as a list shows it."""

    id: int
    kind: str
    name: str
    about: str


def listed(reader: Reader, kind: type[Body]) -> Iterable[Found]:
    """Every live record of one kind, in the order in which they were entered."""
    return (summary(reader, stored) for stored in reader.all(kind))


def search(reader: Reader, words: str, *, limit: int = 50) -> list[Found]:
    """The records that `words` lead to, best first."""
    found: list[Found] = []
    for record, _kind in found_ids(reader.connection, words, limit=limit):
        stored = reader.find(record)
        if stored is not None:
            found.append(summary(reader, stored))
    return found


def summary(reader: Reader, stored: Stored[Body]) -> Found:
    """A record in a name and a line."""
    body = stored.body
    return Found(stored.id, stored.kind, name_of(reader, stored), _about(body))


def name_of(reader: Reader, stored: Stored[Body]) -> str:
    """How a person names a record: its code, or edition and number."""
    body = stored.body
    if isinstance(body, Print):
        edition = reader.get(Edition, body.edition).body.code
        return f"{edition} {body.designation or body.mark}"
    return str(getattr(body, "code", "") or f"#{stored.id}")


def _about(body: Body) -> str:
    fields: dict[str, tuple[str, ...]] = {
        "studio": ("name", "place"),
        "negative": ("title", "made", "state"),
        "edition": ("name", "promise"),
        "paper": ("base", "weight", "surface", "batch"),
        "formula": ("name", "source"),
        "stock": ("made_from", "mixed_on", "retired_on"),
        "bath": ("role", "made_from", "made_on"),
        "process": ("name",),
        "printing": ("done_on", "printer", "note"),
        "print": ("mark", "existence"),
        "run": ("began_on", "state"),
        "step": ("done_on", "role", "name"),
        "test": ("done_on", "question", "method", "verdict"),
        "scan": ("file_name", "colour"),
        "certificate": ("issued_at", "state"),
        "custody": ("on", "event"),
        "wedge": ("done_on", "grade", "tablet", "developer"),
        "reading": ("done_on", "note"),
        "match": ("on", "outcome", "by"),
        "finish": ("done_on", "drying", "mount"),
        "wash-study": ("done_on", "method"),
        "toning-study": ("done_on", "bleach"),
        "spot-calibration": ("done_on", "method"),
        "disclosure": ("edition",),
        "instruction": ("given_on", "topic", "words"),
    }
    values = [getattr(body, field) for field in fields[body.KIND]]
    return "  ".join(str(value) for value in values if value)


def as_data(stored: Stored[Body]) -> dict[str, Any]:
    """A record as plain values, for JSON."""
    import msgspec

    return {
        "id": stored.id,
        "kind": stored.kind,
        "version": stored.version,
        "entered": stored.entered.at,
        "changed": stored.changed.at,
        "who": stored.who,
        "body": msgspec.to_builtins(stored.body),
    }
