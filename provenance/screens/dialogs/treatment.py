"""What sheets that exist already went through."""

from collections.abc import Iterable, Sequence

from provenance.screens.dialogs.pieces import (
    begin,
    count_of,
    date_field,
    print_names,
    prints_field,
    source_field,
)
from provenance.screens.dialogs.run import RunForm
from provenance.screens.widgets.fields import Row
from provenance.studio.daysheet.filled import Filled
from provenance.studio.last_time import LastTime


class NewTreatment(RunForm):
    """Steps and tests of prints that are on record."""

    KIND = "treatment"
    TITLE = "Treatment"
    AUTO_FOCUS = "#field-process Input"

    def __init__(self, prints: Sequence[int]) -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """The prints, the day, and what was done."""
        yield Row(prints_field(self, self._prints))
        yield from self.run_rows(LastTime(), date_field(self), source_field())
        yield from self.bath_rows(LastTime())

    def fill(self) -> Filled:
        """One treatment."""
        filled = begin(self)
        names = print_names(self)
        filled.put("prints", names, "treatment", 0, "sheets")
        self.put_run(filled, names, "treatment", 0)
        return filled
