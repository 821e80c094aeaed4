"""Prints that leave the studio."""

from collections.abc import Iterable, Sequence

from provenance.screens.dialogs.pieces import (
    begin,
    count_of,
    date_field,
    print_names,
    prints_field,
    source_field,
)
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled


class ReleasePrints(Form):
    """When they left, and to whom: the name goes into the contact book, not the journal."""

    KIND = "release"
    TITLE = "Release"
    AUTO_FOCUS = "#field-date Input"

    def __init__(self, prints: Sequence[int]) -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """The prints, the day and the person."""
        yield Row(prints_field(self, self._prints))
        yield Row(date_field(self, "Left on"), source_field())
        yield Row(
            TextField("to", "To whom", hint="kept in the contact book, where it can be erased")
        )

    def fill(self) -> Filled:
        """One release."""
        filled = begin(self)
        filled.put("prints", print_names(self), "release", 0, "prints")
        filled.put("date", self.value("date"), "release", 0, "on")
        filled.put("to", self.value("to"), "release", 0, "to")
        return filled
