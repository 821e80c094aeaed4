"""Editions: the drawer, and at a glance what was made of the one under the cursor."""

from collections.abc import Iterable

from textual.widget import Widget
from textual.widgets import Static

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.quantity_text import format_size
from provenance.screens.frame import Frame, Rule
from provenance.screens.widgets.edition_cells import EditionCells
from provenance.screens.widgets.record_table import RecordTable
from provenance.screens.widgets.tables import EDITIONS
from provenance.studio.drawer import EditionView, view_edition
from provenance.studio.edition_rows import EditionRows


class Editions(Frame):
    """Every edition in a row; below it the impressions of one."""

    WHERE = "editions"

    def content(self) -> Iterable[Widget]:
        """The table, a rule, the cells."""
        yield RecordTable(
            EditionRows(self.studio.register),
            EDITIONS,
            empty="No edition yet: n enters the first one, with its negative.",
            marks=False,
            id="drawer",
        )
        yield Rule(id="between")
        yield Static(id="about", markup=False)
        yield EditionCells()

    def refresh_content(self) -> None:
        """Read the drawer anew."""
        self.headline("Editions", "", self.studio.studio_name)
        table = self.query_one(RecordTable)
        table.reload()
        self._show(table.cursor)

    def on_record_table_moved(self, message: RecordTable.Moved) -> None:
        """Another edition is under the cursor."""
        self._show(message.record)

    def on_record_table_arranged(self, message: RecordTable.Arranged) -> None:
        """The drawer was read."""
        self._show(message.table.cursor)

    def on_record_table_opened(self, message: RecordTable.Opened) -> None:
        """Open an edition."""
        from provenance.screens.places.edition_page import EditionPage

        self.studio.push_screen(EditionPage(message.record))

    def on_record_table_failed(self, message: RecordTable.Failed) -> None:
        """The register could not be read."""
        self.say(str(message.error))

    def _show(self, record: int | None) -> None:
        cells, about = self.query_one(EditionCells), self.query_one("#about", Static)
        self.query_one("#between").display = record is not None
        if record is None:
            cells.show(None)
            about.update("")
            return
        reader = self.studio.register.read
        view = view_edition(reader, reader.get(Edition, record))
        negative = reader.get(Negative, view.edition.body.negative).body
        about.update(self._particulars(view, negative))
        cells.show(view)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is printed without an edition."""
        if action == "print_more" and self.is_mounted:
            return bool(self.query_one(RecordTable).count) or None
        return True

    def _particulars(self, view: EditionView, negative: Negative) -> str:
        body, units = view.edition.body, self.studio.settings.units
        made = f", {negative.made}" if negative.made else ""
        return (
            f"{body.code}   negative {negative.code}{made}, {negative.state}"
            f"   image {format_size(body.image, units)} on {format_size(body.sheet, units)}"
        )

    def action_new_edition(self) -> None:
        """Enter a new edition."""
        from provenance.screens.dialogs.new_edition import NewEdition

        self.studio.push_screen(NewEdition())

    def action_print_more(self) -> None:
        """Enter a printing of the edition under the cursor."""
        record = self.query_one(RecordTable).cursor
        if record is None:
            self.say("There is no edition to print from yet; n enters one.")
            return
        from provenance.screens.dialogs.printing import NewPrinting

        code = self.studio.register.read.get(Edition, record).body.code
        self.studio.push_screen(NewPrinting(code))
