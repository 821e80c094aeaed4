"""By what a person is looked for: whole words, as bytes in any file and as text where it is one."""

import json
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from provenance.records.private import Contact
from provenance.records.private_words import WordBytes, joined

_LEAST_BYTES = 4
"""Fewer bytes stand in any file; they show nothing."""
_ESCAPED_SPACE = re.compile(r"\\[nrt]")
"""White space in JSON of which only a part is left."""


@dataclass(frozen=True)
class Sought:
    """What to look for; nothing, where the page of the person is not legible."""

    name: str = ""
    """Folded, with one blank between its words."""
    needles: tuple[WordBytes, ...] = ()

    @property
    def short(self) -> bool:
        """Whether the name is too short to be told from other bytes by chance."""
        return 0 < len(self.name.encode()) < _LEAST_BYTES

    def in_bytes(self, data: bytes) -> bool:
        """Whether any of it stands in the bytes of a file, as whole words."""
        return any(needle.stands_in(data) for needle in self.needles)

    def in_text(self, data: bytes) -> bool:
        """Whether the name stands in a text, or in the words of JSON, as whole words."""
        return bool(self.name) and _stands(self.name, _words(data))


def sought(page: Contact) -> Sought:
    """Everything by which the person on a page of the contact book can be found."""
    said = (page.name, page.address, page.email, page.telephone, page.note)
    words = {one.strip() for text in said for one in (text, *text.splitlines())}
    found = {
        WordBytes(tuple(one.split()), encoding)
        for word in words
        if len(word.encode()) >= _LEAST_BYTES
        for form in ("NFC", "NFD")
        for text in (unicodedata.normalize(form, word),)
        for one in (text, text.casefold(), text.upper(), text.title())
        for encoding in ("utf-8", "utf-16-le", "json")
    }
    return Sought(_folded(page.name), tuple(found))


def _folded(text: str) -> str:
    folded = unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).casefold())
    return " ".join(folded.split())


def _words(data: bytes) -> str:
    """The text of a file, folded; of JSON what it says, since letters may be escapes there."""
    text = data.decode("utf-8", errors="replace")
    try:
        # as pairs: of two fields with one name neither is lost
        said = json.loads(text, object_pairs_hook=list)
    except (ValueError, RecursionError):
        return _folded(_ESCAPED_SPACE.sub(" ", text))
    return _folded("\0".join(_said(said)))


def _said(value: object) -> Iterator[str]:
    """Every word and number in what JSON holds, however deep."""
    left = [value]
    while left:
        one = left.pop()
        if isinstance(one, list | tuple):
            left.extend(one)
        else:
            yield str(one)


def _stands(word: str, text: str) -> bool:
    """Whether `word` stands in `text` without another letter of the same word beside it."""
    at = text.find(word)
    while at >= 0:
        end = at + len(word)
        # one character alone is part of too many words, in whatever script
        apart = len(word) > 1
        before = joined(text[at - 1 : at], word[0], apart=apart)
        if not before and not joined(word[-1], text[end : end + 1], apart=apart):
            return True
        at = text.find(word, at + 1)
    return False
