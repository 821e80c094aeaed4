"""The record inside a certificate, as far as a check needs it."""

from typing import Any, Literal

import msgspec

from provenance.records.entry import encode
from provenance.studio.certifying.changes import Change


class Replaces(msgspec.Struct, frozen=True):
    """The revision before it, why it was replaced, and what was changed."""

    revision: int
    why: str
    changed: tuple[Change, ...]


class _Certificate(msgspec.Struct, frozen=True):
    number: str
    revision: int
    key_sha256: str | None
    replaces: Replaces | None


class _Studio(msgspec.Struct, frozen=True):
    studio_id: str
    name: str
    artist: str


class _Print(msgspec.Struct, frozen=True):
    designation: str
    mark: str


class _Negative(msgspec.Struct, frozen=True):
    title: str


class _Picture(msgspec.Struct, frozen=True):
    thumbnail_sha256: str
    studio_mark_sha256: str | None


class _Journal(msgspec.Struct, frozen=True):
    """Where the journal stood; the paper has it printed on it."""

    entries: int
    head_sha256: str


class AttachedRecord(msgspec.Struct, frozen=True):
    """What the record says of itself; the rest of it is of no matter here."""

    form: Literal["certificate-record/1"]
    certificate: _Certificate
    studio: _Studio
    print: _Print
    negative: _Negative
    picture: _Picture
    journal: _Journal

    @property
    def about(self) -> str:
        """What it certifies, in a line."""
        return f"{self.negative.title}, {self.print.designation}, by {self.studio.artist}"


def read_record(data: bytes) -> AttachedRecord | None:
    """The record in `data`; None when it is not one, or not in its canonical form."""
    try:
        record = msgspec.json.decode(data, type=AttachedRecord)
        return record if encode(msgspec.json.decode(data, type=Any)) == data else None
    except (msgspec.MsgspecError, UnicodeError, RecursionError):
        return None
