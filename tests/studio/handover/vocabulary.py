"""What Linked Art and its classes allow, by the context and the classes that are published.

The package `cromulent` carries both.  Its reader refuses a property that a
class has not, and a value that is out of a property's range.  The JSON Schema
of the API is in no package.
"""

import json
import warnings
from pathlib import Path
from typing import Any

import rdflib

CRM = rdflib.Namespace("http://www.cidoc-crm.org/cidoc-crm/")


def published_context() -> Any:
    """The context of Linked Art, as it is published."""
    import_cromulent()
    import cromulent

    file = Path(str(cromulent.__file__)).parent / "data" / "linked-art.json"
    return json.loads(file.read_text(encoding="utf-8"))["@context"]


def import_cromulent() -> Any:
    """The reader of Linked Art."""
    with warnings.catch_warnings():
        # it leaves its own files open
        warnings.simplefilter("ignore")
        from cromulent import reader

        return reader


def triples(document: dict[str, Any], context: Any = None) -> rdflib.Graph:
    """A document as triples; `context` stands for one that would be fetched."""
    graph = rdflib.Graph()
    told = document | ({"@context": context} if context else {})
    with warnings.catch_warnings():
        # rdflib warns of what it does itself
        warnings.simplefilter("ignore", DeprecationWarning)
        graph.parse(data=json.dumps(told), format="json-ld")
    return graph


def lost_keys(document: Any, context: dict[str, Any]) -> set[str]:
    """Keys of a document that its context does not know, and a reader would drop."""
    known = set(context) | {"id", "type", "@context"}
    if isinstance(document, list):
        return set().union(*(lost_keys(one, context) for one in document))
    if not isinstance(document, dict):
        return set()
    scoped = context.get(document.get("type", ""), {})
    inner = scoped.get("@context", {}) if isinstance(scoped, dict) else {}
    here = {key for key in document if key not in known | set(inner)}
    return here.union(*(lost_keys(value, context) for value in document.values()))
