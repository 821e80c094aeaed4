"""Issuing a certificate: what stands on it, what is entered, and when nothing is."""

import errno
import hashlib
import io
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdf
import pytest
import rfc8785

from provenance.craft.object_id import object_id
from provenance.craft.wording_rules import FORBIDDEN
from provenance.errors import Conflict, Damaged, NotFound, Problem, Refused
from provenance.model.certificate import Certificate
from provenance.model.check_characters import verify
from provenance.model.edition import Edition
from provenance.model.prints import Scan
from provenance.model.proof import Test
from provenance.records import files
from provenance.records.audit import audit
from provenance.records.dossier import print_history
from provenance.records.entry import encode
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.studio.certifying.certify import Issued, certify
from provenance.studio.certifying.copies import put_copy
from provenance.studio.certifying.particulars import edition_today
from provenance.studio.certifying.record import certificate_record
from provenance.studio.checking.check import check
from provenance.studio.folder import StudioFolder
from tests.studio.finished import Desk, another, desk, picture
from tests.studios import enter, release, revise, scan, sheet, signature, silver_test, step


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    yield held
    held.register.close()


def issue(studio: Desk, **other: Any) -> Issued:
    return certify(studio.register, studio.folder, studio.print, **other)


def entered(studio: Desk, issued: Issued) -> Certificate:
    return studio.register.read.get(Certificate, issued.record).body


def page(issued: Issued) -> str:
    """What the certificate says, in one line."""
    text = " ".join(one.extract_text() for one in pypdf.PdfReader(io.BytesIO(issued.pdf)).pages)
    return " ".join(text.split())


def close(text: str) -> str:
    """`text` without the spaces that lines and groups of digits put into it."""
    return re.sub(r"\s", "", text)


def test_the_file_is_the_one_that_the_journal_remembers(studio: Desk) -> None:
    issued = issue(studio)
    body = entered(studio, issued)
    data = issued.path.read_bytes()
    assert issued.path == studio.folder.certificates / body.file_name
    assert data == issued.pdf
    assert hashlib.sha256(data).hexdigest() == body.pdf_sha256
    assert body.statement == issued.claims
    assert not audit(studio.folder.path).damaged


def test_the_page_shows_the_number_the_record_and_where_the_journal_stood(studio: Desk) -> None:
    head = studio.register.read.head()
    issued = issue(studio)
    body, said = entered(studio, issued), close(page(issued))
    assert (body.head_seq, body.head_sha256) == head
    assert body.record_sha256 in said
    assert head[1] in said
    assert str(head[0]) in said
    assert issued.number in said


def test_every_sentence_stands_on_the_page_with_its_standing(studio: Desk) -> None:
    issued = issue(studio)
    said = close(page(issued))
    assert {claim.section for claim in issued.claims} == {"made", "tested", "unknown"}
    for claim in issued.claims:
        assert close(claim.sentence) in said


def record_of(studio: Desk, issued: Issued) -> dict[str, Any]:
    """The record behind a certificate, gathered anew from the register."""
    body = entered(studio, issued)
    history = print_history(studio.register.read, studio.print)
    return certificate_record(
        studio.register.read,
        history,
        edition_today(studio.register.read, history),
        body.statement,
        number=body.number,
        revision=body.revision,
        issued_at=body.issued_at,
        head=(body.head_seq, body.head_sha256),
    )


def test_the_record_is_canonical_and_its_digest_can_be_had_again(studio: Desk) -> None:
    issued = issue(studio)
    record = record_of(studio, issued)
    data = encode(record)
    assert data == rfc8785.dumps(record)
    assert hashlib.sha256(data).hexdigest() == entered(studio, issued).record_sha256


def test_every_piece_of_evidence_is_an_entry_of_the_journal_with_its_digest(studio: Desk) -> None:
    issued = issue(studio)
    evidence = record_of(studio, issued)["evidence"]
    held = {one["record"] for one in evidence}
    assert {record for claim in issued.claims for record in claim.evidence} <= held
    entries = {seq: digest for seq, _data, digest in studio.register.read.entries()}
    assert all(entries[one["entry"]] == one["entry_sha256"] for one in evidence)


def test_equal_registers_give_equal_bytes(studio: Desk, tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    moment = studio.register.clock
    studio.register.close()
    shutil.copytree(studio.folder.path, copy)
    issued = []
    for path in (studio.folder.path, copy):
        with Register.open(path, clock=moment) as register:
            issued.append(certify(register, StudioFolder(path), studio.print))
    assert issued[0].pdf == issued[1].pdf
    assert issued[0].path.read_bytes() == issued[1].path.read_bytes()


def test_a_picture_is_taken_from_the_latest_scan(studio: Desk) -> None:
    enter(studio.register, scan(studio.print, b"not kept", file_sha256="ef" * 32))
    with pytest.raises(NotFound, match="thumbnail"):
        issue(studio)


class Before:
    """What a studio holds, to see that a refusal leaves it alone."""

    def __init__(self, studio: Desk) -> None:
        self._studio = studio
        self._held = self._now()

    def _now(self) -> tuple[object, ...]:
        folder = self._studio.folder.path
        kept = sorted(str(one) for one in folder.rglob("*") if not one.name.startswith("register"))
        return self._studio.register.read.head(), kept

    def unchanged(self) -> bool:
        return self._now() == self._held


def gone(studio: Desk) -> None:
    revise(
        studio.register,
        studio.print,
        existence="destroyed",
        gone_on="2031-05-01",
        gone_why="burnt",
        gone_evidence="seen by the framer",
    )


def unsigned(studio: Desk) -> None:
    revise(studio.register, studio.print, signature=None)


def unnumbered(studio: Desk) -> None:
    revise(studio.register, studio.print, signature=None, designation=None)


def without_scan(studio: Desk) -> None:
    (held,) = studio.register.read.linked(studio.print, Scan, "print")
    with studio.register.act("printer") as act:
        act.void(held.id, held.version, "the wrong print")


def failed(studio: Desk) -> None:
    enter(studio.register, silver_test(studio.print, place=5, verdict="failed"))


def failed_washing(studio: Desk) -> None:
    test = silver_test(
        studio.print,
        place=5,
        verdict="failed",
        question="thiosulfate",
        method="silver-nitrate spot",
    )
    enter(studio.register, test)


def certified(studio: Desk) -> None:
    issue(studio)


def boasting(studio: Desk) -> None:
    revise(studio.register, studio.wash, agent="archival washer")


OBSTACLES = {
    "existence": (gone, "it is destroyed"),
    "signed": (unsigned, "it is not signed"),
    "designation": (unnumbered, "it has no number"),
    "scan": (without_scan, "there is no picture"),
    "test #": (failed, "residual-silver test of 2031-03-02 failed"),
    "test": (failed_washing, "residual-thiosulfate test of 2031-03-02 failed"),
    "certificate": (certified, "is in force"),
    "made.washed": (boasting, "'archival'"),
}


@pytest.mark.parametrize(("field", "case"), OBSTACLES.items(), ids=OBSTACLES)
def test_where_something_stands_against_it_nothing_is_written(
    studio: Desk, field: str, case: tuple[Any, str]
) -> None:
    spoil, what = case
    spoil(studio)
    before = Before(studio)
    with pytest.raises(Refused) as caught:
        issue(studio)
    problems = [one for one in caught.value.problems if what in one.what]
    assert len(problems) == 1
    assert problems[0].field.startswith(field)
    assert problems[0].record == ("QUAY Q7" if spoil is unnumbered else "QUAY 7/25")
    assert problems[0].mend
    assert before.unchanged()


def test_every_obstacle_is_told_at_once(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio", designation=None, signature=None)
    failed(held)
    with held.register, pytest.raises(Refused) as caught:
        issue(held)
    assert len(caught.value.problems) == 3


def test_a_failed_test_that_was_mended_and_repeated_is_no_obstacle(studio: Desk) -> None:
    failed(studio)
    enter(
        studio.register,
        step(studio.shelf, studio.print, place=6),
        step(studio.shelf, studio.print, place=7, role="wash", bath=None),
        silver_test(studio.print, place=8, reading="no stain"),
    )
    assert "tested.silver.mended" in [claim.id for claim in issue(studio).claims]


def test_what_was_decided_on_another_record_is_a_conflict(studio: Desk) -> None:
    seen = print_history(studio.register.read, studio.print)
    enter(studio.register, silver_test(studio.print, place=5, verdict="unclear"))
    before = Before(studio)
    with pytest.raises(Conflict) as caught:
        issue(studio, seen=seen)
    assert caught.value.problems[0].record == "QUAY 7/25"
    assert before.unchanged()
    assert issue(studio, seen=print_history(studio.register.read, studio.print)).record


def test_a_disk_that_fails_leaves_the_journal_as_it_was(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    before = Before(studio)
    with monkeypatch.context() as patch:
        patch.setattr(files.os, "fsync", full)
        with pytest.raises(Refused, match="No space left"):
            issue(studio)
    assert before.unchanged()
    assert issue(studio).path.exists()


def test_an_altered_thumbnail_is_damage_and_nothing_is_issued(studio: Desk) -> None:
    (kept,) = studio.folder.images.iterdir()
    kept.write_bytes(picture() + b"\0")
    before = Before(studio)
    with pytest.raises(Damaged, match="not the picture"):
        issue(studio)
    assert before.unchanged()


def test_numbers_are_never_given_twice_and_can_be_checked(studio: Desk) -> None:
    issued = [issue(studio)]
    for mark, number in (("Q8", "8/25"), ("Q9", "9/25")):
        held = another(studio, mark, number)
        issued.append(certify(studio.register, studio.folder, held))
    held = studio.register.read.get(Certificate, issued[1].record)
    revise(studio.register, held.id, state="withdrawn", state_why="mistyped")
    issued.append(certify(studio.register, studio.folder, held.body.print))
    numbers = [one.number for one in issued]
    assert len(set(numbers)) == 4
    assert all(verify(number) and number.startswith("DR-2031-") for number in numbers)
    assert [number.split("-")[2] for number in numbers] == ["0001", "0002", "0003", "0004"]


def test_how_far_the_edition_has_come_counts_a_print_and_its_replacement_once(
    studio: Desk,
) -> None:
    loose = {"unnumbered": 3}
    edition = studio.register.read.get(Edition, studio.shelf.edition)
    revise(studio.register, edition.id, verb="correct", **loose)
    enter(
        studio.register,
        sheet(studio.shelf, "Q20", designation="unnumbered"),
        sheet(studio.shelf, "Q21", designation="unnumbered"),
        sheet(studio.shelf, "Q22", designation="TP"),
    )
    gone(studio)
    enter(
        studio.register,
        sheet(studio.shelf, "Q23", designation="7/25", replaces=studio.print),
    )
    history = print_history(studio.register.read, studio.print)
    assert edition_today(studio.register.read, history).given == 3


def test_a_copy_is_put_where_it_is_asked_for(studio: Desk, tmp_path: Path) -> None:
    issued = issue(studio)
    assert put_copy(issued, tmp_path / "mine.pdf").read_bytes() == issued.pdf
    inside = put_copy(issued, tmp_path)
    assert inside == tmp_path / issued.path.name
    assert inside.read_bytes() == issued.pdf


def test_a_copy_that_fails_says_that_the_certificate_is_issued(
    studio: Desk, tmp_path: Path
) -> None:
    issued = issue(studio)
    with pytest.raises(Refused) as caught:
        put_copy(issued, tmp_path / "nowhere" / "mine.pdf")
    (problem,) = caught.value.problems
    assert f"certificate {issued.number} is issued" in problem.what
    assert str(issued.path) in problem.mend


def test_the_page_claims_nothing_that_no_record_can_show(studio: Desk) -> None:
    said = page(issue(studio))
    assert not FORBIDDEN.search(said)


TYPED = '<img src="/etc/hostname"/> & <b>bold</b> {when} [x] %s \\n'


def test_what_was_typed_is_printed_as_it_was_typed(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio", inscriptions=TYPED)
    with held.register:
        read = held.register.read
        revise(held.register, held.wash, agent=TYPED)
        test = read.get(Test, held.test)
        revise(held.register, test.id, reading=TYPED)
        negative = read.get(Edition, held.shelf.edition).body.negative
        revise(held.register, negative, title="<i>Slip</i> & <way>")
        edition = read.get(Edition, held.shelf.edition)
        revise(held.register, edition.id, verb="correct", promise=TYPED)
        issued = issue(held)
    said = close(page(issued))
    assert said.count(close(TYPED)) == 4
    assert close("<i>Slip</i> & <way>") in said


@pytest.mark.parametrize("character", ["\x1b", "\x9b", "\x7f", "\0"])
def test_a_character_that_steers_a_terminal_never_enters_a_record(
    studio: Desk, character: str
) -> None:
    with pytest.raises(Refused, match="control character"):
        revise(studio.register, studio.print, inscriptions=f"a{character}[2Jb")


def test_nothing_of_the_contact_book_reaches_a_certificate(studio: Desk) -> None:
    name, address = "Somebody Unmistakable", "17 Nowhere Passage"
    key = Contacts(studio.folder.path).add(name=name, address=address)
    enter(studio.register, release(studio.print, party=key))
    issued = issue(studio)
    said = close(page(issued)).encode() + issued.pdf + encode(record_of(studio, issued))
    for private in (name, address, key):
        assert private.encode() not in said
        assert close(private).encode() not in said


def test_a_problem_names_the_print_by_its_mark_before_it_has_a_number(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio", designation=None, signature=None)
    seen = print_history(held.register.read, held.print)
    enter(held.register, step(held.shelf, held.print, place=9))
    with held.register, pytest.raises(Conflict) as caught:
        issue(held, seen=seen)
    problem: Problem = caught.value.problems[0]
    assert problem.record == "QUAY Q7"


def test_a_stamp_is_certified_as_a_stamp(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio", signature=signature(means="stamp"))
    with held.register:
        said = page(issue(held))
    assert "not signed" in said


@pytest.mark.parametrize(("mark", "shown"), [("Q7", True), ("7/25", False)])
def test_a_number_given_in_place_of_a_mark_is_not_said_to_stand_on_the_back(
    tmp_path: Path, mark: str, shown: bool
) -> None:
    """A table without a column of marks says nothing of the back of a sheet."""
    made = desk(tmp_path / "marked", mark=mark)
    issued = issue(made)
    assert ("on the back" in page(issued)) == shown
    found = check(issued.path, made.folder)
    assert (f"the mark on the back ({mark})" in found.compare) == shown
    assert ("its number (7/25)" in found.compare) != shown
    described = "; ".join(
        one.words for one in object_id(print_history(made.register.read, made.print))
    )
    made.register.close()
    assert (f"{mark} on the back" in described) == shown
