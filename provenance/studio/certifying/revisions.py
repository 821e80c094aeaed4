"""The revisions of a certificate: which there are, and what a new one says of the last."""

from dataclasses import dataclass
from typing import Any

import msgspec
from msgspec.structs import replace

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.wording_rules import FORBIDDEN
from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.model.certificate import Certificate
from provenance.model.check_characters import verify
from provenance.records.act import Act
from provenance.records.entry import check_words, digest
from provenance.records.reader import Reader, Stored
from provenance.studio.certifying.changes import Change
from provenance.studio.folder import StudioFolder


@dataclass(frozen=True)
class Replaced:
    """The certificate that a revision takes the place of, and why."""

    certificate: Fact[Certificate]
    why: str

    def as_data(self, changed: tuple[Change, ...]) -> dict[str, Any]:
        """What the record of the revision says of it, and of what it changed."""
        body = self.certificate.body
        return {
            "revision": body.revision,
            "issued_at": body.issued_at,
            "record_sha256": body.record_sha256,
            "why": self.why,
            "changed": msgspec.to_builtins(changed),
        }


def replaced_by(history: PrintHistory, name: str, why: str) -> Replaced:
    """What a revision of the print's certificate replaces.  Raises Refused."""
    why = check_words(why.strip(), "reason")
    if not why:
        raise Refused(Problem("a reason is needed", name, "reason", "say what was corrected"))
    if found := FORBIDDEN.search(why):
        raise Refused(
            Problem(f"it would say {found[0]!r}, which no record can show", name, "reason")
        )
    for certificate in history.certificates:
        if certificate.body.state == "issued":
            return Replaced(certificate, why)
    raise Refused(
        Problem("no certificate is in force for it", name, mend="certify it without --revise")
    )


def revisions(reader: Reader, number: str) -> list[Stored[Certificate]]:
    """Every revision of a certificate, the first first; empty for an unknown number."""
    number = number.strip().upper()
    if not verify(number):
        return []
    rows = reader.connection.execute(
        "SELECT id FROM record WHERE kind = 'certificate' AND live"
        " AND (code = ? OR code GLOB ?) ORDER BY id",
        (number, f"{number}.r*"),
    ).fetchall()
    return [reader.get(Certificate, row[0]) for row in rows]


def kept_record(folder: StudioFolder, certificate: Certificate) -> dict[str, Any]:
    """The record behind a certificate, as it lies in the studio folder.

    Raises NotFound where it is missing, Damaged where it is not what was issued.
    """
    name = certificate.record_name
    mend = "bring it back from a backup, or take it out of the certificate's PDF"
    try:
        data = (folder.certificates / name).read_bytes()
    except OSError as error:
        raise NotFound(Problem(f"cannot be read: {error.strerror}", name, mend=mend)) from error
    if digest(data) != certificate.record_sha256:
        raise Damaged(Problem("it is not the record that was issued", name, mend=mend))
    record: dict[str, Any] = msgspec.json.decode(data)
    return record


def changes_of(record: dict[str, Any]) -> tuple[Change, ...]:
    """What the record of a revision says that it changed; nothing for the first."""
    replaces = record["certificate"]["replaces"] or {}
    return msgspec.convert(replaces.get("changed", ()), tuple[Change, ...])


def withdraw(act: Act, number: str, reason: str) -> Stored[Certificate]:
    """Withdraw the certificate in force under a number; it stays on record with the reason.

    Raises NotFound for an unknown number, Refused when none is in force or the
    reason is empty.
    """
    held = revisions(act, number)
    if not held:
        raise NotFound(Problem("no such certificate is on record", number.strip().upper()))
    last = held[-1]
    why = check_words(reason.strip(), "reason")
    act.change(last.id, last.version, replace(last.body, state="withdrawn", state_why=why))
    return act.get(Certificate, last.id)
