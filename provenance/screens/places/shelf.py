"""Shelf: the trays in use, the bottles they come from, and the papers."""

from collections.abc import Iterable
from datetime import date

from textual.widget import Widget
from textual.widgets import Static

from provenance.model.chemistry import Stock
from provenance.model.quantity_text import format_size
from provenance.screens.dialogs.bath import NewBath
from provenance.screens.dialogs.mix_bath import MixBath
from provenance.screens.dialogs.mix_stock import MixStock
from provenance.screens.frame import Rule
from provenance.screens.places.shelf_about import about
from provenance.screens.places.shelf_deeds import ShelfDeeds, shelved
from provenance.screens.places.shelf_rows import sections
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.sections import Sections
from provenance.studio.shelf.view import Shelf as ShelfView
from provenance.studio.shelf.view import view_shelf


class Shelf(ShelfDeeds, ReadsAside):
    """What stands ready, how far it has come, and for how much more it is fit."""

    WHERE = "shelf listed"
    DEFAULT_CSS = """
    Shelf #more { height: 5; color: $quiet; }
    Shelf #between { margin-top: 0; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._view: ShelfView | None = None
        self._retired_too = False

    def content(self) -> Iterable[Widget]:
        """Three tables, and more about what the cursor is on."""
        yield Sections(id="on-the-shelf")
        yield Rule(id="between")
        yield Static(id="more", markup=False)

    def refresh_content(self) -> None:
        """Read the shelf anew."""
        today, settings, retired = self.today, self.studio.settings, self._retired_too
        self.read_aside(
            lambda reader: view_shelf(reader, settings, date.fromisoformat(today), retired=retired),
            self._show_view,
        )

    def _show_view(self, view: ShelfView) -> None:
        self._view = view
        units = self.studio.settings.units
        size = f"counted in sheets of {format_size(view.size, units)}" if view.size else ""
        self.headline("Shelf", size, self.today)
        self.query_one(Sections).show(sections(view, units, self.keys))

    def on_sections_moved(self) -> None:
        """Say more about what the cursor is on."""
        record, view = self.query_one(Sections).cursor, self._view
        text = about(view, record, self.studio.settings.units) if view and record else ""
        self.query_one("#more", Static).update(text)
        self.query_one("#between").display = bool(text)

    def on_sections_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_record()

    @property
    def chosen(self) -> tuple[int, ...]:
        """What is marked, else what the cursor is on."""
        return self.query_one(Sections).chosen

    def done(self) -> None:
        """What was marked is dealt with."""
        self.query_one(Sections).clear_marks()

    def action_open_record(self) -> None:
        """Open the entry under the cursor."""
        record = self.query_one(Sections).cursor
        if record is not None:
            self.studio.go_to(record)

    def action_mark_shelved(self) -> None:
        """Mark what the cursor is on, for labels or to be retired."""
        self.query_one(Sections).turn_mark()

    def action_retired_too(self) -> None:
        """Show what was thrown away as well, or no longer."""
        self._retired_too = not self._retired_too
        self.refresh_content()

    def action_mix(self) -> None:
        """Mix a bath."""
        bottles = shelved(self.studio.register.read, self.chosen)
        named = [one.body.code for one in bottles if one.kind == Stock.KIND]
        self.studio.push_screen(MixBath(named), lambda saved: self.done() if saved else None)

    def action_mix_stock(self) -> None:
        """Mix a bottle from a formula."""
        self.studio.push_screen(MixStock())

    def action_new_bath(self) -> None:
        """Enter a bath that stands ready."""
        self.studio.push_screen(NewBath())
