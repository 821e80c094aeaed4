"""Tables of what is called by a code: negatives, editions, papers, process sheets."""

from collections.abc import Mapping
from typing import Any, Generic, TypeVar

from msgspec.structs import replace

from provenance.errors import NotFound, Problem
from provenance.model.body import Body
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.process import ProcessSheet
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.references import resolve_as, resolve_print
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.form import Form
from provenance.studio.tables.row import Other, Row, Took, differing, on_record_otherwise

B = TypeVar("B", bound=Body)

_FORMS: dict[type[Body], Form] = {
    kind: Form(kind) for kind in (Negative, Edition, Paper, ProcessSheet)
}
NEGATIVES = _FORMS[Negative].fields(
    ("code", "title"), code="name negative", format="size", made="date taken"
)
EDITIONS = _FORMS[Edition].fields(
    ("code", "negative", "name", "promise"),
    negative="",
    bon_a_tirer="",
    code="edition",
    name="title",
    image="image_size",
    sheet="sheet_size",
    disclosed="other_editions",
)
PAPERS = _FORMS[Paper].fields(
    ("code", "base"), code="name paper", sheet="size format", bought="bought_on"
)
PROCESSES = _FORMS[ProcessSheet].fields(("code", "name", "base", "steps"), code="process")


class Coded(Entering, Generic[B]):
    """Enters records of one kind."""

    def __init__(self, act: Act, kind: type[B], source: Source) -> None:
        self._act = act
        self._kind = kind
        self._rest = {"source": source} if "source" in kind.__struct_fields__ else {}

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        given = _FORMS[self._kind].given(row) | self._links(row)
        held = self._act.by_code(self._kind, row.needed("code"))
        if held is None:
            self._act.enter(self._kind(**(self._rest | given)))
            return "entered"
        return self._on_record(row, held, given, differing(given, held.body))

    def _links(self, row: Row) -> dict[str, Any]:
        """The records that the row refers to, by the fields that hold them."""
        return {}

    def _on_record(
        self, row: Row, held: Stored[B], given: Mapping[str, Any], others: list[Other]
    ) -> Took:
        """What a row does whose record is there already.  Raises Refused."""
        if others:
            raise on_record_otherwise(self._act, row, row.get("code"), held.id, others)
        return "on record already"


class Editions(Coded[Edition]):
    """Enters editions; which print is the bon à tirer is added once the print is on record."""

    def __init__(self, act: Act, source: Source) -> None:
        super().__init__(act, Edition, source)

    def _links(self, row: Row) -> dict[str, Any]:
        found = {"negative": row.read("negative", self._negative)}
        if row.get("bon_a_tirer"):
            print_ = self._print(row)
            if print_ is not None:
                found["bon_a_tirer"] = print_
        return found

    def _negative(self, text: str) -> int:
        return resolve_as(self._act, Negative, text).id

    def _print(self, row: Row) -> int | None:
        """The bon à tirer; None, with a warning, before it is on record."""
        try:
            return resolve_print(self._act, row.get("bon_a_tirer")).id
        except NotFound:
            self._act.warnings.append(
                Problem(
                    f"{row.get('bon_a_tirer')} is not on record yet",
                    row.needed("code"),
                    "bon_a_tirer",
                    "bring in the prints, then this table again",
                )
            )
            return None

    def _on_record(
        self, row: Row, held: Stored[Edition], given: Mapping[str, Any], others: list[Other]
    ) -> Took:
        new = [one.field for one in others] == ["bon_a_tirer"] and not others[0].stands
        if not new:
            return super()._on_record(row, held, given, others)
        chosen = replace(held.body, bon_a_tirer=given["bon_a_tirer"])
        self._act.change(held.id, held.version, chosen)
        return "added to"
