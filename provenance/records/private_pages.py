"""Pages that stay out of the journal, each known to it by a commitment alone.

The contact book and the terms of sales and loans are made of them.
"""

import hashlib
import re
import secrets
import unicodedata
from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, Literal, TypeVar

import msgspec

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.entry import check_words, encode
from provenance.records.private_folder import PrivateFolder

KEY = re.compile(r"[0-9a-f]{64}")
_SALT_BYTES = 16
Said = TypeVar("Said")
Standing = Literal["whole", "not legible", "erased", "absent"]
"""not legible: not what was entered, or not to be read at all.  erased: overwritten,
and not taken away any more.  absent: erased and gone, lost, or left out of this copy."""


def commitment(salt: bytes, data: object) -> str:
    """SHA-256 in hex over `salt` and the canonical JSON of `data`.

    The salt keeps anybody from finding a person in the register by trying names.
    """
    return hashlib.sha256(salt + encode(data)).hexdigest()


@dataclass(frozen=True)
class NewPage:
    """A page that is not on disk yet; calling it puts it there."""

    folder: PrivateFolder
    file: str
    data: bytes

    def __call__(self) -> None:
        """Put the page on disk.  Raises Refused."""
        self.folder.write(self.file, self.data)

    def take_back(self) -> None:
        """Erase the page again, if it is there.  Raises Refused."""
        self.folder.erase(self.file)


class Pages(ABC, Generic[Said]):
    """The pages of one sort in a studio folder.  A page's key is the commitment to it."""

    def __init__(self, path: Path) -> None:
        self._folder = PrivateFolder(path)

    @abstractmethod
    def _pack(self, said: Said, salt: str) -> bytes:
        """A page as it lies on disk; its salt in hex."""

    @abstractmethod
    def _unpack(self, data: bytes) -> tuple[Said, str]:
        """What a page says, and its salt.  Raises MsgspecError."""

    @abstractmethod
    def _absent(self, key: str) -> Problem:
        """That there is no such page."""

    @abstractmethod
    def _altered(self, key: str) -> Problem:
        """That the page is not the one that was entered."""

    def _new(self, said: Said) -> tuple[str, NewPage]:
        salt = secrets.token_bytes(_SALT_BYTES)
        key = commitment(salt, said)
        return key, NewPage(self._folder, f"{key}.json", self._pack(said, salt.hex()))

    def get(self, key: str) -> Said:
        """What the page with that key says.

        Raises NotFound when it was erased or is missing, Damaged when it is not
        the page that was entered, Refused when it cannot be read.
        """
        data = self._folder.read(file_of(key))
        if data is None:
            raise NotFound(self._absent(key))
        try:
            said, salt = self._unpack(data)
            right = commitment(bytes.fromhex(salt), said) == key
        except (msgspec.MsgspecError, ValueError) as error:
            raise Damaged(self._altered(key)) from error
        if not right:
            raise Damaged(self._altered(key))
        return said

    def standing(self, key: str) -> Standing:
        """Whether the page with that key is there, and can be read."""
        try:
            self.get(key)
        except NotFound:
            return "erased" if KEY.fullmatch(key) and self._folder.has(file_of(key)) else "absent"
        except (Damaged, Refused):
            return "not legible"
        return "whole"

    def holds(self, key: str) -> bool:
        """Whether there is a page with that key, legible or not."""
        return self.standing(key) in ("whole", "not legible")

    def filed(self) -> Iterator[str]:
        """The key of every page that a file is named for, whatever is in the file."""
        return (name for name in self._folder.names() if KEY.fullmatch(name))

    def altered(self) -> Iterator[str]:
        """The keys of pages that are not as they were entered."""
        return (key for key in self.filed() if self.standing(key) == "not legible")

    def half_erased(self) -> Iterator[str]:
        """The keys of pages that were overwritten and not taken away any more."""
        return (key for key in self.filed() if self.standing(key) == "erased")


def tidy(text: str) -> str:
    """`text` in NFC, without white space around it.  Raises Refused for half a character."""
    try:
        text.encode("utf-8")
    except UnicodeError as error:
        raise Refused(Problem(what="the text holds half a character", mend="type it anew")) from (
            error
        )
    return check_words(unicodedata.normalize("NFC", text).strip(), "contact")


def file_of(key: str) -> str:
    """The name of the file of a page.  Raises NotFound for what is no key."""
    # a key comes from outside; as a path it could lead anywhere
    if not KEY.fullmatch(key):
        raise NotFound(Problem(what=f"{key!r} is not the key of a page", mend="see the list"))
    return f"{key}.json"
