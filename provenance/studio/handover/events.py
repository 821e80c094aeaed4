"""What happened to prints, event by event, as PROV-O in JSON-LD (W3C, 30 April 2013).

Written line by line: a studio may have more events than a machine has room for.
"""

from collections.abc import Iterator
from typing import Any

import msgspec

from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.finish import Finish
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.proof import Test
from provenance.model.studio import Studio
from provenance.records.reader import Reader
from provenance.studio.browsing import name_of
from provenance.studio.handover.levels import Level
from provenance.studio.handover.linked_art import made_urn
from provenance.studio.handover.tables import Scope, wanted

CONTEXT = {
    "prov": "http://www.w3.org/ns/prov#",
    "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
    "dcterms": "http://purl.org/dc/terms/",
    "id": "@id",
    "type": "@type",
    "label": "rdfs:label",
    "date": "dcterms:date",
    "role": "dcterms:contributor",
    "entity": "prov:Entity",
    "activity": "prov:Activity",
    "generated": {"@id": "prov:generated", "@type": "@id"},
    "used": {"@id": "prov:used", "@type": "@id"},
    "invalidated": {"@id": "prov:invalidated", "@type": "@id"},
}

Node = dict[str, Any]


def event_lines(reader: Reader, level: Level, scope: Scope) -> Iterator[bytes]:
    """The list as one JSON-LD document, an event or a print to the line."""
    yield b'{"@context":' + msgspec.json.encode(CONTEXT) + b',"@graph":[\n'
    first = True
    for node in _nodes(reader, level, scope):
        yield (b"" if first else b",\n") + msgspec.json.encode(node)
        first = False
    yield b"\n]}\n"


def _nodes(reader: Reader, level: Level, scope: Scope) -> Iterator[Node]:
    studio = reader.get(Studio, 1).body.studio_id

    def name(record: int, what: str = "print") -> str:
        return made_urn(studio, what, record)

    for stored in wanted(reader, Print, level, scope):
        body = stored.body
        yield {"id": name(stored.id), "type": "entity", "label": name_of(reader, stored)}
        printing = reader.get(Printing, body.printing).body
        yield {
            "id": name(stored.id, "printed"),
            "type": "activity",
            "label": "printed",
            "date": printing.done_on,
            **({"role": printing.printer} if level != "public" and printing.printer else {}),
            "generated": name(stored.id),
        }
        if body.existence in ("destroyed", "spoiled"):
            yield {
                "id": name(stored.id, "gone"),
                "type": "activity",
                "label": body.existence,
                **({"date": body.gone_on} if body.gone_on and level != "public" else {}),
                "invalidated": name(stored.id),
            }
    for stored in wanted(reader, Certificate, level, scope):
        issued = stored.body
        if issued.state == "issued" or level != "public":
            yield {
                "id": name(stored.id, "certified"),
                "type": "activity",
                "label": f"certificate {issued.code} {issued.state}",
                "date": issued.issued_at,
                "used": [name(issued.print)],
            }
    if level != "public":
        yield from _work(reader, level, scope, name)


def _work(reader: Reader, level: Level, scope: Scope, name: Any) -> Iterator[Node]:
    """Steps, tests, finishes and moves: which prints, when, and what."""
    said: tuple[tuple[type[Any], Any], ...] = (
        (Step, lambda one: (one.done_on, one.role, one.sheets)),
        (Test, lambda one: (one.done_on, f"{one.question}: {one.verdict}", one.covers)),
        (Finish, lambda one: (one.done_on, "finished", one.prints)),
        (CustodyEvent, lambda one: (one.on, one.event, (one.print,))),
    )
    for kind, tell in said:
        for stored in wanted(reader, kind, level, scope):
            date, label, prints = tell(stored.body)
            yield {
                "id": name(stored.id, kind.KIND),
                "type": "activity",
                "label": label,
                "date": date,
                "used": [name(record) for record in prints],
            }
