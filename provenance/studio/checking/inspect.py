"""What the file of a certificate shows by itself, without any register."""

from dataclasses import dataclass

from provenance.documents.opened import Opened, open_certificate
from provenance.errors import Refused
from provenance.records.entry import digest
from provenance.studio.certifying.attached import RECORD_NAME, SIGNATURE_NAME
from provenance.studio.checking.attached_record import AttachedRecord, read_record
from provenance.studio.checking.verdict import Verdict
from provenance.studio.keys.public import PublicKey, grouped, read_public_key
from provenance.studio.keys.ring import PUBLIC_NAME

_INTACT = "every byte is as it was when the file was made; page and record agree"
_SEAL_GONE = "its record says that it was sealed, and no seal is found where it should be"
_NO_SEAL = (
    "it bears no seal, so the file alone shows accidents only:"
    " whoever alters it on purpose can make its sum anew"
)


@dataclass(frozen=True)
class Inspected:
    """What was found in a file."""

    opened: Opened
    record: AttachedRecord | None
    intact: Verdict
    sealed: Verdict
    bare: bool
    """Whether it has no record, and nothing that shows that it had one."""


def inspect(
    pdf: bytes,
    name: str,
    known: tuple[PublicKey, ...] = (),
    *,
    stranger: str = "that key is not the studio's: somebody else made this file",
) -> Inspected:
    """Answer what the file alone can answer.

    `known` are keys that are trusted; `stranger` is said of a seal by any other.
    Raises Refused, naming the file, when it is no PDF.
    """
    opened = open_certificate(pdf, name)
    data = opened.attachments.get(RECORD_NAME)
    record = read_record(data) if data is not None else None
    key = _sealing_key(opened, record)
    sealed = key if isinstance(key, Verdict) else _whose(key, known, stranger)
    wrong = _whole(opened, sealed=not isinstance(key, Verdict))
    bare = data is None and (opened.seal is None or not wrong)
    if bare:
        wrong = []
    if opened.unreadable:
        wrong += [f"its pages cannot be read ({opened.unreadable})"]
    elif data is None:
        wrong += ["no record is attached: it was stripped, or this is no certificate"]
    elif record is None:
        wrong += ["the attached record is not of the form that is issued"]
    else:
        wrong += _disagreements(opened, record, digest(data))
    intact = Verdict("no", tuple(wrong)) if wrong else Verdict("yes", (_INTACT,))
    return Inspected(opened, record, intact, sealed, bare)


def _whole(opened: Opened, *, sealed: bool) -> list[str]:
    """What is wrong with its bytes; `sealed` says whether a seal holds, whoever's it is."""
    seal = opened.seal
    if seal is None or not opened.in_one_piece:
        return ["the end of the file is not as it was made: something was appended or cut off"]
    whole = seal.sums_up() if seal.kind == "sha256" else sealed
    return [] if whole else ["bytes of the file are not as they were when it was made"]


def _disagreements(opened: Opened, record: AttachedRecord, record_sha256: str) -> list[str]:
    """Where page, picture and seal say another thing than the record."""
    certificate, wrong = record.certificate, []
    if record_sha256 not in opened.words:
        wrong.append("the digest printed on the page is not that of the attached record")
    if certificate.number not in opened.words:
        wrong.append("the number printed on the page is not that of the attached record")
    picture, seen = record.picture, set(opened.picture_sha256)
    if picture.thumbnail_sha256 not in seen:
        wrong.append("the picture on the page is not the one that the record names")
    elif seen - {picture.thumbnail_sha256, picture.studio_mark_sha256}:
        wrong.append("there is a picture on the page that the record does not name")
    if certificate.key_sha256 is not None:
        if opened.seal is None or opened.seal.kind != "ed25519":
            wrong.append("its record says that it was sealed, and the seal is gone")
        if certificate.key_sha256 not in opened.words:
            wrong.append("the key printed on the page is not the one that the record names")
    return wrong


def _sealing_key(opened: Opened, record: AttachedRecord | None) -> PublicKey | Verdict:
    """The key by which the seal of the file holds; the answer where none does."""
    seal = opened.seal
    if seal is None or seal.kind != "ed25519":
        promised = record is not None and record.certificate.key_sha256 is not None
        return Verdict("no", (_SEAL_GONE,)) if promised else Verdict("none", (_NO_SEAL,))
    try:
        key = read_public_key(opened.attachments.get(PUBLIC_NAME, b""), PUBLIC_NAME)
    except Refused:
        return Verdict("no", ("the key that would show whose seal it is cannot be read",))
    if not key.holds(seal.value, seal.over):
        return Verdict("no", ("the seal does not hold for this file",))
    signature = opened.attachments.get(SIGNATURE_NAME, b"")
    if not key.holds(signature, opened.attachments.get(RECORD_NAME, b"")):
        return Verdict("no", ("the signature beside the record does not hold",))
    if record is None or record.certificate.key_sha256 != key.fingerprint:
        return Verdict("no", ("the record names another key",))
    return key


def _whose(key: PublicKey, known: tuple[PublicKey, ...], stranger: str) -> Verdict:
    told = f"sealed by the key {grouped(key.fingerprint)}"
    if not known:
        return Verdict("yes", (told, "compare it with the fingerprint that the studio gives"))
    if key in known:
        return Verdict("yes", (told, "that key is the studio's"))
    return Verdict("no", (told, stranger))
