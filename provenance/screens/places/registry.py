"""Which class is which place, and which page opens for which record."""

from textual.screen import Screen

from provenance.model.chemistry import Bath, Stock
from provenance.model.edition import Edition
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.prints import Print
from provenance.model.run import Run
from provenance.records.reader import Reader
from provenance.screens.places.desk import Desk
from provenance.screens.places.dry_side import DrySide
from provenance.screens.places.edition_page import EditionPage
from provenance.screens.places.editions import Editions
from provenance.screens.places.entry_page import EntryPage
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.places.finishing import Finishing
from provenance.screens.places.match_page import MatchPage
from provenance.screens.places.negative_page import NegativePage
from provenance.screens.places.paper_page import PaperPage
from provenance.screens.places.print_page import PrintPage
from provenance.screens.places.run_page import RunPage
from provenance.screens.places.shelf import Shelf
from provenance.screens.places.wet_side import WetSide
from provenance.studio.browsing import name_of

PLACES = {
    "editions": Editions,
    "dry_side": DrySide,
    "wet_side": WetSide,
    "shelf": Shelf,
    "finishing": Finishing,
    "desk": Desk,
}


def page_for(reader: Reader, record: int) -> Screen[None] | None:
    """The page of a record: a print's life, an edition, a tray or bottle, else its fields."""
    stored = reader.find(record)
    if stored is None:
        return None
    if isinstance(stored.body, Print):
        return PrintPage(record)
    if isinstance(stored.body, Edition):
        return EditionPage(record)
    if isinstance(stored.body, Run) and stored.body.state == "in hand":
        return RunPage(record)
    if isinstance(stored.body, Bath | Stock):
        return EntryPage(record)
    if isinstance(stored.body, Negative):
        return NegativePage(record)
    if isinstance(stored.body, Paper):
        return PaperPage(record)
    if isinstance(stored.body, MatchReport):
        return MatchPage(stored.body.print, stored.body.reference)
    return EvidencePage(f"{stored.kind} {name_of(reader, stored)}", "", (record,))
