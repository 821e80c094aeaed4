"""The page of a tray or a bottle: what it is, what went in and through, what to heed."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from textual.widget import Widget

from provenance.model.chemistry import Bath
from provenance.records.reader import Reader
from provenance.screens.places.entry_lines import bottle_lines, tray_lines
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.shelf_deeds import ShelfDeeds, shelved
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.chemicals import load_chemicals
from provenance.studio.recall import recall
from provenance.studio.shelf.bottles import bottle
from provenance.studio.shelf.inside import inside_of
from provenance.studio.shelf.trays import tray


class _Seen(NamedTuple):
    """The three parts of the title line, and what stands below it."""

    title: tuple[str, str, str]
    lines: list[Line]


class EntryPage(ShelfDeeds, ReadsAside):
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
        self.read_aside(self._read, self._show)

    def _read(self, reader: Reader) -> _Seen:
        settings, today = self.studio.settings, date.fromisoformat(self.today)
        held = shelved(reader, self.chosen)
        if not held:
            return _Seen((f"#{self.record}", "", "no longer on record"), [])
        (stored,) = held
        inside = inside_of(reader, load_chemicals(self.studio.folder), stored.body)
        if isinstance(stored.body, Bath):
            bath = reader.get(Bath, self.record)
            seen = tray(reader, bath, settings, today)
            found = recall(reader, bath, settings)
            return _Seen(
                (bath.body.code, seen.bath.body.role, seen.state),
                list(tray_lines(reader, seen, found, inside, settings.units)),
            )
        kept = bottle(reader, reader.get(type(stored.body), self.record), today)
        return _Seen(
            (stored.body.code, kept.name, kept.state),
            list(bottle_lines(reader, kept, inside, today)),
        )

    def _show(self, seen: _Seen) -> None:
        self.headline(*seen.title)
        self.query_one(LineList).show(seen.lines)

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
