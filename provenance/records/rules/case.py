"""What a rule is given to decide on."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Generic, TypeVar

from provenance.errors import Problem
from provenance.model.body import Body
from provenance.model.dates import earliest, latest, parse_edtf
from provenance.model.edition import Edition
from provenance.model.prints import Print

if TYPE_CHECKING:
    from provenance.records.act import Act
    from provenance.records.entry import Verb

B = TypeVar("B", bound=Body, covariant=True)


@dataclass(frozen=True)
class Case(Generic[B]):
    """One body at the door: `before` is the version it replaces, if any."""

    act: "Act"
    verb: "Verb"
    record: int | None
    body: B
    before: B | None

    @property
    def today(self) -> date:
        """The date in the studio."""
        return self.act.moment.local_date()

    def problem(self, what: str, field: str = "", mend: str = "") -> Problem:
        """A problem of this body, named as a person knows it."""
        return Problem(what, label(self.act, self.record, self.body), field, mend)

    def edtf(self, field: str, text: str | None, *, ahead: bool = False) -> Iterator[Problem]:
        """Problems of an EDTF date: not a date, or (unless `ahead`) still to come."""
        if text is None:
            return
        try:
            parse_edtf(text)
        except Exception as error:
            problems = getattr(error, "problems", None)
            if problems is None:
                raise
            yield self.problem(problems[0].what, field, problems[0].mend)
            return
        if not ahead and earliest(text) > self.today:
            yield self.problem(
                f"{text} is still to come (today is {self.today})", field, "check the date"
            )


def in_order(
    case: Case[Body], first: str, earlier: str | None, second: str, later: str | None
) -> Iterator[Problem]:
    """Problems of two dates of which one follows the other; either may be missing."""
    dated = [*case.edtf(first, earlier), *case.edtf(second, later)]
    yield from dated
    if not dated and earlier is not None and later is not None and before(later, earlier):
        yield case.problem(f"{later} lies before {earlier}", second, "check both dates")


def label(act: "Act", record: int | None, body: Body) -> str:
    """How a person names the record that `body` belongs to."""
    if isinstance(body, Print):
        edition = act.find(body.edition)
        code = edition.body.code if edition and isinstance(edition.body, Edition) else ""
        return f"{code} {body.designation or body.mark}".strip()
    code = getattr(body, "code", "") or getattr(body, "number", "")
    name = str(code) or (f"#{record}" if record else "")
    return f"{body.KIND} {name}".strip()


def before(first: str, second: str) -> bool:
    """Whether `first` (EDTF) certainly lies before `second`."""
    return latest(first) < earliest(second)
