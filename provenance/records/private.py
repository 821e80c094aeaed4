"""What never enters the journal: the contact book, private notes, half-filled forms.

Each is one small file that only its owner may read, replaced whole and
erasable.  The register holds no more than the key of a page: a commitment
that proves which page was meant, and tells nothing once the page is erased.
"""

import re
from pathlib import Path

import msgspec

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.entry import encode
from provenance.records.private_folder import PrivateFolder
from provenance.records.private_pages import KEY, NewPage, Pages, file_of, tidy

__all__ = ["KEY", "Contact", "Contacts", "Drafts", "tidy"]
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,63}")


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


class Contacts(Pages[Contact]):
    """The contact book of a studio folder."""

    def __init__(self, studio: Path) -> None:
        super().__init__(studio / "contacts")

    def add(self, *, name: str, dealer: bool = False, **other: str) -> str:
        """Enter a page and return its key.  Raises Refused without a name.

        `other` are the further fields of a Contact.  A page is never changed: who
        has moved gets a new one.
        """
        key, keep = self.prepare(name=name, dealer=dealer, **other)
        keep()
        return key

    def prepare(self, *, name: str, dealer: bool = False, **other: str) -> tuple[str, NewPage]:
        """The key of a new page, and what puts the page on disk once it is wanted."""
        said = {field: tidy(text) for field, text in other.items()}
        contact = Contact(name=tidy(name), dealer=dealer, **said)
        if not contact.name:
            raise Refused(Problem(what="is empty", field="name", mend="say who it is"))
        return self._new(contact)

    def list(self) -> list[tuple[str, Contact]]:
        """Every page that is whole, with its key, by name; `altered` has those that are not."""
        pages = []
        for key in self.filed():
            try:
                pages.append((key, self.get(key)))
            except (Refused, Damaged):
                continue
        return sorted(pages, key=lambda page: (page[1].name.casefold(), page[0]))

    def named(self, name: str) -> tuple[str, ...]:
        """The keys of the pages with that name, whatever the letter case and the white space."""
        wanted = tidy(name).casefold().split()
        return tuple(key for key, page in self.list() if page.name.casefold().split() == wanted)

    def erase(self, key: str) -> None:
        """Erase a page for good, legible or not.  Raises NotFound when there is none."""
        if not self._folder.erase(file_of(key)):
            raise NotFound(
                Problem(what=f"the contact book has no page {key[:12]}…", mend="see the list")
            )

    def _pack(self, said: Contact, salt: str) -> bytes:
        return encode(_Page(said, salt))

    def _unpack(self, data: bytes) -> tuple[Contact, str]:
        page = msgspec.json.decode(data, type=_Page)
        return page.contact, page.salt

    def _absent(self, key: str) -> Problem:
        what = f"the contact book has no page {key[:12]}…: it was erased, or is missing"
        return Problem(what=what, mend="see the pages there are")

    def _altered(self, key: str) -> Problem:
        what = f"the page {key[:12]}… of the contact book is not the one that was entered"
        return Problem(what=what, mend="bring it back from a backup, or enter the person anew")


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


def _draft(name: str) -> str:
    if not _NAME.fullmatch(name):
        raise Refused(
            Problem(
                what=f"{name!r} cannot name a draft",
                mend="use up to 64 small letters, digits, dashes and underscores",
            )
        )
    return f"{name}.json"
