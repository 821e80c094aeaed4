"""A new edition, from a negative that is on record or is entered with it."""

from collections.abc import Iterable

from provenance.craft.units import parse_size
from provenance.model.dates import parse_edtf
from provenance.model.negative import Negative
from provenance.screens.dialogs.pieces import begin, put_all, size_field
from provenance.screens.widgets.fields import Field, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled, read_count
from provenance.studio.last_time import last_edition

_COUNTS = {
    "numbered": "Numbered",
    "artist_proofs": "AP",
    "printers_proofs": "PP",
    "hors_commerce": "HC",
    "unnumbered": "Unnumbered",
}
_NEGATIVE = {"title": "title", "made": "made", "format": "format"}
_EDITION = {
    "code": "code",
    "negative": "negative",
    "name": "name",
    "promise": "promise",
    "image": "image",
    "sheet": "sheet",
    "opened": "opened",
}


class NewEdition(Form):
    """The promise of an edition: what it is of, how many, in which size."""

    KIND = "new-edition"
    TITLE = "New edition"

    def __init__(self, negative: str = "") -> None:
        super().__init__(about=negative)
        self._negative = negative

    def rows(self) -> Iterable[Row]:
        """The negative above, the edition and its promise below."""
        settings, last = self.host.settings, last_edition(self.read)
        yield Row(
            TextField("negative", "Negative", value=self._negative, hint="its code"),
            TextField("title", "Title of the image", width=2),
            TextField("made", "Made", hint="1998-03, 1998~", check=parse_edtf),
            TextField("format", "Format, mm", hint="69 x 56", check=parse_size, unit="mm"),
        )
        yield Row(
            TextField("code", "Edition", hint="its code: QUAY"),
            TextField("name", "Its name", width=2),
            TextField("opened", "Opened", value=self.today, check=parse_edtf),
        )
        yield Row(TextField("promise", "Promise, word for word", hint="as buyers are told it"))
        yield Row(
            *(TextField(key, label, check=read_count) for key, label in _COUNTS.items()),
        )
        yield Row(
            size_field(settings, "image", "Image", value=last.image if last else None),
            size_field(settings, "sheet", "Sheet", value=last.sheet if last else None),
        )

    def opened(self) -> None:
        """A negative that was given is looked up at once."""
        self.left(self.fields["negative"])

    def left(self, field: Field) -> None:
        """A negative on record needs no title; the edition is called after the image."""
        if field.key == "negative":
            known = self._known()
            field.advise("on record" if known else "its code")
            self.fields["title"].advise(known.title if known else "")
            if known:
                self.fields["name"].propose(known.title)
        elif field.key == "title" and field.value:
            self.fields["name"].propose(field.value)

    def _known(self) -> Negative | None:
        stored = self.read.by_code(Negative, self.value("negative"))
        return stored.body if stored else None

    def fill(self) -> Filled:
        """A negative, unless it is on record, and an edition."""
        filled = begin(self)
        if self._known() is None or any(self.value(key) for key in _NEGATIVE):
            filled.put("negative", self.value("negative"), "negative", 0, "code")
            put_all(self, filled, _NEGATIVE, "negative", 0)
        for key in _COUNTS:
            count = self.value(key)
            filled.put(key, read_count(count) if count else None, "edition", 0, key)
        put_all(self, filled, _EDITION, "edition", 0)
        return filled
