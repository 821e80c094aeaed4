"""Rules for scans and certificates."""

import re
from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.certificate import Certificate
from provenance.model.check_characters import verify
from provenance.model.prints import Scan
from provenance.records.rules.case import Case

_SHA256 = re.compile(r"[0-9a-f]{64}")


def scan(case: Case[Scan]) -> Iterator[Problem]:
    """Digests are digests."""
    for field in ("file_sha256", "thumbnail_sha256"):
        if not _SHA256.fullmatch(getattr(case.body, field)):
            yield case.problem("is not a SHA-256 in hex", field)


def certificate(case: Case[Certificate]) -> Iterator[Problem]:
    """One number a certificate, one certificate in force a print, its words never changed."""
    body = case.body
    if not verify(body.number):
        yield case.problem(f"the check characters of {body.number} do not agree", "number")
    for other in case.act.linked(body.print, Certificate, "print"):
        if other.id != case.record and other.body.state == body.state == "issued":
            yield case.problem(
                f"certificate {other.body.number} is in force for this print",
                "print",
                "withdraw it, or issue a revision of it",
            )
    if case.before is not None and case.before.state != "issued":
        yield case.problem(f"it is {case.before.state} already", "state")
    if body.state != "issued" and not body.state_why.strip():
        yield case.problem("a reason is needed", "state_why", "say why, in a few words")
    if case.before is not None and _words(case.before) != _words(body):
        yield case.problem(
            "what was issued is never changed", "statement", "issue a revision instead"
        )


def _words(body: Certificate) -> tuple[object, ...]:
    return tuple(
        getattr(body, field)
        for field in body.__struct_fields__
        if field not in ("state", "state_why")
    )
