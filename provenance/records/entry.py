"""One entry of the journal, as bytes that are never written twice.

The bytes are JSON in the canonical form of RFC 8785: keys sorted, no white
space, text in NFC, integers only.  Each entry holds the digest of the one
before it, so that no entry can be changed, dropped or slipped in unseen.
"""

import hashlib
import re
import unicodedata
from typing import Literal

import msgspec

from provenance.errors import Damaged, Problem, Refused
from provenance.model.body import Body, Count, Part, Ref
from provenance.records.clock import Moment

Verb = Literal["enter", "change", "correct", "void", "undo"]
"""enter: a new record.  change: its ordinary progress.  correct: what was
recorded was wrong.  void: it should not be there.  undo: an act is taken back."""

GENESIS = "0" * 64
"""Stands where the first entry would name the digest of an earlier one."""


class Entry(Part, frozen=True, kw_only=True):
    """The envelope of one entry.

    `body` is null when the record is retired.  `base` is the entry that held
    the version replaced; null for a new record.
    """

    seq: Ref
    act: Ref
    verb: Verb
    moment: Moment
    who: str
    record: Ref
    base: Ref | None
    kind: str
    form: Count
    body: msgspec.Raw
    reason: str
    undoes: Ref | None
    previous: str

    @property
    def retires(self) -> bool:
        """Whether the record ends with this entry."""
        return self.body == NOTHING


NOTHING = msgspec.Raw(b"null")

_ENCODER = msgspec.json.Encoder(order="sorted")
_DECODER = msgspec.json.Decoder(Entry)


def encode(value: object) -> bytes:
    """The canonical bytes of a journal value (equal to RFC 8785 for what we store)."""
    return _ENCODER.encode(value)


def decode(data: bytes) -> Entry:
    """The entry that `data` holds.  Raises Damaged when it holds none."""
    try:
        return _DECODER.decode(data)
    except (msgspec.MsgspecError, UnicodeDecodeError, TypeError, RecursionError) as error:
        # TypeError: a spoiled page may hold a number where the bytes should be
        raise Damaged(
            Problem(
                what=f"an entry of the journal cannot be read: {error}",
                mend="run `provenance audit`, and restore a backup into a new folder",
            )
        ) from error


def digest(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()


def body_bytes(body: Body) -> bytes:
    """The canonical bytes of `body`, after checking that they read back the same.

    Raises Refused when a field is of the wrong type or range, when text is not
    in NFC, or holds a control character other than a line break.
    """
    name = type(body).KIND
    try:
        data = encode(body)
        again = msgspec.json.decode(data, type=type(body))
    except (msgspec.MsgspecError, UnicodeError, OverflowError, TypeError) as error:
        raise Refused(
            Problem(what=f"{error}", record=name, mend="give a value of that kind")
        ) from (error)
    if again != body:
        raise Refused(Problem(what="the record would not read back as written", record=name))
    _check_text(data, name)
    return data


def check_words(text: str, field: str) -> str:
    """`text` itself, when the envelope may hold it as the body holds text.

    Raises Refused otherwise.
    """
    try:
        _check_text(encode(text), field)
    except UnicodeError as error:
        raise Refused(Problem(what=f"{error}", field=field, mend="type it anew")) from error
    return text


_PLAIN = re.compile(rb"[ -\[\]-~]*")
"""What needs no closer look: ASCII without a control character, and without an escape."""
_ESCAPE = re.compile(r"\\(.)")
_LATE_CONTROL = re.compile("[\x7f-\x9f]")


def _check_text(data: bytes, name: str) -> None:
    if _PLAIN.fullmatch(data):
        return
    text = data.decode("utf-8")
    if not unicodedata.is_normalized("NFC", text):
        raise Refused(
            Problem(what="text is not in Unicode form NFC", record=name, mend="normalise it first")
        )
    # JSON writes controls as escapes; of those only a line break is welcome.
    escapes = {match.group(1) for match in _ESCAPE.finditer(text)} - {'"', "\\", "n"}
    if escapes or _LATE_CONTROL.search(text):
        raise Refused(
            Problem(
                what="text holds a control character",
                record=name,
                mend="take it out and try again",
            )
        )
