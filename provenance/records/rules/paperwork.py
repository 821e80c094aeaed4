"""Rules for scans and certificates."""

import re
from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.certificate import Certificate
from provenance.model.check_characters import verify
from provenance.model.prints import Scan
from provenance.records.rules.case import Case

SHA256 = re.compile(r"[0-9a-f]{64}")
FILE_NAME = re.compile(r"[\w][\w .+-]{0,119}")


def scan(case: Case[Scan]) -> Iterator[Problem]:
    """Digests are digests."""
    yield from _digests(case, "file_sha256", "thumbnail_sha256")


def _digests(case: Case[Scan] | Case[Certificate], *fields: str) -> Iterator[Problem]:
    for field in fields:
        if not SHA256.fullmatch(getattr(case.body, field)):
            yield case.problem("is not a SHA-256 in hex", field)


def certificate(case: Case[Certificate]) -> Iterator[Problem]:
    """One number a certificate, one certificate in force a print, its words never changed."""
    body = case.body
    if not verify(body.number):
        yield case.problem(f"the check characters of {body.number} do not agree", "number")
    if body.revision < 1:
        yield case.problem("revisions are counted from 1", "revision")
    if not FILE_NAME.fullmatch(body.file_name):
        yield case.problem(f"{body.file_name!r} is not a plain file name", "file_name")
    yield from _digests(case, "record_sha256", "pdf_sha256")
    if case.verb == "enter":
        yield from _head_stands(case)
    for other in case.act.linked(body.print, Certificate, "print"):
        if other.id != case.record and other.body.state == body.state == "issued":
            yield case.problem(
                f"certificate {other.body.number} is in force for this print",
                "print",
                "withdraw it, or issue a revision of it",
            )
    if case.before is not None and case.before.state != "issued" and case.verb != "undo":
        yield case.problem(f"it is {case.before.state} already", "state")
    if body.state != "issued" and not body.state_why.strip():
        yield case.problem("a reason is needed", "state_why", "say why, in a few words")
    if case.before is not None and _words(case.before) != _words(body):
        yield case.problem(
            "what was issued is never changed", "statement", "issue a revision instead"
        )


def _head_stands(case: Case[Certificate]) -> Iterator[Problem]:
    """The head that is printed on it is one that this journal had."""
    row = case.act.connection.execute(
        "SELECT digest FROM journal WHERE seq = ?", (case.body.head_seq,)
    ).fetchone()
    if row is None or row[0] != case.body.head_sha256:
        yield case.problem(
            f"entry {case.body.head_seq} of the journal does not have that digest",
            "head_sha256",
            "issue it again from the register as it stands",
        )


def _words(body: Certificate) -> tuple[object, ...]:
    return tuple(
        getattr(body, field)
        for field in body.__struct_fields__
        if field not in ("state", "state_why")
    )
