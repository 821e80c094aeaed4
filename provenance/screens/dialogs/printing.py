"""A printing of several sheets: same as last time, but for what is typed."""

from collections.abc import Iterable

from textual.suggester import SuggestFromList

from provenance.craft.units import parse_duration_ms
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.screens.dialogs.pieces import begin, date_field, put_all, size_field, source_field
from provenance.screens.dialogs.run import RunForm, at_field
from provenance.screens.widgets.fields import Field, Row, TextField, words_in
from provenance.studio.daysheet.filled import Filled, read_count
from provenance.studio.daysheet.short import read_burns
from provenance.studio.last_time import LastTime, last_time, next_marks
from provenance.studio.references import resolve_as

MOST_SHEETS = 200
"""More pencil marks than this are not proposed; they can be typed."""

_EXPOSURE = ("base", "aperture", "grade", "enlarger", "lens")


class NewPrinting(RunForm):
    """New sheets of one edition, how they were exposed and what they went through."""

    KIND = "printing"
    TITLE = "Printing"

    def __init__(self, edition: str) -> None:
        super().__init__(about=edition)
        self._code = edition
        self._last = LastTime()

    def rows(self) -> Iterable[Row]:
        """First what is new each time, then what mostly stays."""
        self._edition = resolve_as(self.read, Edition, self._code)
        last = self._last = last_time(self.read, self._edition)
        papers = [paper.body.code for paper in self.read.all(Paper)]
        yield Row(
            date_field(self),
            source_field(),
            TextField(
                "paper",
                "Paper",
                value=last.paper,
                suggester=SuggestFromList(papers, case_sensitive=False),
            ),
            TextField("printer", "Printer", value=last.printer),
        )
        yield Row(
            TextField("count", "Sheets", value=str(last.sheets), check=read_count),
            TextField(
                "sheets",
                "Pencil marks on their backs",
                value=", ".join(next_marks(self.read, self._edition, last.sheets)),
                width=4,
            ),
        )
        yield from self.run_rows(last, self.temperature_field(last))
        yield Row(
            TextField("base", "Exposure, s", value=last.base, check=parse_duration_ms, unit="s"),
            TextField("aperture", "Aperture", value=last.aperture, hint="f/8"),
            TextField("grade", "Grade", value=last.grade, hint="2 1/2"),
        )
        yield Row(
            TextField(
                "burns",
                "Burnt and held back, stops",
                value=last.burns,
                hint="sky +1/3 grade 1; steps -1/4",
                check=read_burns,
            )
        )
        yield from self.bath_rows(last)
        yield Row(
            TextField("enlarger", "Enlarger", value=last.enlarger, width=2),
            TextField("lens", "Lens", value=last.lens, hint="105 mm"),
        )
        own = "the edition's, unless typed"
        yield Row(
            size_field(self.host.settings, "image", "Image", hint=own),
            size_field(self.host.settings, "sheet", "Sheet", hint=own),
        )
        yield Row(TextField("note", "Note"))

    def opened(self) -> None:
        """Say which time was last, and watch the edition."""
        self._concerns = (self._edition.id,)
        if self._last.day:
            self.say_title(f"{self._code}, as on {self._last.day} unless typed")

    def left(self, field: Field) -> None:
        """As many pencil marks as sheets."""
        if field.key == "count" and field.value.isdecimal():
            count = min(int(field.value), MOST_SHEETS)
            self.fields["sheets"].propose(", ".join(next_marks(self.read, self._edition, count)))

    def fill(self) -> Filled:
        """One printing."""
        filled = begin(self)
        filled.put("edition", self._code, "printing", 0, "edition")
        marks = words_in(self.value("sheets"))
        filled.put("sheets", marks, "printing", 0, "sheets")
        same = ("paper", "printer", "image", "sheet", "note")
        put_all(self, filled, {key: key for key in same}, "printing", 0)
        put_all(self, filled, {key: key for key in _EXPOSURE}, "printing", 0, "exposure")
        burns = at_field("burns", lambda: read_burns(self.value("burns")))
        filled.put("burns", burns, "printing", 0, "exposure", "burns")
        self.put_run(filled, marks, "printing", 0)
        return filled
