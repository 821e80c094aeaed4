"""The heir's page: what is away, what is promised, what may and must not be done, which keys."""

from collections.abc import Iterator, Sequence

from provenance.craft.roll import Part, Says, Table, TableColumn
from provenance.model.edition import Edition
from provenance.model.instruction import Instruction
from provenance.model.negative import UNPRINTABLE, Negative
from provenance.records.private import Contacts
from provenance.records.reader import Reader, Stored
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.public import grouped
from provenance.studio.keys.ring import current_key, known_keys
from provenance.studio.rolls.edition import fate, missing
from provenance.studio.rolls.held import HeldEdition, Impression
from provenance.studio.rolls.telling import UNREAD, People, Telling
from provenance.studio.rolls.words import Words

_ABROAD = ("consigned", "lent", "released")
"""Away from the studio, and still the studio's."""


def open_part(held: Sequence[HeldEdition], telling: Telling) -> Part:
    """What is still promised: impressions to print, loans and consignments to come back."""
    said = [line for one in held for line in _open(one, telling)]
    return Part(
        telling.words("open"), (Says(tuple(said) or ((telling.words("nothing_open"), ""),)),)
    )


def _open(held: HeldEdition, telling: Telling) -> Iterator[tuple[str, str]]:
    words, code = telling.words, held.edition.body.code
    if held.left and held.may_print:
        which = missing(held, telling)
        total = held.edition.body.declared
        yield words("printing_open", count=held.left, total=total, which=which), code
    released = [one for one in abroad(held) if one.where.where == "released"]
    for one in abroad(held):
        move = one.where.move
        if move is None or one in released:
            continue
        name = f"{code} {one.name}"
        if move.body.until:
            yield words(f"{one.where.where}_open", name=name, day=move.body.until), move.body.on
        else:
            yield words("until_open", name=name, state=telling.where(one)), move.body.on
    if released:
        names = telling.wording.listed([f"{code} {one.name}" for one in released])
        yield words("released_open", names=names), ""


def abroad(held: HeldEdition) -> list[Impression]:
    """What is out of the studio and not passed on."""
    return [
        one
        for one in held.impressions
        if one.where.where in _ABROAD and one.print.body.existence == "exists"
    ]


def away_part(
    held: Sequence[HeldEdition], telling: Telling, contacts: Contacts, terms: People
) -> Part:
    """With whom what is away is, how to reach them, and on which terms."""
    words, rows, records = telling.words, list[tuple[str, ...]](), list[int]()
    for edition in held:
        for one in abroad(edition):
            body = one.where.move.body if one.where.move else None
            rows.append(
                (
                    f"{edition.edition.body.code} {one.name}",
                    words(one.where.where, day=one.where.since),
                    _address(contacts, one.where.holder, telling.words),
                    (body.until if body else "") or "",
                    terms(body.terms if body else None),
                )
            )
            records.append(one.print.id)
    if not rows:
        return Part(words("away"), (Says(((words("nothing_away"), ""),)),))
    columns = (
        TableColumn(words("number")),
        TableColumn(words("where"), 37),
        TableColumn(words("holder")),
        TableColumn(words("until"), 18),
        TableColumn(words("terms"), 28),
    )
    return Part(words("away"), (Table(columns, tuple(rows), tuple(records)),))


def _address(contacts: Contacts, key: str | None, words: Words) -> str:
    """Who has it and how to reach them, as the contact book has it."""
    if key is None:
        return words("nobody")
    standing = contacts.standing(key)
    if standing != "whole":
        return words(UNREAD[standing])
    page = contacts.get(key)
    said = (page.name, page.address, page.telephone, page.email)
    return ", ".join(" ".join(one.split()) for one in said if one)


def wishes_part(reader: Reader, held: Sequence[HeldEdition], telling: Telling) -> Part:
    """Who may print, sign and stamp, in the artist's words."""
    wished = [one for one in _instructions(reader, held) if one.body.topic != "must not"]
    said = tuple(_wish(reader, one, telling) for one in wished)
    return Part(telling.words("wishes"), (Says(said or ((telling.words("no_wishes"), ""),)),))


def forbidden_part(reader: Reader, held: Sequence[HeldEdition], telling: Telling) -> Part:
    """What must not be done: by the artist's word, by what was promised, by the trade."""
    words = telling.words
    wished = [one for one in _instructions(reader, held) if one.body.topic == "must not"]
    said = [(words("quoted", words=one.body.words), one.body.given_on) for one in wished]
    negatives = {one.negative.id: one.negative.body for one in held}
    for body in negatives.values():
        if body.state in UNPRINTABLE:
            state = telling.wording.term("negative_state", body.state)
            told = words("no_printing", code=body.code, state=state)
            said.append((told, body.state_since or ""))
    for one in held:
        edition = one.edition.body
        if edition.closed is not None:
            day = telling.wording.date(edition.closed)
            said.append((words("no_more", code=edition.code, day=day), ""))
    said += [(words(name), "") for name in ("no_reuse", "no_signature", "no_promise")]
    return Part(words("forbidden"), (Says(tuple(said)),))


def _instructions(reader: Reader, held: Sequence[HeldEdition]) -> Iterator[Stored[Instruction]]:
    editions = {one.edition.id for one in held}
    for stored in reader.all(Instruction):
        if stored.body.edition is None or stored.body.edition in editions:
            yield stored


def _wish(reader: Reader, one: Stored[Instruction], telling: Telling) -> tuple[str, str]:
    body = one.body
    about = telling.words(f"topic.{body.topic}")
    if body.edition is not None:
        about = f"{reader.get(Edition, body.edition).body.code}, {about}"
    person = telling.person(body.person)
    told = f"{about}: {telling.words('quoted', words=body.words)}"
    return told + (f" ({person})" if person else ""), body.given_on


def negatives_part(reader: Reader, telling: Telling) -> Part:
    """Every negative of the studio, with an edition or without, and what became of it."""
    words = telling.words
    columns = (
        TableColumn(words("negative")),
        TableColumn(words("title")),
        TableColumn(words("state"), 74),
    )
    held = reader.all(Negative)
    rows = tuple((one.body.code, one.body.title, fate(one.body, telling)) for one in held)
    return Part(words("negatives"), (Table(columns, rows, tuple(one.id for one in held)),))


def keys_part(folder: StudioFolder, telling: Telling) -> Part:
    """The key that seals certificates, and those that were retired."""
    words, current = telling.words, current_key(folder)
    known = known_keys(folder)
    if not known:
        return Part(words("keys"), (Says(((words("no_keys"), ""),)),))
    said = tuple(
        (grouped(key.fingerprint), words("key_in_use" if key == current else "key_retired"))
        for key in known
    )
    return Part(words("keys"), (Says((*said, (words("key_about"), ""))),))
