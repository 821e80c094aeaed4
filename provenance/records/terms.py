"""On which terms a print changed hands: price, place, conditions; erasable with the person.

Each is a page like one of the contact book, known to the register by a salted
commitment only.
"""

import secrets
from collections.abc import Callable
from pathlib import Path

import msgspec

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.entry import encode
from provenance.records.private import KEY, PrivateFolder, commitment, tidy

_SALT_BYTES = 16


class Terms(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What was agreed, in words."""

    price: str = ""
    place: str = ""
    """Where the print went."""
    conditions: str = ""
    """The share of a dealer, who insures, how it is to be shown."""
    note: str = ""

    @property
    def said(self) -> str:
        """All of it on one line."""
        return "; ".join(filter(None, (self.price, self.place, self.conditions, self.note)))


class _Page(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    terms: Terms
    salt: str


class TermsBook:
    """The pages of terms of a studio folder."""

    def __init__(self, studio: Path) -> None:
        self._folder = PrivateFolder(studio / "private" / "terms")

    def prepare(self, terms: Terms) -> tuple[str, Callable[[], None]]:
        """The key of a new page, and what puts it on disk.  Raises Refused when it says nothing."""
        said = Terms(**{name: tidy(getattr(terms, name)) for name in terms.__struct_fields__})
        if said == Terms():
            raise Refused(Problem("says nothing", field="terms", mend="leave it out"))
        salt = secrets.token_bytes(_SALT_BYTES)
        key = commitment(salt, said)
        page = encode(_Page(said, salt.hex()))
        return key, lambda: self._folder.write(f"{key}.json", page)

    def get(self, key: str) -> Terms:
        """The page with that key.

        Raises NotFound when it was erased or is missing, Damaged when it is not
        the page that was entered.
        """
        data = self._folder.read(_file(key))
        if data is None:
            raise NotFound(Problem(f"there are no terms {key[:12]}…: erased, or missing"))
        try:
            page = msgspec.json.decode(data, type=_Page)
            right = commitment(bytes.fromhex(page.salt), page.terms) == key
        except (msgspec.MsgspecError, ValueError) as error:
            raise _altered(key) from error
        if not right:
            raise _altered(key)
        return page.terms

    def erase(self, key: str) -> bool:
        """Erase a page for good; whether there was one."""
        return self._folder.erase(_file(key))


def _file(key: str) -> str:
    if not KEY.fullmatch(key):
        raise NotFound(Problem(f"{key!r} is not the key of a page"))
    return f"{key}.json"


def _altered(key: str) -> Damaged:
    mend = "bring the page back from a backup, or record the terms anew"
    return Damaged(Problem(f"the terms {key[:12]}… are not those that were entered", mend=mend))
