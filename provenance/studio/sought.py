"""By what a person is looked for: whole words, as bytes in any file and as text where it is one."""

import json
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from provenance.records.private import Contact
from provenance.records.private_words import WordBytes, joined, unspaced

_LEAST_BYTES = 4
"""Fewer bytes stand in any file; they show nothing."""
_ESCAPED_SPACE = re.compile(r"\\[nrt]")
"""White space in JSON of which only a part is left."""


@dataclass(frozen=True)
class Sought:
    """What to look for; nothing, where the page of the person is not legible."""

    name: str = ""
    """Folded, with one blank between its words."""
    names: tuple[WordBytes, ...] = ()
    """What names the person: the name, the mail address, the telephone."""
    rest: tuple[WordBytes, ...] = ()
    """What is of the person, and may be of others: the postal address, the note."""

    @property
    def short(self) -> bool:
        """Whether the name is too short to be told from other bytes by chance."""
        return 0 < len(self.name.encode()) < _LEAST_BYTES

    def named_in(self, data: bytes) -> bool:
        """Whether a form or a page names the person, rather than where they live."""
        return any(one.stands_in(data) for one in self.names) or self.in_text(data)

    def in_bytes(self, data: bytes) -> bool:
        """Whether any of it stands in the bytes of a file, as whole words."""
        return any(one.stands_in(data) for one in (*self.names, *self.rest))

    def in_text(self, data: bytes) -> bool:
        """Whether the name stands in a text, or in the words of JSON, as whole words."""
        return bool(self.name) and _stands(self.name, _words(data))


def sought(page: Contact) -> Sought:
    """Everything by which the person on a page of the contact book can be found."""
    names = {line for text in (page.name, page.email, page.telephone) for line in _lines(text)}
    # of an address the lines after the first are a town and a country: others live there too
    rest = {page.address, *page.address.splitlines()[:1], page.note}
    return Sought(
        _folded(page.name), _written(names), _written({one for one in rest if _tells(one)})
    )


def _lines(text: str) -> tuple[str, ...]:
    return (text, *text.splitlines())


def _tells(text: str) -> bool:
    """Whether a text says more than one word, such as a town or *dealer*, which tells of nobody."""
    return len(text.split()) > 1 or any(one.isdigit() or unspaced(one) for one in text)


def _written(texts: set[str]) -> tuple[WordBytes, ...]:
    """The texts in each way they may be written, without those that any file may hold."""
    found = {
        WordBytes(tuple(one.split()), encoding)
        for words in {text.strip() for text in texts}
        if len(words.encode()) >= _LEAST_BYTES
        for form in ("NFC", "NFD")
        for text in (unicodedata.normalize(form, words),)
        for one in (text, text.casefold(), text.upper(), text.title())
        for encoding in ("utf-8", "utf-16-le", "json")
    }
    return tuple(found)


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
