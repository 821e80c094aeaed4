"""The parts that are written alike into a bag and into a folder of exports."""

from collections.abc import Iterator

import msgspec

from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.prints import Print, Scan
from provenance.records.dossier import print_history
from provenance.records.exchange.bag import Into
from provenance.records.exchange.cells import table_lines
from provenance.records.forms import KINDS
from provenance.records.progress import Progress
from provenance.records.reader import Reader
from provenance.studio.browsing import as_data, plural
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.levels import Level
from provenance.studio.handover.linked_art import linked_art
from provenance.studio.handover.table_schema import FILE, table_schema
from provenance.studio.handover.tables import Scope, tables, wanted


def put_tables(into: Into, reader: Reader, level: Level, scope: Scope, below: str) -> None:
    """Every table as CSV, and what their columns are."""
    those = tables(level)
    for table in those:
        heads = [column.name for column in table.columns]
        into.add(f"{below}{table.name}.csv", table_lines(heads, table.rows(reader, level, scope)))
    into.add(f"{below}{FILE}", [_pretty(table_schema(those))])


def put_records(into: Into, reader: Reader) -> None:
    """Every record as JSON, a file for each kind, a line for each record."""
    for name, kind in KINDS.items():
        records = wanted(reader, kind, "archive", None)
        into.add(
            f"{plural(name)}.jsonl",
            (msgspec.json.encode(as_data(stored)) + b"\n" for stored in records),
        )


def put_linked_art(
    into: Into,
    reader: Reader,
    level: Level,
    scope: Scope,
    below: str,
    progress: Progress | None = None,
) -> None:
    """Each print as Linked Art, in a file by its id."""
    whole = sum(1 for _ in wanted(reader, Print, level, scope)) if progress else 0
    for done, stored in enumerate(wanted(reader, Print, level, scope), start=1):
        node = linked_art(print_history(reader, stored.id), level)
        into.add(f"{below}print-{stored.id}.json", [_pretty(node)])
        if progress:
            progress("prints", done, whole)


def put_pictures(
    into: Into, folder: StudioFolder, reader: Reader, level: Level, scope: Scope
) -> None:
    """The small pictures of the prints that are wanted, each once."""
    prints = {stored.id for stored in wanted(reader, Print, level, scope)}
    names = {
        f"{stored.body.thumbnail_sha256}.jpg"
        for stored in wanted(reader, Scan, level, scope)
        if stored.body.print in prints
    }
    for name in sorted(names):
        into.copy(f"images/{name}", folder.images / name)


def put_certificates(into: Into, folder: StudioFolder, reader: Reader, scope: Scope) -> None:
    """The certificates that are wanted, with the record behind each."""
    names = {
        name
        for stored in wanted(reader, Certificate, "archive", scope)
        for name in (stored.body.file_name, stored.body.record_name)
    }
    for name in sorted(names):
        into.copy(f"certificates/{name}", folder.certificates / name)


def put_persons(into: Into, folder: StudioFolder, reader: Reader, scope: Scope) -> list[str]:
    """The pages of the persons and terms that the moves in `scope` name; the folders put there."""
    moves = [stored.body for stored in wanted(reader, CustodyEvent, "sealed", scope)]
    keys = {
        "contacts": {key for one in moves for key in (one.party, one.giver) if key},
        "terms": {one.terms for one in moves if one.terms},
    }
    lie = {"contacts": folder.path / "contacts", "terms": folder.path / "private" / "terms"}
    there = []
    for name, wanted_keys in keys.items():
        # a page may have been erased: that somebody was there is all that is known then
        held = [key for key in sorted(wanted_keys) if (lie[name] / f"{key}.json").is_file()]
        for key in held:
            into.copy(f"{name}/{key}.json", lie[name] / f"{key}.json")
        there += [name] if held else []
    return there


def journal_lines(reader: Reader, scope: Scope = None) -> Iterator[bytes]:
    """The entries of the journal, their exact bytes, a line each."""
    from provenance.records.entry import decode

    for _, data, _ in reader.entries():
        if scope is None or decode(data).record in scope:
            yield data + b"\n"


def _pretty(value: object) -> bytes:
    return msgspec.json.format(msgspec.json.encode(value), indent=1) + b"\n"
