"""A negative: every printing of it with its exposure plan, and what was read of its prints."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.quantity_text import format_size
from provenance.model.readings import Reading
from provenance.records.reader import Stored
from provenance.screens.dialogs.reprint import PlanReprint
from provenance.screens.frame import Frame
from provenance.screens.places.dry_side_rows import mean_text
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.reprint_page import ReprintPage
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.dry_side import printings_of, worth_matching
from provenance.studio.exposure_fields import exposure_fields
from provenance.studio.naming import called


class NegativePage(Frame):
    """One negative, the last printing first."""

    WHERE = "listed negative"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(lead_width=18, id="negative")

    def refresh_content(self) -> None:
        """Read the negative anew."""
        reader = self.studio.register.read
        body = reader.get(Negative, self.record).body
        self.headline(body.code, body.title, body.state)
        size = format_size(body.format, self.studio.settings.units) if body.format else ""
        lines = [
            Line(text, lead=name, records=(self.record,))
            for name, text in (("made", body.made or ""), ("format", size))
            if text
        ]
        for printing in reversed(printings_of(reader, self.record)):
            lines += self._printing(printing)
        self.query_one(LineList).show(lines)

    def _printing(self, printing: Stored[Printing]) -> Iterable[Line]:
        reader, body = self.studio.register.read, printing.body
        paper = reader.get(Paper, body.paper).body.code if body.paper is not None else ""
        yield Line("", heading=True)
        yield Line(f"printed {body.done_on}   {paper}".rstrip(), heading=True)
        if body.exposure is None:
            yield Line("no exposure plan on record", quiet=True, records=(printing.id,))
        else:
            units = self.studio.settings.units
            for name, text in exposure_fields(body.exposure, units):
                yield Line(text, lead=name, records=(printing.id,))
        prints = reader.linked(printing.id, Print, "printing")
        names = ", ".join(called(reader, one.id) for one in prints)
        yield Line(names or "none", lead="prints", records=tuple(one.id for one in prints))
        for held in prints:
            for reading in reader.linked(held.id, Reading, "print"):
                spots = (f"{one.spot} {mean_text(one.tones)}" for one in reading.body.patches)
                yield Line(
                    f"{called(reader, held.id)}, {reading.body.done_on}: {', '.join(spots)}",
                    lead="read",
                    records=(reading.id,),
                )

    def action_open_record(self) -> None:
        """Open the record of the line under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records and line.records[0] != self.record:
            self.studio.go_to(line.records[0])

    def on_line_list_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_record()

    def action_reprint(self) -> None:
        """Plan a print that matches one of this negative."""
        reader = self.studio.register.read
        held = worth_matching(reader, self.record)
        form = PlanReprint(called(reader, held) if held is not None else "")

        def planned(saved: object) -> None:
            if saved and form.asked is not None:
                self.studio.push_screen(ReprintPage(*form.asked))

        self.studio.push_screen(form, planned)

    def action_history(self) -> None:
        """Every version of the negative's record."""
        self.studio.push_screen(HistoryPage(self.record))

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()
