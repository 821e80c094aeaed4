"""A table of prints: a sheet a row, each with the printing that it came from."""

from dataclasses import dataclass
from typing import Any

from provenance.errors import Problem, Refused
from provenance.model.designation import parse_designation
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print, Signature
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.notebook import Rows
from provenance.studio.references import resolve_print
from provenance.studio.tables.entering import Entering
from provenance.studio.tables.form import Form
from provenance.studio.tables.mapping import Mapped
from provenance.studio.tables.named import Named
from provenance.studio.tables.row import Other, Row, Took, cell_at, differing, on_record_otherwise
from provenance.studio.tables.sessions import Sessions
from provenance.studio.tables.sheets import Sheets
from provenance.studio.tables.spoilt import is_a_date, not_a_number

_FORM = Form(Print, apart=("mark", "designation"), given=("image", "sheet"))
FIELDS = _FORM.fields(
    ("edition", "printed_on"),
    edition="",
    mark="pencil_mark",
    designation="number",
    printed_on="date printed",
    paper="",
    printer="",
    printing_place="",
    image="image_size",
    sheet="sheet_size",
    signed="signed_on",
    medium="",
    where="",
    inscriptions="inscription",
    replaces="",
    id="",
    replaces_id="",
)


_OWN = frozenset({"mark", "designation", "id", "replaces", "replaces_id"})
"""What each sheet of a printing has for itself."""
_SIGNED = ("signed", "medium", "where")
"""What a table says of the artist's signature, a column each."""
_GONE = ("gone_on", "gone_why", "gone_evidence")
_MOST_SHARED = 4096


@dataclass
class _Shared:
    """What rows say that differ in their own fields alone."""

    edition: Stored[Edition]
    given: dict[str, Any]
    fields: dict[str, Any]
    """What is given, with what follows where nothing is."""
    source: Source
    printed_on: str
    paper: Stored[Paper] | None
    printing: int | None = None


class Prints(Entering):
    """Enters prints."""

    def __init__(self, act: Act, source: Source) -> None:
        self._act = act
        self._source = source
        self._named = Named(act)
        self._sheets = Sheets(act)
        self._sessions = Sessions(act)
        self._shared: dict[tuple[tuple[str, str], ...], _Shared] = {}
        self._rows: dict[str, int] = {}
        """The prints of the rows so far, by the ids that the table gives them."""

    def arrange(self, rows: Rows, mapped: Mapped) -> Rows:
        """The rows, each that replaces another behind it, where the table gives ids."""
        own, former = mapped.place("id"), mapped.place("replaces_id")
        if own is None or former is None:
            return rows
        arranged: Rows = []
        there = {""}
        waiting: dict[str, Rows] = {}
        for row in rows:
            if cell_at(row[1], former) not in there:
                waiting.setdefault(cell_at(row[1], former), []).append(row)
                continue
            ready = [row]
            while ready:
                arranged.append(next_ := ready.pop(0))
                there.add(cell_at(next_[1], own))
                ready = waiting.pop(cell_at(next_[1], own), []) + ready
        return arranged + [row for group in waiting.values() for row in group]

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        shared = self._shared_by(row)
        own = self._own(row, shared)
        edition, mark = shared.edition, own["mark"]
        held = self._sheets.find(edition.id, mark, own.get("designation", ""))
        if held is not None:
            self._same(row, f"{edition.body.code} {mark}", shared, own, held)
            self._rows[row.get("id")] = held
            return "on record already"
        if shared.printing is None:
            shared.printing = self._sessions.printing(
                row,
                edition.body.negative,
                shared.printed_on,
                shared.paper.id if shared.paper else None,
                shared.source,
            )
        made = self._act.enter(
            Print(edition=edition.id, printing=shared.printing, **shared.fields, **own)
        )
        self._sheets.add(edition.id, mark, made)
        self._rows[row.get("id")] = made
        return "entered"

    def _shared_by(self, row: Row) -> _Shared:
        """What the row says apart from its own fields; sheets of one printing say the same."""
        said = tuple([item for item in row.texts.items() if item[0] not in _OWN])
        if said not in self._shared:
            if len(self._shared) >= _MOST_SHARED:
                self._shared.clear()
            self._shared[said] = self._read(row)
        return self._shared[said]

    def _read(self, row: Row) -> _Shared:
        edition = self._named.record(row, "edition", Edition)
        given = _FORM.given(row)
        source = given.pop("source", self._source)
        if (signature := self._signature(row)) is not None:
            given["signature"] = signature
        _gone_as_told(row)
        sizes = {"image": edition.body.image, "sheet": edition.body.sheet}
        return _Shared(
            edition=edition,
            given=given,
            fields=sizes | given | {"source": source},
            source=source,
            printed_on=row.date("printed_on"),
            paper=self._named.record(row, "paper", Paper) if row.get("paper") else None,
        )

    def _own(self, row: Row, shared: _Shared) -> dict[str, Any]:
        """Mark, number and what the sheet replaces."""
        own: dict[str, Any] = {}
        if row.get("designation"):
            edition = shared.edition.body
            own["designation"] = row.read("designation", lambda text: _numbered(text, edition))
        # the mark of a sheet that was gone before the records began may not be known
        opening = shared.given.get("opening", False)
        own["mark"] = row.get("mark") or ("" if opening else own.get("designation", ""))
        if row.get("replaces") or row.get("replaces_id"):
            own["replaces"] = self._former(row)
        return own

    def _former(self, row: Row) -> int:
        """The print that the row's one replaces."""
        elsewhere = row.get("replaces_id")
        if elsewhere and elsewhere in self._rows:
            return self._rows[elsewhere]
        if elsewhere and row.get("replaces").startswith("#"):
            raise Refused(
                Problem(
                    "the print is named by the id that it had elsewhere, and is not in the table",
                    field="replaces",
                    mend="name it by its edition and mark",
                )
            )
        return row.read("replaces", lambda text: resolve_print(self._act, text).id)

    def _signature(self, row: Row) -> Signature | None:
        """What the columns of a signature say; None where all are empty.  Raises Refused."""
        told = [field for field in _SIGNED if row.get(field)]
        if not told:
            return None
        if row.get("signature"):
            raise Refused(
                Problem("is said twice", field=told[0], mend="leave it out, or the signature")
            )
        if "signed" not in told:
            mend = "fill in signed: a year will do, or 1998~ or 1998/2001 where no more is known"
            what = "is filled in, and nothing says when it was signed"
            raise Refused(Problem(what, field=told[0], mend=mend))
        return Signature(
            on=row.date("signed"),
            medium=row.get("medium"),
            where=row.get("where"),
            source=self._source,
        )

    def _same(self, row: Row, name: str, shared: _Shared, own: dict[str, Any], record: int) -> None:
        """Raise Refused where the row says more or else than the print that is on record."""
        held = self._act.get(Print, record).body
        printing = self._act.get(Printing, held.printing)
        # the mark is what it was found by; how it was signed may stand in columns of its own
        said = shared.given | {field: one for field, one in own.items() if field != "mark"}
        if not row.get("signature"):
            said.pop("signature", None)
        if row.get("source"):
            said["source"] = shared.source
        others = [
            *differing(said, held),
            *_signed_otherwise(row, held),
            *self._sessions.differing(row, printing, shared.paper),
        ]
        if others:
            raise on_record_otherwise(self._act, row, name, record, others)


def _signed_otherwise(row: Row, held: Print) -> list[Other]:
    """The columns of a signature that say otherwise than the one on record."""
    stands = held.signature or Signature(on="")
    return [
        Other(field, there, row.get(field))
        for field, there in zip(_SIGNED, (stands.on, stands.medium, stands.where), strict=True)
        if row.get(field) and row.get(field) != there
    ]


def _gone_as_told(row: Row) -> None:
    """Refuse a print that is said to be gone, and is not said to be spoiled, lost or destroyed."""
    existence = row.get("existence").lower()
    # tables exported by earlier versions have the evidence of a loss beside a print found again
    gone = _GONE if not existence else _GONE[:2] if existence == "exists" else ()
    for field in gone:
        if row.get(field):
            raise Refused(
                Problem(
                    f"says {existence or 'nothing'}, and {field} is filled in",
                    field="existence",
                    mend="write spoiled, destroyed or lost, or empty what says that it is gone",
                )
            )


def _numbered(text: str, edition: Edition) -> str:
    """A number as it is kept: how many there are is taken from the edition."""
    if is_a_date(text):
        raise not_a_number(text)
    given = parse_designation(text, bare_number=True)
    total = edition.maximum(given.series) if given.number is not None else None
    if given.total or not total:
        return str(given)
    return str(type(given)(series=given.series, number=given.number, total=total))
