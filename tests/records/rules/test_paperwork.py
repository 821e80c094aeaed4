"""Scans and certificates."""

from typing import Any

import pytest

from provenance.errors import Refused
from provenance.model.certificate import Certificate
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import WHO, Shelf, certificate, enter, revise, scan, sheet


@pytest.fixture
def one(register: Register, shelf: Shelf) -> int:
    """A print."""
    return enter(register, sheet(shelf, "1", designation="1/25"))


@pytest.mark.parametrize("field", ["file_sha256", "thumbnail_sha256"])
def test_a_scan_names_its_files_by_digest(
    register: Register, refuses: Refuses, one: int, field: str
) -> None:
    refuses("is not a SHA-256 in hex", scan(one, b"", **{field: "../head"}))
    enter(register, scan(one, b""))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"number": "DR-1-00"}, "check characters of DR-1-00 do not agree"),
        ({"revision": 0}, "counted from 1"),
        ({"pdf_sha256": "AB" * 32}, "pdf_sha256: is not a SHA-256"),
        ({"record_sha256": ""}, "record_sha256: is not a SHA-256"),
        ({"file_name": "../register.db"}, "not a plain file name"),
        ({"file_name": ".hidden"}, "not a plain file name"),
        ({"file_name": ""}, "not a plain file name"),
        ({"head_seq": 1}, "entry 1 of the journal does not have that digest"),
        ({"head_seq": 999}, "entry 999 of the journal does not have that digest"),
        ({"head_sha256": "0" * 64}, "does not have that digest; issue it again"),
        ({"print": 1}, "#1 is a studio, not a print"),
    ],
)
def test_a_certificate_is_refused(
    register: Register, refuses: Refuses, one: int, fields: dict[str, Any], words: str
) -> None:
    refuses(words, certificate(register, one, b"%PDF", **fields))


@pytest.fixture
def issued(register: Register, one: int) -> int:
    """A certificate in force."""
    return enter(register, certificate(register, one, b"%PDF"))


def test_one_certificate_is_in_force(
    register: Register, refuses: Refuses, one: int, issued: int
) -> None:
    revision = {"revision": 2, "file_name": f"DR-{one}-r2.pdf"}
    refuses("is in force for this print", certificate(register, one, b"%PDF", **revision))
    revise(register, issued, state="superseded", state_why="a test was added")
    enter(register, certificate(register, one, b"%PDF", **revision))


@pytest.mark.parametrize(
    "fields",
    [
        {"language": "fr"},
        {"pdf_sha256": "ef" * 32},
        {"issued_at": "2031-06-02T12:00:00.000Z"},
        {"revision": 2},
    ],
)
def test_what_was_issued_is_never_changed(
    refuses: Refuses, issued: int, fields: dict[str, Any]
) -> None:
    for verb in ("change", "correct"):
        refuses("what was issued is never changed", issued, verb=verb, **fields)


def test_a_certificate_is_withdrawn_with_a_reason(
    register: Register, refuses: Refuses, issued: int
) -> None:
    refuses("a reason is needed", issued, state="withdrawn")
    withdrawn = revise(register, issued, state="withdrawn", state_why="the print was exchanged")
    refuses("it is withdrawn already", issued, state="issued", state_why="")
    with register.act(WHO) as act:
        act.undo(withdrawn, "the wrong certificate")
    assert register.read.get(Certificate, issued).body.state == "issued"


def test_a_certificate_is_never_retired(register: Register, issued: int) -> None:
    with pytest.raises(Refused, match="never retired; withdraw the certificate"):
        void(register, issued)
    with pytest.raises(Refused, match="never retired"), register.act(WHO) as act:
        act.undo(issued, "issued by mistake")


def void(register: Register, record: int) -> None:
    with register.act(WHO) as act:
        act.void(record, record, "issued by mistake")
