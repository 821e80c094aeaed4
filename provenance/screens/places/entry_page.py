"""The page of a tray or a bottle: what it is, what went in and through, what to heed."""

from collections.abc import Iterable
from datetime import date

from textual.widget import Widget

from provenance.model.chemistry import Bath
from provenance.screens.places.entry_lines import bottle_lines, tray_lines
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.shelf_deeds import ShelfDeeds, shelved
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.chemicals import load_chemicals
from provenance.studio.recall import recall
from provenance.studio.shelf.bottles import bottle
from provenance.studio.shelf.inside import inside_of
from provenance.studio.shelf.trays import tray


class EntryPage(ShelfDeeds):
    """One entry of the shelf, from what it was made of to what became of it."""

    WHERE = "listed entry"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record

    @property
    def chosen(self) -> tuple[int, ...]:
        """The entry itself."""
        return (self.record,)

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(lead_width=14, id="entry")

    def refresh_content(self) -> None:
        """Read the entry anew."""
        reader, settings = self.studio.register.read, self.studio.settings
        today = date.fromisoformat(self.today)
        held = shelved(reader, self.chosen)
        if not held:
            self.headline(f"#{self.record}", "", "no longer on record")
            self.query_one(LineList).show([])
            return
        (stored,) = held
        inside = inside_of(reader, load_chemicals(self.studio.folder), stored.body)
        lines: Iterable[Line]
        if isinstance(stored.body, Bath):
            bath = reader.get(Bath, self.record)
            seen = tray(reader, bath, settings, today)
            found = recall(reader, bath, settings)
            self.headline(bath.body.code, seen.bath.body.role, seen.state)
            lines = tray_lines(reader, seen, found, inside, settings.units)
        else:
            kept = bottle(reader, reader.get(type(stored.body), self.record), today)
            self.headline(stored.body.code, kept.name, kept.state)
            lines = bottle_lines(reader, kept, inside, today)
        self.query_one(LineList).show(list(lines))

    def action_open_record(self) -> None:
        """Open the bottle, tray or print of the line under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])
        else:
            self.say("Nothing stands behind this line that could be opened.")

    def on_line_list_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_record()

    def action_history(self) -> None:
        """Every version of the entry."""
        self.studio.push_screen(HistoryPage(self.record))

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()
