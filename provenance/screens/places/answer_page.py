"""What a collector is told of a print: questions, sentences, and the records behind each."""

from collections.abc import Iterable
from pathlib import Path

from textual.widget import Widget

from provenance.screens.dialogs.write_pdf import WritePdf
from provenance.screens.frame import Frame
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.answering.answer import Answer, answer


class AnswerPage(Frame):
    """The usual questions about one print, as they would be answered now."""

    WHERE = "answer"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record
        self._told: Answer | None = None

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(id="answer")

    def refresh_content(self) -> None:
        """Answer anew."""
        studio = self.studio
        told = answer(studio.register.read, studio.folder, self.record, studio.register.clock())
        self._told = told
        self.headline(f"Answer   {told.name}", told.title, told.day)
        lines: list[Line] = []
        for held in told.answered:
            lines.append(Line(held.question, heading=True))
            lines += [
                Line(one.text, right=one.known, records=one.evidence, wide=True)
                for one in held.sentences
            ]
            lines.append(Line("", heading=True))
        lines.append(Line(told.note, quiet=True, wide=True))
        lines += [
            Line(f"{known}: {meaning}", quiet=True, wide=True) for known, meaning in told.meanings
        ]
        self.query_one(LineList).show(lines)

    def action_evidence(self) -> None:
        """Go to the records behind the sentence under the cursor."""
        line = self.query_one(LineList).current
        if line is None or not line.records:
            self.say("No record stands behind this line.")
            return
        self.studio.push_screen(EvidencePage(line.text, line.right, line.records))

    def on_line_list_opened(self) -> None:
        """A double click leads to the records, like enter."""
        self.action_evidence()

    def action_write_pdf(self) -> None:
        """Ask where the letter goes."""
        told, folder = self._told, self.studio.folder
        if told is None:
            return

        def write(path: Path) -> Path:
            # loads what draws pages
            from provenance.studio.answering.letter import write_answer

            return write_answer(told, path, folder)

        name = f"{told.name.replace('/', '-')} answer {told.at_utc.date()}.pdf"
        hint = "It names nobody but the artist."
        self.studio.push_screen(WritePdf(f"Answer   {told.name}", name, hint, write))

    def action_open_life(self) -> None:
        """The print itself."""
        self.studio.go_to(self.record)

    async def action_return(self) -> None:
        """Back to where it was asked."""
        await self.studio.action_back()
