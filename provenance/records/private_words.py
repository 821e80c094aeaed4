"""Whole words among the bytes of a file, whatever sort of file it is."""

import json
import re
import unicodedata
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property

_UNSPACED = ("THAI ", "LAO ", "KHMER ", "MYANMAR ", "TIBETAN ")
"""Scripts that leave no space between words, beside those whose letters are wide."""
_SPACE = (
    rb"(?:\s|\\[nrtf]|\\u(?:00a0|20[02][0-9af]|3000)|\xc2[\x85\xa0]"
    rb"|\xe2\x80[\x80-\x8a\xa8\xa9\xaf]|\xe3\x80\x80)+"
)
"""White space in UTF-8, or as an escape."""
_SPACE_16 = rb"(?:[\t-\r \x85\xa0]\x00|[\x00-\x0a\x28\x29\x2f]\x20|\x00\x30)+"
_ESCAPE_BEFORE = re.compile(rb"\\(?:[bfnrt]|u([0-9a-fA-F]{4}))\Z")
_ESCAPE_AFTER = re.compile(rb"\\u([0-9a-fA-F]{4})")
_LONGEST_ESCAPE = 6
_SIZES = range(1, 5)
"""How many bytes a character may have."""


@dataclass(frozen=True)
class WordBytes:
    """Words in one encoding, with any white space between them."""

    words: tuple[str, ...]
    encoding: str
    """``utf-8``, ``utf-16-le``, or ``json``: with escapes for what is not ASCII."""

    def stands_in(self, data: bytes) -> bool:
        """Whether the words stand there without another letter or digit beside them."""
        if self._encoded[0] not in data:
            return False
        first, last = self.words[0][0], self.words[-1][-1]
        apart = len(self.words) > 1 or len(self.words[0]) > 1
        found = self._pattern.search(data)
        while found:
            before = joined(self._before(data, found.start()), first, apart=apart)
            if not before and not joined(last, self._after(data, found.end()), apart=apart):
                return True
            found = self._pattern.search(data, found.start() + 1)
        return False

    @cached_property
    def _encoded(self) -> tuple[bytes, ...]:
        if self.encoding == "json":
            return tuple(json.dumps(word)[1:-1].encode() for word in self.words)
        return tuple(word.encode(self.encoding) for word in self.words)

    @cached_property
    def _pattern(self) -> re.Pattern[bytes]:
        space = _SPACE_16 if self.encoding == "utf-16-le" else _SPACE
        return re.compile(space.join(map(re.escape, self._encoded)))

    def _before(self, data: bytes, at: int) -> str:
        """The character that ends where the words begin; empty where there is none."""
        if self.encoding == "utf-16-le":
            return data[max(0, at - 2) : at].decode("utf-16-le", errors="ignore")
        if escape := _ESCAPE_BEFORE.search(data[max(0, at - _LONGEST_ESCAPE) : at]):
            return _escaped(escape[1])
        return _character(data[max(0, at - size) : at] for size in _SIZES)

    def _after(self, data: bytes, at: int) -> str:
        """The character that begins where the words end; empty where there is none."""
        if self.encoding == "utf-16-le":
            return data[at : at + 2].decode("utf-16-le", errors="ignore")
        if escape := _ESCAPE_AFTER.match(data, at):
            return _escaped(escape[1])
        return _character(data[at : at + size] for size in _SIZES)


def _escaped(digits: bytes | None) -> str:
    """The character of an escape; white space where it is not given by its number."""
    return " " if digits is None else chr(int(digits, 16))


def _character(tries: Iterable[bytes]) -> str:
    """The first of the tries that is a character; empty where none is."""
    for one in tries:
        with suppress(UnicodeDecodeError):
            return one.decode()
    return ""


def joined(left: str, right: str, *, apart: bool) -> bool:
    """Whether two characters belong to one word; `apart` where scripts without spaces do not."""
    if not (left and right):
        return False
    return all(
        (one.isalnum() or unicodedata.combining(one)) and not (apart and unspaced(one))
        for one in (left, right)
    )


def unspaced(character: str) -> bool:
    """Whether a character is of a script that leaves no space between words."""
    wide = unicodedata.east_asian_width(character) in ("W", "F")
    return wide or unicodedata.name(character, "").startswith(_UNSPACED)
