"""A print that is no more."""

from collections.abc import Iterable

from provenance.screens.dialogs.pieces import begin, date_field, prints_field, source_field
from provenance.screens.widgets.fields import ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled


class RecordGone(Form):
    """How, when and why it is gone; its number stays taken."""

    KIND = "gone"
    TITLE = "Gone"
    AUTO_FOCUS = "#field-how Options"

    def __init__(self, print_: int) -> None:
        super().__init__(about="its number stays taken", concerns=(print_,))
        self._print = print_

    def rows(self) -> Iterable[Row]:
        """The print, and what became of it."""
        yield Row(prints_field(self, (self._print,)))
        yield Row(
            ChoiceField("how", "What became of it", ("spoiled", "destroyed", "lost")),
            date_field(self, "When"),
            source_field(),
        )
        yield Row(TextField("why", "Why", hint="creased at the corner while squeegeeing"))

    def fill(self) -> Filled:
        """The end of one print."""
        filled = begin(self)
        for key, name in {"prints": "print", "how": "how", "date": "on", "why": "why"}.items():
            filled.put(key, self.value(key), "gone", 0, name)
        return filled
