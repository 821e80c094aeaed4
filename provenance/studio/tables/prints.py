"""A table of prints: a sheet a row, each with the printing that it came from."""

from typing import Any

from provenance.errors import Problem, Refused
from provenance.model.designation import parse_designation
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print, Signature
from provenance.records.act import Act
from provenance.studio.references import resolve_print
from provenance.studio.tables.form import Form
from provenance.studio.tables.mapping import Mapped, Table
from provenance.studio.tables.named import Named
from provenance.studio.tables.row import Row, Took, differing, on_record_otherwise
from provenance.studio.tables.sessions import Sessions
from provenance.studio.tables.sheets import Sheets

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


class Prints:
    """Enters prints; one that is on record already, and the same, is passed over."""

    def __init__(self, act: Act, source: Source) -> None:
        self._act = act
        self._source = source
        self._named = Named(act)
        self._sheets = Sheets(act)
        self._sessions = Sessions(act)
        self._rows: dict[str, int] = {}
        """The prints of the rows so far, by the ids that the table gives them."""

    def arrange(self, rows: Table, mapped: Mapped) -> Table:
        """The rows, each that replaces another behind it, where the table gives ids."""
        own, former = mapped.place("id"), mapped.place("replaces_id")
        if own is None or former is None:
            return rows
        arranged: Table = []
        there = {""}
        waiting: dict[str, Table] = {}
        for row in rows:
            if _cell(row, former) not in there:
                waiting.setdefault(_cell(row, former), []).append(row)
                continue
            ready = [row]
            while ready:
                arranged.append(next_ := ready.pop(0))
                there.add(_cell(next_, own))
                ready = waiting.pop(_cell(next_, own), []) + ready
        return arranged + [row for group in waiting.values() for row in group]

    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""
        edition = self._named.record(row, "edition", Edition)
        given = self._given(row, edition.body)
        source = given.pop("source", self._source)
        printed_on = row.date("printed_on")
        paper = self._named.id(row, "paper", Paper) if row.get("paper") else None
        mark, designation = given["mark"], given.get("designation")
        held = self._sheets.find(edition.id, mark, designation or "")
        if held is not None:
            self._same(row, f"{edition.body.code} {mark}", given, held, printed_on, paper)
            self._rows[row.get("id")] = held
            return "on record already"
        printing = self._sessions.printing(row, edition.body.negative, printed_on, paper, source)
        sizes = {"image": edition.body.image, "sheet": edition.body.sheet}
        fields: dict[str, Any] = {**sizes, **given, "source": source}
        made = self._act.enter(Print(edition=edition.id, printing=printing, **fields))
        self._sheets.add(edition.id, mark, made)
        self._rows[row.get("id")] = made
        return "entered"

    def _given(self, row: Row, edition: Edition) -> dict[str, Any]:
        """The fields of a print that the row gives."""
        given = _FORM.given(row)
        if row.get("designation"):
            given["designation"] = row.read("designation", lambda text: _numbered(text, edition))
        # the mark of a sheet that was gone before the records began may not be known
        opening = given.get("opening", False)
        given["mark"] = row.get("mark") or ("" if opening else given.get("designation", ""))
        if row.get("replaces") or row.get("replaces_id"):
            given["replaces"] = self._former(row)
        if row.get("signed") and "signature" not in given:
            given["signature"] = Signature(
                on=row.date("signed"),
                medium=row.get("medium"),
                where=row.get("where"),
                source=self._source,
            )
        return given

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

    def _same(
        self,
        row: Row,
        name: str,
        given: dict[str, Any],
        record: int,
        printed_on: str,
        paper: int | None,
    ) -> None:
        held = self._act.get(Print, record).body
        printing = self._act.get(Printing, held.printing).body
        other = differing({key: one for key, one in given.items() if key != "mark"}, held)
        if printing.done_on != printed_on:
            other.append("printed_on")
        if paper is not None and printing.paper != paper:
            other.append("paper")
        if other:
            raise on_record_otherwise(name, other)


def _cell(row: tuple[int, list[str]], at: int) -> str:
    return row[1][at] if at < len(row[1]) else ""


def _numbered(text: str, edition: Edition) -> str:
    """A number as it is kept: how many there are is taken from the edition."""
    given = parse_designation(text, bare_number=True)
    total = edition.maximum(given.series) if given.number is not None else None
    return str(type(given)(series=given.series, number=given.number, total=given.total or total))
