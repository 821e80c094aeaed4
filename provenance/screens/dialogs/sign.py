"""A signature on one or more prints."""

from collections.abc import Iterable, Sequence

from provenance.model.prints import Signature
from provenance.screens.dialogs.pieces import (
    begin,
    count_of,
    date_field,
    print_names,
    prints_field,
    put_all,
    source_field,
)
from provenance.screens.widgets.fields import ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled
from provenance.studio.last_time import last_signature


class SignPrints(Form):
    """Who signed, with what, where on the sheet and when."""

    KIND = "sign"
    TITLE = "Signature"
    AUTO_FOCUS = "#field-medium Input"

    def __init__(self, prints: Sequence[int]) -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """As the last print was signed, unless said otherwise."""
        last = last_signature(self.read) or Signature(on=self.today)
        yield Row(prints_field(self, self._prints))
        yield Row(
            TextField("medium", "With what", value=last.medium, hint="pencil"),
            TextField("where", "Where", value=last.where, hint="on the back", width=2),
        )
        yield Row(
            ChoiceField("by", "By", ("artist", "other"), value=last.by),
            ChoiceField("means", "Means", ("hand", "stamp", "facsimile"), value=last.means),
        )
        yield Row(date_field(self, "Signed on"), source_field())

    def fill(self) -> Filled:
        """One signature."""
        filled = begin(self)
        filled.put("prints", print_names(self), "sign", 0, "prints")
        keys = {key: key for key in ("medium", "where", "by", "means")}
        put_all(self, filled, keys | {"date": "on"}, "sign", 0)
        return filled
