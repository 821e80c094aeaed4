"""Which print is held against which; and what a person decides of it."""

from collections.abc import Iterable

from provenance.errors import Problem, Refused
from provenance.model.dates import parse_edtf
from provenance.records.act import Act
from provenance.screens.dialogs.answered import NOTHING
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded
from provenance.studio.references import resolve_print
from provenance.studio.reprinting.matching import compare_prints, decide


def print_called(form: Form, key: str) -> int:
    """The print that a field names.  Raises Refused, naming the field."""
    name = form.value(key)
    if not name:
        raise Refused(Problem("is missing", field=key, mend="as QUAY 7/25, or QUAY Q7"))
    try:
        return resolve_print(form.read, name).id
    except Refused as error:
        problem = error.problems[0]
        raise Refused(Problem(problem.what, field=key, mend=problem.mend)) from error


class HoldAgainst(Form):
    """Two prints of one negative, both of them read."""

    KIND = "match"
    TITLE = "Match"

    def __init__(self, new: str = "") -> None:
        super().__init__()
        self._new = new
        self.pair: tuple[int, int] | None = None

    def rows(self) -> Iterable[Row]:
        """The new one, and the one that it is to match."""
        yield Row(
            TextField("print", "The new print", value=self._new, hint="QUAY 7/25"),
            TextField("reference", "Its reference", hint="QUAY BAT"),
        )

    async def enter(self) -> Recorded:
        """Compare; nothing is written."""
        new, reference = print_called(self, "print"), print_called(self, "reference")
        compare_prints(self.read, new, reference, self.host.settings.tolerances)
        self.pair = (new, reference)
        return NOTHING


class Decide(Form):
    """Whether the print is accepted, whatever the readings say, and who says so."""

    KIND = "decide"
    TITLE = "Decide"
    AUTO_FOCUS = "#field-by Input"

    def __init__(self, new: int, reference: int, *, accepted: bool, differs: bool) -> None:
        about = "the print is accepted" if accepted else "the print is not accepted"
        super().__init__(about=about, concerns=(new, reference))
        self._pair, self._accepted, self._differs = (new, reference), accepted, differs

    def rows(self) -> Iterable[Row]:
        """When, who, why."""
        apart = self._accepted == self._differs
        yield Row(
            TextField("on", "Decided on", value=self.today, check=parse_edtf),
            TextField("by", "By", hint="the artist"),
            TextField("why", "Why", hint="the readings say otherwise" if apart else "", width=3),
        )

    async def enter(self) -> Recorded:
        """Put the readings' outcome and the decision on record."""
        by, why = self.value("by"), self.value("why")
        if not by:
            raise Refused(Problem("is missing", field="by", mend="a role or initials"))
        on = parse_edtf(self.value("on"), field="on").text
        pair, accepted, tolerance = self._pair, self._accepted, self.host.settings.tolerances

        def work(act: Act) -> Recorded:
            # once more, as the readings stand now
            matched = compare_prints(act, *pair, tolerance)
            decide(act, matched, accepted=accepted, by=by, on=on, why=why, source="notes")
            return Recorded(act.number, ("match",), 1, tuple(act.warnings))

        return await self.host.act(work)
