"""The records behind a sentence, as they are written in the register."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.screens.frame import Frame
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.plain import plain_fields


class EvidencePage(Frame):
    """One sentence, its standing, and every record it rests on."""

    WHERE = "evidence"

    def __init__(self, sentence: str, standing: str, records: tuple[int, ...]) -> None:
        super().__init__()
        self._sentence, self._standing, self._records = sentence, standing, records

    def content(self) -> Iterable[Widget]:
        """The sentence, then the records."""
        yield LineList(lead_width=20, id="evidence")

    def refresh_content(self) -> None:
        """Read the records anew."""
        self.headline("Evidence", "", self._standing)
        lines = [Line(self._sentence, strong=True)]
        for record in self._records:
            stored = self.studio.register.read.find(record)
            if stored is None:
                lines += [Line("", heading=True), Line(f"#{record} was retired", records=(record,))]
                continue
            lines += [
                Line("", heading=True),
                Line(f"{stored.kind} #{record}, entry {stored.version}", heading=True),
            ]
            lines += [
                Line(text, lead=name, records=(record,))
                for name, text in plain_fields(stored.body, self.studio.settings.units)
            ]
        self.query_one(LineList).show(lines)

    def action_history(self) -> None:
        """Every version of the record under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.push_screen(HistoryPage(line.records[0]))

    async def action_return(self) -> None:
        """Back to the sentence."""
        await self.studio.action_back()
