"""Numbers for prints, in an order that is chosen."""

from collections.abc import Iterable, Sequence

from provenance.errors import Refused
from provenance.model.designation import parse_designation
from provenance.model.edition import Edition
from provenance.screens.dialogs.pieces import begin, source_field
from provenance.screens.widgets.fields import Field, Row, TextField, names_in
from provenance.screens.widgets.form import Form
from provenance.screens.widgets.order import OrderField
from provenance.studio.calling import names_of
from provenance.studio.daysheet.filled import Filled
from provenance.studio.finishing import numbers_from
from provenance.studio.last_time import lowest_free
from provenance.studio.references import resolve_as


class NumberPrints(Form):
    """The first number, and the prints in the order in which they bear it and the next."""

    KIND = "number"
    TITLE = "Numbers"

    def __init__(self, edition: str, prints: Sequence[int]) -> None:
        super().__init__(about=edition, concerns=prints)
        self._code = edition
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """The lowest free number is proposed."""
        edition = self._edition = resolve_as(self.read, Edition, self._code)
        first = lowest_free(self.read, edition, len(self._prints))
        names = names_of(self.read, self._prints)
        yield Row(
            TextField(
                "first",
                "First number",
                value=str(first or ""),
                hint=f"7, AP 1, BAT; {edition.body.numbered} are declared",
                check=lambda text: parse_designation(text, bare_number=True),
            ),
            source_field(),
        )
        yield Row(OrderField("order", "Prints, in the order of their numbers", names))

    def opened(self) -> None:
        """Show at once which print gets which number."""
        self._number()

    def typed(self, field: Field) -> None:
        """Show which print gets which number."""
        self._number()

    def _number(self) -> None:
        order = self.query_one(OrderField)
        try:
            become = numbers_from(self._edition.body, self.value("first"), len(self._prints))
        except Refused:
            become = []  # what is wrong is said at the field once it is left
        order.show_becoming(become)

    def fill(self) -> Filled:
        """One run of numbers."""
        filled = begin(self)
        filled.put("", self._code, "number", 0, "edition")
        filled.put("first", self.value("first"), "number", 0, "first")
        filled.put("order", names_in(self.value("order")), "number", 0, "sheets")
        return filled
