"""One edition: its prints in a table, its impressions at a glance, what may be done to them."""

from collections.abc import Iterable, Sequence

from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from provenance.model.edition import Edition
from provenance.screens.actions import with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.printing import NewPrinting
from provenance.screens.frame import Rule
from provenance.screens.issuing import issue_each
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.print_deeds import PrintDeeds
from provenance.screens.places.print_page import PrintPage
from provenance.screens.places.roll_page import RollPage
from provenance.screens.widgets.edition_cells import EditionCells
from provenance.screens.widgets.picture import Picture
from provenance.screens.widgets.record_table import RecordTable
from provenance.screens.widgets.tables import PRINTS
from provenance.studio.drawer import promise_in_short, view_edition
from provenance.studio.print_rows import PrintRows
from provenance.studio.uncertified import uncertified


class EditionPage(PrintDeeds):
    """The prints of one edition; space marks several for one answer."""

    WHERE = "edition"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record

    def content(self) -> Iterable[Widget]:
        """The promise, the table with a picture beside it, the cells."""
        yield Static(id="promise", markup=False)
        with Horizontal(id="middle"):
            yield RecordTable(
                PrintRows(self.studio.register, edition=self.record),
                PRINTS[1:],
                empty="No print yet: p enters a printing.",
                id="prints",
            )
            yield Picture(id="picture")
        yield Rule(id="between")
        yield EditionCells()

    def refresh_content(self) -> None:
        """Read the edition anew."""
        reader = self.studio.register.read
        edition = reader.get(Edition, self.record)
        view = view_edition(reader, edition)
        self.headline(
            f"{edition.body.code}   {edition.body.name}",
            "",
            f"{promise_in_short(edition.body)}   {view.made} made, {view.left} left",
        )
        self.query_one("#promise", Static).update(f"“{edition.body.promise}”")
        self.query_one(EditionCells).show(view)
        self.query_one(RecordTable).reload()

    def on_record_table_opened(self, message: RecordTable.Opened) -> None:
        """Open a print's life."""
        self.studio.push_screen(PrintPage(message.record))

    def on_record_table_moved(self, message: RecordTable.Moved) -> None:
        """Show the picture of the print under the cursor."""
        self.query_one(Picture).show_print(self.studio, message.record)

    def on_record_table_failed(self, message: RecordTable.Failed) -> None:
        """The register could not be read."""
        self.say(str(message.error))

    def action_print_more(self) -> None:
        """Enter a printing."""
        code = self.studio.register.read.get(Edition, self.record).body.code
        self.studio.push_screen(NewPrinting(code))

    def action_history(self) -> None:
        """Every version of the edition: its promise, and what was corrected."""
        self.studio.push_screen(HistoryPage(self.record))

    def action_edition_list(self) -> None:
        """The list of the edition."""
        self.studio.push_screen(RollPage(self.record))

    def action_heirs_page(self) -> None:
        """What an heir has to know of the edition."""
        self.studio.push_screen(RollPage(self.record, heir=True))

    @property
    def chosen(self) -> Sequence[int]:
        """The marked prints, or the one under the cursor."""
        return self.query_one(RecordTable).marked_in_order()

    @property
    def _keys(self) -> dict[str, str]:
        return {one.name: shown_key(one.key) for one in with_keys(self.studio.settings.keys)}

    def done(self) -> None:
        """The marks have served."""
        self.query_one(RecordTable).clear_marks()

    def action_treat(self) -> None:
        """Baths that the marked prints went through since."""
        self._answer("treat")

    def action_certify_marked(self) -> None:
        """Issue the certificate of each marked print that has none."""
        held = tuple(self.chosen)
        owing = uncertified(self.studio.register.read, held)
        if owing:
            self.run_worker(self._certify(owing, len(held)), exclusive=True, group="certify")
        else:
            self.say("No certificate is owed here: each is in force, or its print is gone.")

    async def _certify(self, prints: tuple[int, ...], of: int) -> None:
        others = of - len(prints)
        about = f"{others} more marked: certified already, or gone." if others else ""
        done = await issue_each(self.studio, prints, about)
        if isinstance(done, str):
            self.say(done)
            return
        # who was refused stays marked: what stands against it is done next
        served = [record for record, one in zip(prints, done.outcomes, strict=False) if one.issued]
        self.query_one(RecordTable).unmark(served)
        self.refresh_content()
        self.say(done.told(str(self.studio.folder.certificates), self._keys))
