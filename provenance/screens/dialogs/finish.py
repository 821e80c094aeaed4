"""What was done after the last wash: drying, spotting, mount, what stands on the sheet."""

from collections.abc import Iterable, Sequence
from typing import get_args

from provenance.model.finish import Drying, Finish, Flattening, Spotting
from provenance.screens.dialogs.pieces import (
    begin,
    count_of,
    date_field,
    print_names,
    prints_field,
    put_all,
    source_field,
)
from provenance.screens.widgets.fields import YES_OR_NO, ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled
from provenance.studio.last_time import last_finish

NONE = "none"
"""Typed where it was looked at and there is none; an empty field was not recorded."""
_CHOSEN = ("drying", "flattening", "spotting")
_TYPED = {
    "mount": ("Mounted on", "none, or a board"),
    "adhesive": ("Held by", "none, or corners"),
    "coating": ("Coated with", "none, or wax"),
    "enclosure": ("Kept in", "none, or a folder"),
}


class FinishPrints(Form):
    """As the last prints were finished; only what differs is typed."""

    KIND = "finish"
    TITLE = "After the wash"
    AUTO_FOCUS = "#field-drying Options"

    def __init__(self, prints: Sequence[int]) -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """Choices first, in the order of the work."""
        last = last_finish(self.read) or Finish(prints=(), done_on=self.today)
        trimmed = "" if last.trimmed is None else YES_OR_NO[not last.trimmed]
        yield Row(prints_field(self, self._prints))
        yield Row(
            ChoiceField("drying", "Dried", get_args(Drying), value=last.drying or ""),
            ChoiceField(
                "flattening", "Flattened", get_args(Flattening), value=last.flattening or ""
            ),
        )
        yield Row(
            ChoiceField("spotting", "Spotted with", get_args(Spotting), value=last.spotting or ""),
            ChoiceField("trimmed", "Trimmed", YES_OR_NO, value=trimmed),
        )
        yield Row(*(self._typed(key, getattr(last, key)) for key in _TYPED))
        yield Row(
            TextField("inscription", "Written on it", hint="no dedications"),
            TextField("medium", "With what", hint="pencil"),
            TextField("where", "Where", hint="verso, lower left"),
        )
        yield Row(TextField("condition", "Condition, as finished", hint="flat and clean"))
        yield Row(date_field(self, "Finished on"), source_field())

    def _typed(self, key: str, value: str | None) -> TextField:
        label, hint = _TYPED[key]
        return TextField(key, label, value=NONE if value == "" else value or "", hint=hint)

    def fill(self) -> Filled:
        """One finish of prints that exist."""
        filled = begin(self)
        filled.put("prints", print_names(self), "finish", 0, "prints")
        put_all(self, filled, {key: key for key in _CHOSEN} | {"date": "on"}, "finish", 0)
        if trimmed := self.value("trimmed"):
            filled.put("trimmed", trimmed == YES_OR_NO[0], "finish", 0, "trimmed")
        for key in _TYPED:
            if value := self.value(key):
                said = "" if value == NONE else value
                filled.put(key, said, "finish", 0, key, empty=True)
        written = {"inscription": "text", "medium": "medium", "where": "where"}
        if any(self.value(key) for key in written):
            put_all(self, filled, written, "finish", 0, "inscription", 0)
        filled.put("condition", self.value("condition"), "finish", 0, "condition")
        return filled
