"""What never enters the journal: the contact book, private notes, half-filled forms.

Each is one small file that only its owner may read, replaced whole and
erasable.  The register holds no more than the key of a page: a commitment
that proves which page was meant, and tells nothing once the page is erased.
"""

import hashlib
import os
import re
import secrets
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

import msgspec

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.entry import check_words, encode
from provenance.records.files import flush_folder, write_whole

KEY = re.compile(r"[0-9a-f]{64}")
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,63}")
_SALT_BYTES = 16


class Contact(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One page of the contact book: a person or an institution."""

    name: str
    address: str = ""
    email: str = ""
    telephone: str = ""
    note: str = ""
    place: str = ""
    """The town that a line of provenance names."""
    life: str = ""
    """The years of a life, as 1931-2004."""
    dealer: bool = False
    """Whether prints go through their hands, not into them."""


class _Page(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A page as it lies on disk, with the salt of its commitment in hex."""

    contact: Contact
    salt: str


def commitment(salt: bytes, data: object) -> str:
    """SHA-256 in hex over `salt` and the canonical JSON of `data`.

    The salt keeps anybody from finding a person in the register by trying names.
    """
    return hashlib.sha256(salt + encode(data)).hexdigest()


class Contacts:
    """The contact book of a studio folder.  A page's key is the commitment to it."""

    def __init__(self, studio: Path) -> None:
        self._folder = PrivateFolder(studio / "contacts")

    def add(self, *, name: str, dealer: bool = False, **other: str) -> str:
        """Enter a page and return its key.  Raises Refused without a name.

        `other` are the further fields of a Contact.  A page is never changed: who
        has moved gets a new one.
        """
        key, keep = self.prepare(name=name, dealer=dealer, **other)
        keep()
        return key

    def prepare(
        self, *, name: str, dealer: bool = False, **other: str
    ) -> tuple[str, Callable[[], None]]:
        """The key of a new page, and what puts the page on disk once it is wanted."""
        said = {field: tidy(text) for field, text in other.items()}
        contact = Contact(name=tidy(name), dealer=dealer, **said)
        if not contact.name:
            raise Refused(Problem(what="is empty", field="name", mend="say who it is"))
        salt = secrets.token_bytes(_SALT_BYTES)
        key = commitment(salt, contact)
        page = encode(_Page(contact, salt.hex()))
        return key, lambda: self._folder.write(f"{key}.json", page)

    def get(self, key: str) -> Contact:
        """The page with that key.

        Raises NotFound when it was erased or is missing, Damaged when it is not
        the page that was entered.
        """
        data = self._folder.read(_file(key))
        if data is None:
            raise NotFound(
                Problem(
                    what=f"the contact book has no page {key[:12]}…: it was erased, or is missing",
                    mend="see the pages there are",
                )
            )
        try:
            page = msgspec.json.decode(data, type=_Page)
            right = commitment(bytes.fromhex(page.salt), page.contact) == key
        except (msgspec.MsgspecError, ValueError) as error:
            raise _altered(key) from error
        if not right:
            raise _altered(key)
        return page.contact

    def holds(self, key: str) -> bool:
        """Whether there is a page with that key, whole or not."""
        return self._folder.read(_file(key)) is not None

    def list(self) -> list[tuple[str, Contact]]:
        """Every page that is whole, with its key, by name."""
        pages = []
        for key in self._keys():
            try:
                pages.append((key, self.get(key)))
            except (NotFound, Damaged):
                continue
        return sorted(pages, key=lambda page: (page[1].name.casefold(), page[0]))

    def named(self, name: str) -> tuple[str, ...]:
        """The keys of the pages with that name, whatever the letter case."""
        wanted = tidy(name).casefold()
        return tuple(key for key, page in self.list() if page.name.casefold() == wanted)

    def altered(self) -> Iterator[str]:
        """The keys of pages that are not as they were entered."""
        for key in self._keys():
            try:
                self.get(key)
            except NotFound:
                continue
            except Damaged:
                yield key

    def half_erased(self) -> Iterator[str]:
        """The keys of pages that were overwritten and not taken away any more."""
        return (key for key in self._keys() if not self.holds(key))

    def erase(self, key: str) -> None:
        """Erase a page for good.  Raises NotFound when there is none."""
        if not self._folder.erase(_file(key)):
            raise NotFound(
                Problem(what=f"the contact book has no page {key[:12]}…", mend="see the list")
            )

    def _keys(self) -> Iterator[str]:
        return (name for name in self._folder.names() if KEY.fullmatch(name))


class Drafts:
    """Private notes and half-filled forms, as JSON text under a name of their own."""

    def __init__(self, studio: Path) -> None:
        self._folder = PrivateFolder(studio / "private")

    def put(self, name: str, text: str) -> None:
        """Keep `text` under `name`, in place of what was there.

        Raises Refused when the name could lead elsewhere or the text is not JSON.
        """
        file = _draft(name)
        try:
            data = text.encode("utf-8")
            msgspec.json.decode(data)
        except (msgspec.MsgspecError, UnicodeError) as error:
            raise Refused(Problem(what=f"the draft is not JSON: {error}", record=name)) from error
        self._folder.write(file, data)

    def get(self, name: str) -> str | None:
        """What is kept under `name`; None when nothing is."""
        data = self._folder.read(_draft(name))
        return None if data is None else data.decode("utf-8")

    def drop(self, name: str) -> bool:
        """Erase what is kept under `name`; whether there was anything."""
        return self._folder.erase(_draft(name))

    def names(self) -> list[str]:
        """What is kept, by name."""
        return sorted(name for name in self._folder.names() if _NAME.fullmatch(name))


class PrivateFolder:
    """A folder of small files that nobody else may read."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def write(self, name: str, data: bytes) -> None:
        try:
            self._path.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path} cannot be made ({error.strerror})")
            ) from error
        write_whole(self._path / name, data, mode=0o600)

    def read(self, name: str) -> bytes | None:
        """The bytes of a file; None when there is none, or when its erasing was broken off."""
        try:
            data = (self._path / name).read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path / name} cannot be read ({error.strerror})")
            ) from error
        return None if data and data == overwriting(len(data)) else data

    def erase(self, name: str) -> bool:
        """Overwrite a file and unlink it; whether there was one."""
        path = self._path / name
        try:
            overwrite(path)
        except FileNotFoundError:
            return False
        except OSError as error:
            raise Refused(
                Problem(what=f"{self._path / name} cannot be erased ({error.strerror})")
            ) from error
        return True

    def names(self) -> Iterator[str]:
        return (path.stem for path in self._path.glob("*.json"))


def overwriting(size: int) -> bytes:
    """So many bytes that say why they are there, to whoever finds them before the file is gone."""
    return (b"erased\n" * (size // 7 + 1))[:size]


def overwrite(path: Path) -> None:
    """Overwrite a file, and unlink it.  Raises OSError."""
    # a disk may still keep the old blocks; an ordinary look at the device does not find them
    with path.open("r+b") as file:
        file.write(overwriting(path.stat().st_size))
        file.flush()
        os.fsync(file.fileno())
    path.unlink()
    flush_folder(path.parent)


def tidy(text: str) -> str:
    """`text` in NFC, without white space around it.  Raises Refused for half a character."""
    try:
        text.encode("utf-8")
    except UnicodeError as error:
        raise Refused(Problem(what="the text holds half a character", mend="type it anew")) from (
            error
        )
    return check_words(unicodedata.normalize("NFC", text).strip(), "contact")


def _file(key: str) -> str:
    # a key comes from outside; as a path it could lead anywhere
    if not KEY.fullmatch(key):
        raise NotFound(Problem(what=f"{key!r} is not the key of a page", mend="see the list"))
    return f"{key}.json"


def _draft(name: str) -> str:
    if not _NAME.fullmatch(name):
        raise Refused(
            Problem(
                what=f"{name!r} cannot name a draft",
                mend="use up to 64 small letters, digits, dashes and underscores",
            )
        )
    return f"{name}.json"


def _altered(key: str) -> Damaged:
    return Damaged(
        Problem(
            what=f"the page {key[:12]}… of the contact book is not the one that was entered",
            mend="bring it back from a backup, or enter the person anew",
        )
    )
