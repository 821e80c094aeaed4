"""A table of prints: a sheet a row, each with the printing that it came from."""

import json
from typing import Any

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.designation import parse_designation
from provenance.model.edition import Edition
from provenance.model.evidence import Source
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Existence, Print, Signature
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.studio.references import resolve_as
from provenance.studio.tables.mapping import Fields
from provenance.studio.tables.row import Row, differing, on_record_otherwise

_SIDES = ("height_tenth_mm", "width_tenth_mm")
FIELDS = Fields(
    alike={
        "edition": "",
        "mark": "pencil_mark",
        "designation": "number",
        "printed_on": "date printed",
        "paper": "",
        "printer": "",
        "image": "image_size",
        "sheet": "sheet_size",
        **{f"{name}_{side}": "" for name in ("image", "sheet") for side in _SIDES},
        "signed": "signed_on",
        "medium": "",
        "where": "",
        "signature": "",
        "inscriptions": "inscription",
        "features": "",
        "existence": "",
        "gone_on": "",
        "gone_why": "",
        "source": "",
    },
    needed=("edition", "printed_on"),
)
_TEXTS = ("inscriptions", "features", "gone_on", "gone_why")
_Of = tuple[int, str, int | None, str]
"""What tells one printing from another here: negative, date, paper, printer."""


class Prints:
    """Enters prints; one that is on record already, and the same, is passed over."""

    def __init__(self, act: Act, source: Source) -> None:
        self._act = act
        self._source = source
        self._editions: dict[str, Stored[Edition]] = {}
        self._papers: dict[str, int] = {}
        self._printings: dict[_Of, int] = {}

    def take(self, row: Row) -> bool:
        """Enter one row; whether it was new.  Raises Refused."""
        edition = self._edition(row)
        source = row.choice("source", Source) if row.get("source") else self._source
        given = self._given(row, edition.body)
        negative, printed_on = edition.body.negative, row.date("printed_on")
        paper, printer = self._paper(row), row.get("printer")
        held = self._held(edition.id, str(given["mark"]))
        if held is not None:
            self._same(row, f"{edition.body.code} {held.mark}", given, held, printed_on, paper)
            return False
        of = (negative, printed_on, paper, printer)
        if of not in self._printings:
            self._printings[of] = self._on_record(of) or self._act.enter(
                Printing(
                    negative=negative,
                    done_on=printed_on,
                    paper=paper,
                    printer=printer,
                    source=source,
                )
            )
        sizes = {"image": edition.body.image, "sheet": edition.body.sheet}
        fields: dict[str, Any] = {**sizes, **given, "source": source}
        self._act.enter(Print(edition=edition.id, printing=self._printings[of], **fields))
        return True

    def _given(self, row: Row, edition: Edition) -> dict[str, object]:
        """The fields of a print that the row gives."""
        given: dict[str, object] = {name: row.get(name) for name in _TEXTS if row.get(name)}
        given |= {name: size for name in ("image", "sheet") if (size := row.size(name))}
        if row.get("designation"):
            given["designation"] = row.read("designation", lambda text: _numbered(text, edition))
        given["mark"] = row.get("mark") or given.get("designation", "")
        if row.get("existence"):
            given["existence"] = row.choice("existence", Existence)
        if row.get("signature"):
            given["signature"] = row.read("signature", _signature)
        elif row.get("signed"):
            given["signature"] = Signature(
                on=row.date("signed"),
                medium=row.get("medium"),
                where=row.get("where"),
                source=self._source,
            )
        return given

    def _edition(self, row: Row) -> Stored[Edition]:
        code = row.needed("edition")
        if code not in self._editions:
            self._editions[code] = row.read(
                "edition", lambda text: resolve_as(self._act, Edition, text)
            )
        return self._editions[code]

    def _paper(self, row: Row) -> int | None:
        code = row.get("paper")
        if code and code not in self._papers:
            self._papers[code] = row.read(
                "paper", lambda text: resolve_as(self._act, Paper, text).id
            )
        return self._papers[code] if code else None

    def _held(self, edition: int, mark: str) -> Print | None:
        found = self._act.connection.execute(
            "SELECT id FROM print_key WHERE edition = ? AND mark = ?", (edition, mark)
        ).fetchone()
        return self._act.get(Print, found[0]).body if found else None

    def _on_record(self, of: _Of) -> int | None:
        """A printing that says no more than these rows do, from an earlier import."""
        negative, printed_on, paper, printer = of
        for held in self._act.linked(negative, Printing, "negative"):
            body = held.body
            if (body.done_on, body.paper, body.printer) == (printed_on, paper, printer) and not (
                body.exposure or body.process or body.note
            ):
                return held.id
        return None

    def _same(
        self,
        row: Row,
        name: str,
        given: dict[str, object],
        held: Print,
        printed_on: str,
        paper: int | None,
    ) -> None:
        printing = self._act.get(Printing, held.printing).body
        other = differing({key: one for key, one in given.items() if key != "mark"}, held)
        if printing.done_on != printed_on:
            other.append("printed_on")
        if paper is not None and printing.paper != paper:
            other.append("paper")
        if other:
            raise on_record_otherwise(name, other)


def _numbered(text: str, edition: Edition) -> str:
    """A number as it is kept: how many there are is taken from the edition."""
    given = parse_designation(text, bare_number=True)
    total = edition.maximum(given.series) if given.number is not None else None
    return str(type(given)(series=given.series, number=given.number, total=given.total or total))


def _signature(text: str) -> Signature:
    try:
        return msgspec.convert(json.loads(text, object_pairs_hook=_once), Signature)
    except (msgspec.MsgspecError, ValueError, RecursionError) as error:
        raise Refused(Problem(f"is not a signature as the export writes it: {error}")) from error


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """An object whose names are each there once: of two, readers take different ones."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a name stands there twice")
    return found
