"""A print as Linked Art 1.0 (JSON-LD over CIDOC CRM), as museums exchange what they know.

Concepts are named by the Art & Architecture Thesaurus.  Things of the studio's
own get names made from its id, the same in every export.
"""

import uuid
from typing import Any

from provenance.craft.history import PrintHistory
from provenance.craft.issuing import print_name
from provenance.model.dates import earliest, latest
from provenance.model.quantities import Size
from provenance.model.quantity_text import format_size
from provenance.studio.handover.levels import Level

CONTEXT = "https://linked.art/ns/v1/linked-art.json"
_AAT = "http://vocab.getty.edu/aat/"
_BRIEF = ("300418049", "Brief Text")

Node = dict[str, Any]


def linked_art(history: PrintHistory, level: Level) -> Node:
    """The print as one object.  No level names who has it or had it."""
    print_, edition = history.print.body, history.edition.body
    studio = history.studio.body
    name = print_name(history)
    said = [
        _statement("300435429", "Material Statement", _material(history)),
        _statement("300435430", "Dimension Statement", f"image {format_size(print_.image)}"),
        _statement(
            "300435416", "Description", f"{studio.artist}: {edition.name}. {edition.promise}"
        ),
    ]
    if level != "public":
        if print_.inscriptions:
            said.append(_statement("300435414", "Inscription", print_.inscriptions))
        if print_.features:
            said.append(_statement("300435452", "Physical Statement", print_.features))
    node: Node = {
        "@context": CONTEXT,
        "id": urn(history, "print", history.print.id),
        "type": "HumanMadeObject",
        "_label": f"{edition.name}, {print_.designation or print_.mark}",
        "classified_as": [
            _type("300128695", "Gelatin Silver Print", ("300435443", "Type of Work")),
            _type("300133025", "Artwork"),
        ],
        "identified_by": [
            _called("Name", edition.name, "300404670", "Primary Name"),
            _called("Identifier", name, "300404621", "Owner-Assigned Number"),
            *(
                _called("Identifier", one.body.number, "300404012", "Unique Identifier")
                for one in history.certificates
                if one.body.state == "issued"
            ),
        ],
        "referred_to_by": said,
        "dimension": _dimensions(print_.sheet),
        "member_of": [_ref(history, "edition", history.edition.id, "Set", edition.name)],
        "shows": [
            _ref(history, "picture", history.negative.id, "VisualItem", history.negative.body.title)
        ],
        "produced_by": _production(history, level),
    }
    if print_.existence == "destroyed":
        gone_on = print_.gone_on if level != "public" else None
        node["destroyed_by"] = {
            "type": "Destruction",
            "_label": f"Destruction of {name}",
            **({"timespan": _timespan(gone_on)} if gone_on else {}),
        }
    if history.scans:
        node["representation"] = [_picture(history)]
    return node


def urn(history: PrintHistory, what: str, record: int) -> str:
    """A name for a thing of the studio, always the same."""
    return made_urn(history.studio.body.studio_id, what, record)


def made_urn(studio_id: str, what: str, record: int) -> str:
    """A name for record `record` of a studio (RFC 9562, version 5)."""
    return uuid.uuid5(uuid.UUID(studio_id), f"{what}/{record}").urn


def _production(history: PrintHistory, level: Level) -> Node:
    printing = history.printing.body
    node: Node = {
        "type": "Production",
        "_label": f"Printing of {print_name(history)}",
        "timespan": _timespan(printing.done_on),
    }
    # another hand is not named, and the artist's only where the record says so; who did the
    # work is not for anybody
    if level != "public" and printing.printer.casefold() == "artist":
        node["carried_out_by"] = [_ref(history, "artist", 1, "Person", history.studio.body.artist)]
    return node


def _material(history: PrintHistory) -> str:
    paper = history.paper.body if history.paper else None
    if paper is None:
        return "Gelatin silver print; the paper is not on record"
    words = " ".join(filter(None, (paper.base, paper.weight, paper.surface)))
    return f"Gelatin silver print on {words} paper"


def _timespan(text: str) -> Node:
    return {
        "type": "TimeSpan",
        "identified_by": [{"type": "Name", "content": text}],
        "begin_of_the_begin": f"{earliest(text)}T00:00:00Z",
        "end_of_the_end": f"{latest(text)}T23:59:59Z",
    }


def _picture(history: PrintHistory) -> Node:
    scan = history.scans[-1].body
    return {
        "type": "VisualItem",
        "_label": f"Picture of {print_name(history)}",
        "digitally_shown_by": [
            {
                "type": "DigitalObject",
                "_label": f"images/{scan.thumbnail_sha256}.jpg",
                "classified_as": [_type("300215302", "Digital Image")],
                "format": "image/jpeg",
            }
        ],
    }


def _dimensions(size: Size) -> list[Node]:
    sides = (
        ("300055644", "Height", size.height_tenth_mm),
        ("300055647", "Width", size.width_tenth_mm),
    )
    return [
        {
            "type": "Dimension",
            "classified_as": [_type(concept, f"{label}")],
            "value": tenth_mm / 10,
            "unit": {"id": f"{_AAT}300379097", "type": "MeasurementUnit", "_label": "millimeters"},
        }
        for concept, label, tenth_mm in sides
    ]


def _statement(concept: str, label: str, text: str) -> Node:
    return {
        "type": "LinguisticObject",
        "classified_as": [_type(concept, label, _BRIEF)],
        "content": text,
    }


def _called(kind: str, text: str, concept: str, label: str) -> Node:
    return {"type": kind, "classified_as": [_type(concept, label)], "content": text}


def _type(concept: str, label: str, meta: tuple[str, str] | None = None) -> Node:
    node: Node = {"id": f"{_AAT}{concept}", "type": "Type", "_label": label}
    if meta:
        node["classified_as"] = [_type(*meta)]
    return node


def _ref(history: PrintHistory, what: str, record: int, kind: str, label: str) -> Node:
    return {"id": urn(history, what, record), "type": kind, "_label": label}
