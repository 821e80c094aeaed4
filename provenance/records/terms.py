"""On which terms a print changed hands: price, place, conditions; erasable with the person.

Each is a page like one of the contact book, known to the register by a salted
commitment only.
"""

from pathlib import Path

import msgspec

from provenance.errors import Problem, Refused
from provenance.records.entry import encode
from provenance.records.private_pages import NewPage, Pages, file_of, tidy


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


class TermsBook(Pages[Terms]):
    """The pages of terms of a studio folder."""

    def __init__(self, studio: Path) -> None:
        super().__init__(studio / "private" / "terms")

    def prepare(self, terms: Terms) -> tuple[str, NewPage]:
        """The key of a new page, and what puts it on disk.  Raises Refused when it says nothing."""
        said = Terms(**{name: tidy(getattr(terms, name)) for name in terms.__struct_fields__})
        if said == Terms():
            raise Refused(Problem("says nothing", field="terms", mend="leave it out"))
        return self._new(said)

    def erase(self, key: str) -> bool:
        """Erase a page for good, legible or not; whether there was one."""
        return self._folder.erase(file_of(key))

    def _pack(self, said: Terms, salt: str) -> bytes:
        return encode(_Page(said, salt))

    def _unpack(self, data: bytes) -> tuple[Terms, str]:
        page = msgspec.json.decode(data, type=_Page)
        return page.terms, page.salt

    def _absent(self, key: str) -> Problem:
        return Problem(f"there are no terms {key[:12]}…: erased, or missing")

    def _altered(self, key: str) -> Problem:
        mend = "bring the page back from a backup, or record the terms anew"
        return Problem(f"the terms {key[:12]}… are not those that were entered", mend=mend)
