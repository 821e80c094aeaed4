"""A batch of paper."""

from collections.abc import Iterable

from provenance.model.dates import parse_edtf
from provenance.screens.dialogs.pieces import begin, put_all, size_field
from provenance.screens.widgets.fields import ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled

_PAPER = (
    "code", "base", "weight", "surface", "tone", "contrast", "maker", "batch", "sheet", "bought"
)  # fmt: skip


class NewPaper(Form):
    """What the box says, and when it was bought."""

    KIND = "new-paper"
    TITLE = "New paper"

    def rows(self) -> Iterable[Row]:
        """What it is called and made of, then its surface, then the box."""
        yield Row(
            TextField("code", "Code", hint="short, as FB-8841"),
            ChoiceField("base", "Base", ("fibre", "resin-coated"), value="fibre"),
            TextField("weight", "Weight", hint="double weight"),
        )
        yield Row(
            TextField("surface", "Surface", hint="gloss"),
            TextField("tone", "Tone", hint="neutral"),
            TextField("contrast", "Contrast", hint="variable, or a grade"),
        )
        yield Row(TextField("maker", "Maker and name"), TextField("batch", "Batch"))
        yield Row(
            size_field(self.host.settings, "sheet", "Sheet"),
            TextField("bought", "Bought", hint="2026-02", check=parse_edtf),
        )

    def fill(self) -> Filled:
        """One paper."""
        filled = begin(self)
        put_all(self, filled, {key: key for key in _PAPER}, "paper", 0)
        return filled
