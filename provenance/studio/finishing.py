"""Finishing prints: number, signature, scan, and the end of a print."""

from collections.abc import Sequence
from pathlib import Path

from msgspec.structs import replace

from provenance.errors import Problem, Refused
from provenance.model.designation import Designation, parse_designation
from provenance.model.edition import Edition
from provenance.model.printing import Printing
from provenance.model.prints import Existence, Print, Scan, Signature
from provenance.records.act import Act
from provenance.records.entry import digest
from provenance.records.images import Thumbnail, make_thumbnail, store_thumbnail
from provenance.records.reader import Stored
from provenance.studio.custody import move_prints
from provenance.studio.folder import StudioFolder, make_folders


def numbers_from(edition: Edition, first: str, count: int) -> list[str]:
    """The designations of `count` prints of `edition`, beginning with `first`.

    ``7`` and ``7/25`` are the same in an edition of 25.  Raises Refused.
    """
    given = parse_designation(first, bare_number=True, field="first")
    if given.number is None and count > 1:
        raise Refused(
            Problem(what=f"{given} is one print", field="first", mend="give it to one sheet")
        )
    total = edition.maximum(given.series) or given.total if given.number else None
    if given.total is not None and total is not None and given.total != total:
        raise Refused(
            Problem(
                what=f"{first} says {given.total}; {edition.code} declares {total}",
                field="first",
                mend=f"write it as one of {total}",
            )
        )
    last = given.number + count - 1 if given.number is not None else None
    if last is not None and total is not None and last > total:
        raise Refused(
            Problem(
                what=f"{last} is more than the {total} of edition {edition.code}",
                field="first",
                mend="begin with a lower number",
            )
        )
    if given.number is None:
        return [str(given)] * count
    numbers = range(given.number, given.number + count)
    return [str(Designation(series=given.series, number=one, total=total)) for one in numbers]


def give_numbers(
    act: Act, edition: Stored[Edition], prints: Sequence[Stored[Print]], first: str
) -> list[str]:
    """Number `prints` in the given order, beginning with `first`; returns the designations.

    Nothing about the order of printing follows from a number.  Raises Refused.
    """
    written = numbers_from(edition.body, first, len(prints))
    _make_room(act, prints, written)
    for held, designation in zip(prints, written, strict=True):
        now = act.get(Print, held.id)
        act.change(now.id, now.version, replace(now.body, designation=designation))
    if parse_designation(first, bare_number=True).series == "BAT":
        present = act.get(Edition, edition.id)
        act.change(present.id, present.version, replace(present.body, bon_a_tirer=prints[0].id))
    return written


def _make_room(act: Act, prints: Sequence[Stored[Print]], written: Sequence[str]) -> None:
    """Take away numbers that are to change places among `prints`."""
    for held, designation in zip(prints, written, strict=True):
        if held.body.designation in written and held.body.designation != designation:
            act.change(held.id, held.version, replace(held.body, designation=None))


def enter_opening(
    act: Act, edition: Stored[Edition], printing: Printing, numbers: Sequence[str]
) -> list[str]:
    """Enter prints that were made, and had gone, before the records began.

    Where they are is unknown; their numbers are taken.  Raises Refused.
    """
    made = act.enter(printing)
    given = [one for number in numbers for one in numbers_from(edition.body, number, 1)]
    for designation in given:
        act.enter(
            Print(
                edition=edition.id,
                printing=made,
                mark="",
                image=edition.body.image,
                sheet=edition.body.sheet,
                designation=designation,
                opening=True,
                source=printing.source,
            )
        )
    return given


def replace_print(act: Act, former: Stored[Print], sheet: Stored[Print]) -> str:
    """Put `sheet` in the place of `former`, whose number it takes.  Raises Refused."""
    body = replace(sheet.body, replaces=former.id, designation=former.body.designation)
    act.change(sheet.id, sheet.version, body)
    return former.body.designation or "without a number"


def sign(act: Act, prints: Sequence[Stored[Print]], signature: Signature) -> None:
    """Record one signature on each of `prints`."""
    for held in prints:
        if held.body.signature is not None:
            raise Refused(
                Problem(
                    what=f"{held.body.mark} was signed on {held.body.signature.on} already",
                    field="prints",
                    mend="leave it out, or correct the earlier record",
                )
            )
        act.change(held.id, held.version, replace(held.body, signature=signature))


def attach_scan(act: Act, held: Stored[Print], path: Path) -> Thumbnail:
    """Record the scan at `path`, and return the thumbnail that stands for it.

    The caller keeps the thumbnail (`keep_thumbnail`) before the act ends: files
    come before the register, and an orphan is harmless.
    """
    thumbnail = make_thumbnail(path)
    act.enter(_scan(held.id, thumbnail, digest(thumbnail.jpeg)))
    return thumbnail


def keep_thumbnail(folder: StudioFolder, thumbnail: Thumbnail) -> None:
    """Put a thumbnail on disk, whole, under its digest."""
    make_folders(folder)
    store_thumbnail(folder.images, thumbnail.jpeg)


def _scan(record: int, thumbnail: Thumbnail, thumbnail_sha256: str) -> Scan:
    return Scan(
        print=record,
        file_name=thumbnail.source_name,
        file_sha256=thumbnail.source_sha256,
        width_px=thumbnail.source_width_px,
        height_px=thumbnail.source_height_px,
        bits=thumbnail.bits,
        colour=thumbnail.colour,
        thumbnail_sha256=thumbnail_sha256,
        thumbnail_width_px=thumbnail.width_px,
        thumbnail_height_px=thumbnail.height_px,
    )


def record_gone(
    act: Act, held: Stored[Print], how: Existence, on: str, why: str, evidence: str = ""
) -> None:
    """Record that a print is spoiled, destroyed or lost.  Its number stays taken.

    What was lost or destroyed is so in its custody too; a sheet spoiled at work
    never was in anybody's.
    """
    if how == "lost" or how == "destroyed":
        move_prints(act, [held], how, on, why=why, evidence=evidence)
        return
    gone = {"existence": how, "gone_on": on, "gone_why": why, "gone_evidence": evidence}
    act.change(held.id, held.version, replace(held.body, **gone))
