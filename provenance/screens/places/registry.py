"""Which class is which place, and which page opens for which record.

Each is loaded when it is first shown, so that the first paint waits for none but its own.
"""

from functools import partial
from importlib import import_module
from typing import Any

from textual.screen import Screen

from provenance.model.matching import MatchReport
from provenance.model.run import Run
from provenance.records.reader import Reader

PLACES = {
    "editions": "Editions",
    "dry_side": "DrySide",
    "wet_side": "WetSide",
    "shelf": "Shelf",
    "finishing": "Finishing",
    "desk": "Desk",
}
"""The module and the class of each place."""

_PAGES = {
    "print": ("print_page", "PrintPage"),
    "edition": ("edition_page", "EditionPage"),
    "bath": ("entry_page", "EntryPage"),
    "stock": ("entry_page", "EntryPage"),
    "negative": ("negative_page", "NegativePage"),
    "paper": ("paper_page", "PaperPage"),
}
"""The page of a record of each kind; it is made from the id alone."""


def place_class(name: str) -> type[Screen[None]]:
    """The class of a place."""
    place: type[Screen[None]] = _load(name, PLACES[name])
    return place


def modes() -> dict[str, Any]:
    """The places, as the application switches between them."""
    return {name: partial(_open_place, name) for name in PLACES}


def page_for(reader: Reader, record: int) -> Screen[None] | None:
    """The page of a record: a print's life, an edition, a tray or bottle, else its fields."""
    stored = reader.find(record)
    if stored is None:
        return None
    page: Screen[None]
    if stored.kind in _PAGES:
        page = _load(*_PAGES[stored.kind])(record)
    elif isinstance(stored.body, Run) and stored.body.state == "in hand":
        page = _load("run_page", "RunPage")(record)
    elif isinstance(stored.body, MatchReport):
        page = _load("match_page", "MatchPage")(stored.body.print, stored.body.reference)
    else:
        from provenance.studio.browsing import name_of

        named = f"{stored.kind} {name_of(reader, stored)}"
        page = _load("evidence_page", "EvidencePage")(named, "", (record,))
    return page


def load_all() -> None:
    """Load every place and page with the forms that they open, and what writes."""
    import_module("provenance.records.act")
    for name, class_name in (*PLACES.items(), *_PAGES.values()):
        _load(name, class_name)


def _open_place(name: str) -> Screen[None]:
    return place_class(name)()


def _load(module: str, name: str) -> Any:
    return getattr(import_module(f"provenance.screens.places.{module}"), name)
