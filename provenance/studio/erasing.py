"""Erases a person from a studio: page, terms and drafts; and looks where the name still stands."""

import json
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.model.custody import CustodyEvent
from provenance.records.checks.pages import unnamed
from provenance.records.entry import decode
from provenance.records.private import Contact, Contacts
from provenance.records.private_folder import overwrite
from provenance.records.private_pages import KEY
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.records.terms import TermsBook
from provenance.studio.folder import StudioFolder
from provenance.studio.sought import Sought, sought

BEYOND = (
    "backups and bags made before now: erase the person there too, or destroy them",
    "copies of the folder elsewhere, and what a system for synchronising keeps",
    "certificates, lists and letters that were given out on paper or as files",
    "the disk itself: one that spreads its wear may keep old blocks until they are used again",
)
"""What no program can erase, said each time."""
_LEAST_OF_A_KEY = 8
_PRIVATE = ("private", "contacts")
_TEXTS = (".json", ".toml", ".csv", ".txt", ".md")
"""The files that are read as text; of a short name nothing else is searched."""


@dataclass(frozen=True)
class Remains:
    """A file in the folder where the person can still be read."""

    file: str
    records: tuple[int, ...]
    """The entries that say it, where the file is the register."""


@dataclass(frozen=True)
class Erased:
    """What was erased, and what was found afterwards."""

    key: str
    terms: int
    drafts: tuple[str, ...]
    events: int
    """How many entries of the journal name the key, which tells nothing any more."""
    remains: tuple[Remains, ...]
    unsure: tuple[str, ...]
    """Where the person may still stand unseen, and why: a sentence each."""


def find_contact(reader: Reader, folder: StudioFolder, text: str) -> tuple[str, Contact | None]:
    """The page with that name, or with a key that begins so; None where it is not legible.

    A page that is gone is found by its key as long as an event names it: its terms may
    be there.  Raises NotFound, and Refused where several pages are meant.
    """
    book = Contacts(folder.path)
    wanted = text.strip()
    keys = set(book.named(wanted))
    if not keys and len(wanted) >= _LEAST_OF_A_KEY and set(wanted) <= set("0123456789abcdef"):
        keys = {key for key in book.filed() if key.startswith(wanted)} or {
            key
            for held in reader.all(CustodyEvent)
            for key in (held.body.party, held.body.giver)
            if key and key.startswith(wanted)
        }
    if len(keys) > 1:
        raise Refused(
            Problem(
                what=f"{len(keys)} pages of the contact book are meant by it",
                record=text,
                mend="give the beginning of a key: " + ", ".join(key[:12] for key in sorted(keys)),
            )
        )
    if not keys:
        raise NotFound(
            Problem(
                what="the contact book has no such page",
                record=text,
                mend="see `provenance contacts`",
            )
        )
    (key,) = keys
    return key, book.get(key) if book.standing(key) == "whole" else None


def erase_contact(register: Register, folder: StudioFolder, key: str) -> Erased:
    """Erase a person: the page, the terms of every event with them, drafts that name them.

    The journal keeps a key that leads nowhere; it stays valid.  Raises NotFound
    when there is neither such a page nor terms of an event with it.
    """
    if not KEY.fullmatch(key):
        raise NotFound(Problem(what=f"{key!r} is not the key of a page"))
    book, terms = Contacts(folder.path), TermsBook(folder.path)
    who, unsure = (
        Sought(),
        ["the page could not be read, so that no file was searched for the name"],
    )
    # a page that cannot be read is erased all the same
    with suppress(Damaged, Refused):
        who, unsure = sought(book.get(key)), []
    named = list(_events(register.read, key))
    agreed = {one for _seq, one in named if one}
    if book.standing(key) == "absent" and not any(map(terms.holds, agreed)):
        book.get(key)
    if who.short:
        unsure.append(
            "the name is too short to be told from other bytes: as a word of its own it was"
            f" searched for in the journal and in {', '.join(_TEXTS)} files alone"
        )
    loose = unnamed(register.read.connection, set(terms.filed()))
    mine = {one for one in loose if _names(terms_file(folder.path, one), who)}
    erased = sum(terms.erase(one) for one in (*agreed, *mine))
    drafts = tuple(_erase_drafts(folder.path, who, {key, *agreed, *mine}))
    # last: whoever was cut short finds the person by it, and goes on
    with suppress(NotFound):
        book.erase(key)
    if others := len(loose - mine):
        unsure.append(
            f"no record names {others} of the pages of terms, and whose they are cannot be told:"
            " `provenance erase --unnamed` clears them"
        )
    register.read.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    remains = tuple(_remains(register.read, folder.path, who, unsure))
    return Erased(
        key=key,
        terms=erased,
        drafts=drafts,
        events=len(named),
        remains=remains,
        unsure=tuple(unsure),
    )


def terms_file(studio: Path, key: str) -> Path:
    """Where the page of terms with that key lies."""
    return studio / "private" / "terms" / f"{key}.json"


def _events(reader: Reader, key: str) -> Iterator[tuple[int, str | None]]:
    """Every entry, of whatever version, that names the key; with its terms."""
    rows = reader.connection.execute(
        "SELECT seq, entry FROM journal WHERE instr(entry, CAST(? AS BLOB)) ORDER BY seq", (key,)
    ).fetchall()
    for seq, data in rows:
        entry = decode(data)
        body = json.loads(bytes(entry.body))
        yield seq, body.get("terms") if isinstance(body, dict) else None


def _erase_drafts(studio: Path, who: Sought, keys: set[str]) -> Iterator[str]:
    """Erase half-filled forms, notes and left-over parts that name the person.

    A part of one of the pages called `keys` is erased whatever there is of it.
    """
    for path in sorted(path for place in _PRIVATE for path in (studio / place).rglob("*")):
        draft = path.parent == studio / "private" and path.suffix == ".json"
        part = path.name.startswith(".") and path.suffix == ".part"
        if not path.is_file() or not (draft or part):
            continue
        own = part and path.name[1:].partition(".")[0] in keys
        if own or _names(path, who):
            overwrite(path)
            yield path.relative_to(studio).as_posix()


def _names(path: Path, who: Sought) -> bool:
    try:
        data = path.read_bytes()
    except OSError as error:
        mend = "see to it that it can be, and erase the person again"
        raise Refused(Problem(f"cannot be read ({error.strerror})", str(path), "", mend)) from error
    return who.named_in(data)


def _remains(reader: Reader, studio: Path, who: Sought, unsure: list[str]) -> Iterator[Remains]:
    """Every file in the folder that still holds the person; adds to `unsure` what is unread."""
    entries: tuple[int, ...] | None = None
    for path in sorted(studio.rglob("*")):
        if not path.is_file():
            continue
        name = str(path.relative_to(studio))
        try:
            data = path.read_bytes()
        except OSError as error:
            unsure.append(f"{name} cannot be read ({error.strerror}), and was not searched")
            continue
        found = who.in_bytes(data)
        if path.name.startswith("register.db"):
            if entries is None:
                entries = tuple(_entries(reader, who))
            # a table packs its words without a space between; the entries tell
            found = found or (path == studio / "register.db" and bool(entries))
        elif path.suffix in _TEXTS:
            found = found or who.in_text(data)
        if found:
            records = (entries or ()) if path.name.startswith("register.db") else ()
            yield Remains(name, records)


def _entries(reader: Reader, who: Sought) -> Iterator[int]:
    """The entries of the journal that name the person."""
    for seq, data in reader.connection.execute("SELECT seq, entry FROM journal ORDER BY seq"):
        if who.in_bytes(data) or who.in_text(data):
            yield seq
