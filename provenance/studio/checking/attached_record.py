"""The record inside a certificate, as far as a check needs it."""

from typing import Any, Literal

import msgspec

from provenance.records.entry import encode


class _Certificate(msgspec.Struct, frozen=True):
    number: str
    revision: int
    key_sha256: str | None


class _Studio(msgspec.Struct, frozen=True):
    studio_id: str


class _Picture(msgspec.Struct, frozen=True):
    thumbnail_sha256: str


class AttachedRecord(msgspec.Struct, frozen=True):
    """What the record says of itself; the rest of it is of no matter here."""

    form: Literal["certificate-record/1"]
    certificate: _Certificate
    studio: _Studio
    picture: _Picture


def read_record(data: bytes) -> AttachedRecord | None:
    """The record in `data`; None when it is not one, or not in its canonical form."""
    try:
        record = msgspec.json.decode(data, type=AttachedRecord)
        return record if encode(msgspec.json.decode(data, type=Any)) == data else None
    except (msgspec.MsgspecError, UnicodeError, RecursionError):
        return None
