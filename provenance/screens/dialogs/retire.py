"""Trays and bottles that are thrown away: why, and how they were disposed of."""

from collections.abc import Iterable, Sequence

from provenance.model.chemistry import Bath, Stock
from provenance.model.dates import parse_edtf
from provenance.records.reader import Stored
from provenance.screens.dialogs.pieces import begin
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.screens.widgets.working import Said, Working
from provenance.studio.chemicals import load_chemicals
from provenance.studio.daysheet.filled import Filled
from provenance.studio.shelf.retiring import disposal_of

KINDS = {Bath.KIND: "baths", Stock.KIND: "stocks"}


class Retire(Form):
    """One end for all of them."""

    KIND = "retire"
    TITLE = "Retire"
    AUTO_FOCUS = "#field-why Input"

    def __init__(self, records: Sequence[int]) -> None:
        super().__init__(about="what was marked", concerns=records)
        self._records = tuple(records)

    @property
    def _held(self) -> list[Stored[Bath] | Stored[Stock]]:
        baths = [one for one in self._records if self.read.kind_of(one) == Bath.KIND]
        return [
            self.read.get(Bath, one) if one in baths else self.read.get(Stock, one)
            for one in self._records
        ]

    def rows(self) -> Iterable[Row]:
        """When, why, how."""
        yield Row(
            TextField("on", "On", value=self.today, check=parse_edtf),
            TextField("why", "Why", hint="past its limit; past its time; spent", width=3),
        )
        yield Row(
            TextField(
                "disposed",
                "How what was left was disposed of",
                hint="collected for the depot; empty where nothing was left",
            )
        )

    def opened(self) -> None:
        """Name what it is about, and remind of what is collected by itself."""
        held = self._held
        self.say_title(", ".join(one.body.code for one in held))
        working = Working()
        self.mount(working, after="#fields")
        reminder = disposal_of(self.read, load_chemicals(self.studio_folder), held)
        self.call_after_refresh(working.show, [Said(line) for line in reminder])

    def fill(self) -> Filled:
        """One table of the sheet."""
        filled = begin(self)
        for kind, name in KINDS.items():
            codes = [one.body.code for one in self._held if one.kind == kind]
            filled.put("", codes, "retire", 0, name)
        for key in ("on", "why", "disposed"):
            filled.put(key, self.value(key), "retire", 0, key)
        return filled
