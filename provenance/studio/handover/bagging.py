"""A bag: a studio, or one edition of it, for others to keep (BagIt 1.0)."""

import tempfile
import uuid
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from provenance import __version__
from provenance.model.edition import Edition
from provenance.model.studio import Studio
from provenance.records.audit import AuditReport, audit
from provenance.records.clock import Clock, SystemClock
from provenance.records.connection import FILE
from provenance.records.exchange.bag import Bag
from provenance.records.exchange.opened_bag import open_bag
from provenance.records.exchange.sinks import new_folder
from provenance.records.exchange.snapshot import copied_register
from provenance.records.files import refuse_standing
from provenance.records.progress import Progress
from provenance.records.reader import Reader
from provenance.records.witness import Head
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.contents import put_studio
from provenance.studio.handover.events import event_lines
from provenance.studio.handover.how_to_check import CHECKING, checking
from provenance.studio.handover.levels import Level, left_out
from provenance.studio.handover.parts import (
    journal_lines,
    put_certificates,
    put_linked_art,
    put_persons,
    put_pictures,
    put_tables,
)
from provenance.studio.handover.readme import README, readme
from provenance.studio.handover.scope import records_of
from provenance.studio.handover.tables import Scope
from provenance.studio.references import resolve_as


@dataclass(frozen=True)
class Bagged:
    """A bag that was written and read again."""

    path: Path
    level: Level
    files: int
    restorable: bool
    left_out: tuple[str, ...]
    report: AuditReport
    """What an audit says of the studio that it was made of."""


def make_bag(
    folder: StudioFolder,
    path: Path,
    level: Level,
    *,
    edition: str = "",
    clock: Clock | None = None,
    progress: Progress | None = None,
) -> Bagged:
    """Write a bag of the studio, or of one edition, into the new folder `path`, and check it.

    Raises Refused where something stands at `path`, NotFound for an edition
    that is not on record; then nothing is left.  Of a studio that is damaged a
    bag is made all the same, and says so: it may be the last that can be made.
    """
    refuse_standing(path)
    report = audit(folder.path, progress=progress)
    made_on = str((clock or SystemClock())().local_date())
    omitted = left_out(level, part=bool(edition))
    whole = level != "public" and not edition
    with ExitStack() as stack:
        sink = stack.enter_context(new_folder(path))
        room = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="provenance-")))
        bag = Bag(sink)
        with ExitStack() as reading:
            if whole:
                reader, head = put_studio(
                    reading,
                    folder.path,
                    bag,
                    room,
                    private=level == "sealed",
                    key=False,
                    progress=progress,
                )
            else:
                copied = copied_register(folder.path, room / FILE)
                reader, head = reading.enter_context(copied)
            scope = records_of(reader, resolve_as(reader, Edition, edition)) if edition else None
            there = _put(bag, folder, reader, level, scope, whole=whole, progress=progress)
            studio = reader.get(Studio, 1).body
        bag.add(CHECKING, [checking(bag.holds, chain=whole)])
        page = readme(
            studio.name,
            studio.artist,
            made_on,
            level,
            edition=edition,
            damages=sum(one.level == "damage" for one in report.findings),
            there=there,
            left_out=omitted,
        )
        bag.add(README, [page])
        bag.finish(_info(studio, head, level, edition, made_on, whole=whole))
    with open_bag(path) as opened:
        opened.check(progress)
    return Bagged(path, level, bag.files, whole, omitted, report)


def _put(
    bag: Bag,
    folder: StudioFolder,
    reader: Reader,
    level: Level,
    scope: Scope,
    *,
    whole: bool,
    progress: Progress | None,
) -> list[str]:
    """What the bag holds beside the studio itself; gives the names of all of it."""
    there = ["tables", "linked-art", "events.jsonld"]
    put_tables(bag, reader, level, scope, "tables/")
    put_linked_art(bag, reader, level, scope, "linked-art/", progress)
    bag.add("events.jsonld", event_lines(reader, level, scope))
    if whole:
        bag.add("journal.jsonl", journal_lines(reader))
        return ["studio", "journal.jsonl", *there, CHECKING]
    put_pictures(bag, folder, reader, level, scope)
    there.append("images")
    if level != "public":
        put_certificates(bag, folder, reader, scope)
        bag.add("entries.jsonl", journal_lines(reader, scope))
        there += ["certificates", "entries.jsonl"]
    if level == "sealed":
        there += put_persons(bag, folder, reader, scope)
    return [*there, CHECKING]


def _info(
    studio: Studio, head: Head, level: Level, edition: str, made_on: str, *, whole: bool
) -> dict[str, str]:
    what = f"edition {edition} of " if edition else ""
    info = {
        "Source-Organization": studio.name,
        "Bagging-Date": made_on,
        "Bag-Software-Agent": f"provenance {__version__}",
        "External-Description": f"Photographs printed by hand: {what}{studio.name} ({level})",
        "External-Identifier": uuid.UUID(studio.studio_id).urn,
        "Level": level,
    }
    if whole:
        info |= {
            "Studio-Id": head.studio_id,
            "Journal-Entries": str(head.seq),
            "Journal-Head-SHA256": head.digest,
        }
    return info
