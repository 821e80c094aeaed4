"""By what a person is looked for: words as bytes in any file, the name as a word in texts."""

import json
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from provenance.records.private import Contact

_LEAST_BYTES = 4
"""Fewer bytes stand in any file; they show nothing."""
_UNSPACED = ("THAI ", "LAO ", "KHMER ", "MYANMAR ", "TIBETAN ")
"""Scripts that leave no space between words, beside those whose letters are wide."""


@dataclass(frozen=True)
class Sought:
    """What to look for; nothing, where the page of the person is not legible."""

    name: str = ""
    """Folded."""
    needles: tuple[bytes, ...] = ()

    @property
    def short(self) -> bool:
        """Whether the name is too short to be told from other bytes by chance."""
        return 0 < len(self.name.encode()) < _LEAST_BYTES

    def in_bytes(self, data: bytes) -> bool:
        """Whether any of it stands in the bytes of a file."""
        return any(needle in data for needle in self.needles)

    def in_text(self, data: bytes) -> bool:
        """Whether the name stands in a text, or in the words of JSON, as a word of its own."""
        return bool(self.name) and any(_stands(self.name, text) for text in _texts(data))


def sought(page: Contact) -> Sought:
    """Everything by which the person on a page of the contact book can be found."""
    said = (page.name, page.address, page.email, page.telephone, page.note)
    words = {one.strip() for text in said for one in (text, *text.splitlines())}
    found: set[bytes] = set()
    for word in words:
        if len(word.encode()) < _LEAST_BYTES:
            continue
        for form in ("NFC", "NFD"):
            text = unicodedata.normalize(form, word)
            for one in (text, text.casefold(), text.upper(), text.title()):
                found |= {one.encode(), one.encode("utf-16-le"), json.dumps(one)[1:-1].encode()}
    return Sought(_folded(page.name), tuple(found))


def _folded(text: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).casefold())


def _texts(data: bytes) -> Iterator[str]:
    text = data.decode("utf-8", errors="replace")
    yield _folded(text)
    try:
        # letters may be written as escapes
        yield _folded(json.dumps(json.loads(text), ensure_ascii=False))
    except (ValueError, RecursionError):
        return


def _stands(word: str, text: str) -> bool:
    """Whether `word` stands in `text` without another letter of the same word beside it."""
    at = text.find(word)
    while at >= 0:
        end = at + len(word)
        # one character alone is part of too many words, in whatever script
        apart = len(word) > 1
        before = _joined(text[at - 1 : at], word[0], apart=apart)
        if not before and not _joined(word[-1], text[end : end + 1], apart=apart):
            return True
        at = text.find(word, at + 1)
    return False


def _joined(left: str, right: str, *, apart: bool) -> bool:
    """Whether two characters belong to one word; `apart` where scripts without spaces do not."""
    if not (left and right):
        return False
    return all(
        (one.isalnum() or unicodedata.combining(one)) and not (apart and _unspaced(one))
        for one in (left, right)
    )


def _unspaced(character: str) -> bool:
    wide = unicodedata.east_asian_width(character) in ("W", "F")
    return wide or unicodedata.name(character, "").startswith(_UNSPACED)
