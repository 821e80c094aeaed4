"""Erases a person from a studio: page, terms and drafts; and looks where the name still stands."""

import json
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.entry import decode
from provenance.records.private import Contact, Contacts
from provenance.records.private_folder import overwrite
from provenance.records.private_pages import KEY
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.records.terms import TermsBook
from provenance.studio.folder import StudioFolder

BEYOND = (
    "backups and bags made before now: erase the person there too, or destroy them",
    "copies of the folder elsewhere, and what a system for synchronising keeps",
    "certificates, lists and letters that were given out on paper or as files",
    "the disk itself: one that spreads its wear may keep old blocks until they are used again",
)
"""What no program can erase, said each time."""

_LEAST_LETTERS = 4
"""Shorter words are found in any file; they show nothing."""


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


def find_contact(folder: StudioFolder, text: str) -> tuple[str, Contact]:
    """The page with that name, or with a key that begins so.

    Raises NotFound, and Refused where several pages are meant.
    """
    book = Contacts(folder.path)
    wanted = text.strip()
    keys = list(book.named(wanted))
    if not keys and len(wanted) >= 8 and set(wanted) <= set("0123456789abcdef"):
        keys = [key for key, _page in book.list() if key.startswith(wanted)]
    if len(keys) > 1:
        raise Refused(
            Problem(
                what=f"{len(keys)} pages of the contact book are meant by it",
                record=text,
                mend="give the beginning of a key: " + ", ".join(key[:12] for key in keys),
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
    return keys[0], book.get(keys[0])


def erase_contact(register: Register, folder: StudioFolder, key: str) -> Erased:
    """Erase a person: the page, the terms of every event with them, drafts that name them.

    The journal keeps a key that leads nowhere; it stays valid.  Raises NotFound
    when there is no such page.
    """
    if not KEY.fullmatch(key):
        raise NotFound(Problem(what=f"{key!r} is not the key of a page"))
    book = Contacts(folder.path)
    try:
        needles = _needles(book.get(key))
    except Damaged:
        # a page that cannot be read is erased all the same; there is nothing to look for
        needles = ()
    named = list(_events(register.read, key))
    terms = TermsBook(folder.path)
    erased = sum(terms.erase(one) for one in {one for _seq, one in named if one})
    drafts = tuple(_erase_drafts(folder.path, needles))
    # last: whoever was cut short finds the person by it, and goes on
    book.erase(key)
    register.read.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return Erased(
        key=key,
        terms=erased,
        drafts=drafts,
        events=len(named),
        remains=tuple(_remains(register.read, folder.path, needles)),
    )


def _events(reader: Reader, key: str) -> Iterator[tuple[int, str | None]]:
    """Every entry, of whatever version, that names the key; with its terms."""
    rows = reader.connection.execute(
        "SELECT seq, entry FROM journal WHERE instr(entry, CAST(? AS BLOB)) ORDER BY seq", (key,)
    ).fetchall()
    for seq, data in rows:
        entry = decode(data)
        body = json.loads(bytes(entry.body))
        yield seq, body.get("terms") if isinstance(body, dict) else None


def _needles(page: Contact) -> tuple[bytes, ...]:
    """Every way in which the person may stand in a file."""
    said = (page.name, page.address, page.email, page.telephone, page.note)
    words = {one.strip() for text in said for one in (text, *text.splitlines())}
    found: set[bytes] = set()
    for word in words:
        if len(word) < _LEAST_LETTERS:
            continue
        for form in ("NFC", "NFD"):
            text = unicodedata.normalize(form, word)
            for one in (text, text.casefold(), text.upper(), text.title()):
                found |= {one.encode(), one.encode("utf-16-le"), json.dumps(one)[1:-1].encode()}
    return tuple(found)


def _erase_drafts(studio: Path, needles: tuple[bytes, ...]) -> Iterator[str]:
    """Erase half-filled forms, notes and left-over parts that name the person."""
    for place in ("private", "contacts"):
        for path in sorted((studio / place).glob("*")):
            draft = place == "private" and path.suffix == ".json"
            if not path.is_file() or not (draft or path.suffix == ".part"):
                continue
            if _holds(path.read_bytes(), needles):
                overwrite(path)
                yield f"{place}/{path.name}"


def _holds(data: bytes, needles: tuple[bytes, ...]) -> bool:
    return any(needle in data for needle in needles)


def _remains(reader: Reader, studio: Path, needles: tuple[bytes, ...]) -> Iterator[Remains]:
    """Every file in the folder whose bytes still hold the person."""
    for path in sorted(studio.rglob("*")):
        if not path.is_file() or not _holds(path.read_bytes(), needles):
            continue
        records: set[int] = set()
        if path.name.startswith("register.db"):
            for needle in needles:
                rows = reader.connection.execute(
                    "SELECT seq FROM journal WHERE instr(entry, ?)", (needle,)
                )
                records |= {seq for (seq,) in rows}
        yield Remains(str(path.relative_to(studio)), tuple(sorted(records)))
