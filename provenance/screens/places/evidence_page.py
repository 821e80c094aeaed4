"""The records behind a sentence, as they are written in the register."""

from collections.abc import Iterable
from functools import partial

from textual.widget import Widget

from provenance.model.body import Body
from provenance.model.study import ToningStudy, WashStudy
from provenance.screens.frame import Frame
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.naming import called
from provenance.studio.plain import plain_fields
from provenance.studio.study_text import study_lines
from provenance.studio.wordings import load_wording


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
        reader, units = self.studio.register.read, self.studio.settings.units
        self.headline("Evidence", "", self._standing)
        lines = [Line(self._sentence, strong=True, wide=True)]
        for record in self._records:
            stored = reader.find(record)
            lines.append(Line("", heading=True))
            if stored is None:
                lines.append(Line(f"#{record} was retired", wide=True, records=(record,)))
                continue
            heading = f"{stored.kind} {called(reader, record)}   entry {stored.version}"
            lines.append(Line(heading, heading=True))
            lines += [
                Line(text, lead=name, records=(record,))
                for name, text in plain_fields(stored.body, units, called=partial(called, reader))
            ]
            lines += self._study(stored.body, record)
        self.query_one(LineList).show(lines)

    def _study(self, body: Body, record: int) -> list[Line]:
        """The table and the curve of a study; most sentences rest on none."""
        if not isinstance(body, ToningStudy | WashStudy):
            return []
        wording = load_wording(self.studio.folder, self.studio.settings.language)
        told = ["", *study_lines(body, wording)]
        return [Line(_indented(one), wide=True, records=(record,)) for one in told]

    def action_history(self) -> None:
        """Every version of the record under the cursor, or of the first."""
        line = self.query_one(LineList).current
        records = line.records if line is not None and line.records else self._records
        self.studio.push_screen(HistoryPage(records[0]))

    async def action_return(self) -> None:
        """Back to the sentence."""
        await self.studio.action_back()


def _indented(text: str) -> str:
    """`text` with its indent in blanks at which no line is broken, so that columns stay."""
    told = text.lstrip(" ")
    return "\u00a0" * (len(text) - len(told)) + told
