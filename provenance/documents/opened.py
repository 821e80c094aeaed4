"""Read a certificate back from its file, trusting nothing in it."""

import hashlib
import io
import logging
import warnings
from dataclasses import dataclass

from provenance.documents.seal import Seal, find
from provenance.errors import Problem, Refused

MOST_BYTES = 50_000_000
"""Larger than any certificate by far."""


@dataclass(frozen=True)
class Opened:
    """What a file holds."""

    sha256: str
    """Of the whole file."""
    seal: Seal | None
    words: str
    """Everything printed on its pages, without white space."""
    attachments: dict[str, bytes]
    picture_sha256: tuple[str, ...]
    """Digests of the pictures on its pages, as they lie in the file."""
    in_one_piece: bool
    """Whether it ends once: an addition would bring an end of its own."""
    unreadable: str = ""
    """Why its pages cannot be read; then nothing of them is known."""


def open_certificate(pdf: bytes, name: str) -> Opened:
    """What the file holds.  Raises Refused, naming the file, when it is no PDF."""
    if len(pdf) > MOST_BYTES:
        raise _refusal(name, f"it is larger than {MOST_BYTES // 1_000_000} MB")
    if not pdf.startswith(b"%PDF-"):
        raise _refusal(name, "it is no PDF")
    unreadable, words, attachments, pictures = "", "", dict[str, bytes](), tuple[str, ...]()
    try:
        words, attachments, pictures = _read(pdf)
    except Exception as error:  # whatever a reader of PDF makes of hostile bytes
        unreadable = f"{type(error).__name__}: {error}"
    return Opened(
        sha256=hashlib.sha256(pdf).hexdigest(),
        seal=find(pdf),
        words=words,
        attachments=attachments,
        picture_sha256=pictures,
        in_one_piece=pdf.count(b"startxref") == pdf.count(b"%%EOF") == 1,
        unreadable=unreadable,
    )


def _read(pdf: bytes) -> tuple[str, dict[str, bytes], tuple[str, ...]]:
    from pypdf import PdfReader
    from pypdf.generic import StreamObject

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        reader = PdfReader(io.BytesIO(pdf), strict=True)
        words = "".join("".join(page.extract_text().split()) for page in reader.pages)
        attachments = {
            name: data for name, versions in reader.attachments.items() for data in versions
        }
        pictures = []
        for page in reader.pages:
            held = page["/Resources"].get_object().get("/XObject", {}).get_object()  # type: ignore[union-attr]
            for one in held.values():
                stream = one.get_object()
                if isinstance(stream, StreamObject):
                    pictures.append(hashlib.sha256(stream._data).hexdigest())
    return words, attachments, tuple(pictures)


def _refusal(name: str, why: str) -> Refused:
    return Refused(
        Problem(what=why, record=name, mend="give the file of a certificate, as it was issued")
    )
