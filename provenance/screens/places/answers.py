"""Which form answers what for a number of prints."""

from collections.abc import Callable, Sequence

from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.reader import Reader
from provenance.screens.dialogs.custody import RecordCustody
from provenance.screens.dialogs.finish import FinishPrints
from provenance.screens.dialogs.gone import RecordGone
from provenance.screens.dialogs.number import NumberPrints
from provenance.screens.dialogs.release import ReleasePrints
from provenance.screens.dialogs.scan import AddScan
from provenance.screens.dialogs.sign import SignPrints
from provenance.screens.dialogs.test import MarkedTest
from provenance.screens.dialogs.treatment import NewTreatment
from provenance.screens.widgets.form import Form

Prints = Sequence[int]


def _number(reader: Reader, prints: Prints) -> Form:
    edition = reader.get(Print, prints[0]).body.edition
    return NumberPrints(reader.get(Edition, edition).body.code, prints)


ANSWERS: dict[str, Callable[[Reader, Prints], Form]] = {
    "treat": lambda _reader, prints: NewTreatment(prints),
    "test": lambda _reader, prints: MarkedTest(prints),
    "silver": lambda _reader, prints: MarkedTest(prints, "silver"),
    "thiosulfate": lambda _reader, prints: MarkedTest(prints, "thiosulfate"),
    "finish": lambda _reader, prints: FinishPrints(prints),
    "number": _number,
    "sign": lambda _reader, prints: SignPrints(prints),
    "signature": lambda _reader, prints: SignPrints(prints),
    "scan": lambda _reader, prints: AddScan(prints[0]),
    "gone": lambda _reader, prints: RecordGone(prints[0]),
    "custody": lambda _reader, prints: RecordCustody(prints),
    "release": lambda _reader, prints: ReleasePrints(prints),
}
"""What can be answered, for the prints in the order given; a scan or loss is of one print."""


def form_for(reader: Reader, what: str, prints: Prints) -> Form:
    """The form that answers `what` for `prints`."""
    return ANSWERS[what](reader, prints)
