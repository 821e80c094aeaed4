"""Checking the file of a certificate: what is caught, by what, and what is not promised."""

import re
import shutil
import sqlite3
import zlib
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import msgspec
import pytest

from provenance.documents.about import Attachment
from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage
from provenance.documents.seal import fill, find, open_line
from provenance.errors import Refused
from provenance.model.certificate import Certificate
from provenance.model.prints import Scan
from provenance.model.studio import Studio
from provenance.records.entry import digest, encode
from provenance.records.register import Register
from provenance.studio.answering.answer import answer
from provenance.studio.answering.letter import draw_answer
from provenance.studio.certifying import certify as certifying
from provenance.studio.certifying.certify import Issued, certify
from provenance.studio.certifying.revisions import withdraw
from provenance.studio.checking.check import Checked, check
from provenance.studio.folder import StudioFolder
from provenance.studio.keys import ring
from provenance.studio.keys.ring import known_keys, make_key, retire_key, unlock
from tests.studio.finished import Desk, desk, picture
from tests.studios import revise


@dataclass
class Case:
    """A studio with one certificate, and what that was drawn from."""

    desk: Desk
    issued: Issued
    content: CertificatePage
    elsewhere: Path

    def open(self) -> Register:
        """The studio's register, in the days when the work was done."""
        return self.desk.folder.open(clock=self.desk.register.clock)

    def check(self, pdf: bytes | None = None, *, here: bool = False, **how: Any) -> Checked:
        """Check a file where there is no register, or in the studio."""
        self.elsewhere.mkdir(exist_ok=True)
        path = self.elsewhere / "c.pdf"
        path.write_bytes(self.issued.pdf if pdf is None else pdf)
        return check(path, self.desk.folder if here else StudioFolder(self.elsewhere), **how)


def case(folder: Path, monkeypatch: pytest.MonkeyPatch, *, key: bool) -> Case:
    monkeypatch.setenv(ring.VARIABLE, "nine black cats")
    drawn: list[CertificatePage] = []

    def noted(content: CertificatePage, *how: Any) -> bytes:
        drawn.append(content)
        return draw_certificate(content, *how)

    monkeypatch.setattr(certifying, "draw_certificate", noted)
    folder = folder / ("sealed" if key else "plain")
    held = desk(folder / "studio")
    if key:
        make_key(held.folder)
    issued = certify(held.register, held.folder, held.print)
    held.register.close()
    return Case(held, issued, drawn[0], folder / "elsewhere")


@pytest.fixture
def plain(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Case:
    return case(tmp_path, monkeypatch, key=False)


@pytest.fixture
def sealed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Case:
    return case(tmp_path, monkeypatch, key=True)


def answers(found: Checked) -> tuple[str, str, str]:
    return found.intact.answer, found.sealed.answer, found.on_record.answer


def test_a_certificate_as_issued_stands(plain: Case, sealed: Case) -> None:
    assert answers(plain.check()) == ("yes", "none", "not asked")
    assert answers(plain.check(here=True)) == ("yes", "none", "yes")
    assert answers(sealed.check()) == ("yes", "yes", "not asked")
    assert answers(sealed.check(here=True)) == ("yes", "yes", "yes")
    for found in (plain.check(), sealed.check(here=True)):
        assert found.stands
        assert not found.altered
        assert (found.number, found.revision) == (plain.issued.number, 1)
        assert found.since == ()


def test_a_file_without_a_seal_promises_the_detection_of_accidents_only(plain: Case) -> None:
    (says,) = plain.check().sealed.says
    assert "accidents only" in says


def spread(pdf: bytes, count: int) -> Iterator[int]:
    """Places all over a file, its first and last bytes among them."""
    yield from range(0, len(pdf), len(pdf) // count)
    yield from range(len(pdf) - 40, len(pdf))
    seal = pdf.rindex(b"\nxref\n")
    yield from range(seal - 12, seal + 8)


@pytest.mark.parametrize("kind", ["plain", "sealed"])
def test_one_changed_byte_anywhere_is_caught(kind: str, request: pytest.FixtureRequest) -> None:
    held: Case = request.getfixturevalue(kind)
    missed = []
    for at in spread(held.issued.pdf, 150):
        spoilt = bytearray(held.issued.pdf)
        spoilt[at] ^= 1
        if at < 5:
            with pytest.raises(Refused, match="no PDF"):
                held.check(bytes(spoilt))
            continue
        found = held.check(bytes(spoilt))
        if found.intact.answer != "no" or found.stands:
            missed.append(at)
    assert missed == []


def summed(pdf: bytes) -> bytes:
    """The file with its sum made anew, as anybody can."""
    found = find(pdf)
    assert found is not None
    return fill(found.over)


def forged_record(held: Case, **changes: str) -> CertificatePage:
    """A page around an altered record, with a digest to match."""
    data = held.content.attachments[0].data
    record = msgspec.json.decode(data)
    record["print"] |= changes
    altered = encode(record)
    attached = Attachment("record.json", "application/json", altered, "")
    return replace(
        held.content,
        record_sha256=digest(altered),
        attachments=(attached, *held.content.attachments[1:]),
    )


Forge = Callable[[Case], bytes]
FORGED: dict[str, Forge] = {
    "appended": lambda held: held.issued.pdf + b"% more\n",
    "appended with an end": lambda held: held.issued.pdf + b"\nstartxref\n9\n%%EOF\n",
    "cut off": lambda held: held.issued.pdf[:-7],
    "appended, sum anew": lambda held: updated(held.issued.pdf),
    "picture swapped, sum anew": lambda held: draw_certificate(
        replace(held.content, picture_jpeg=other_picture())
    ),
    "record swapped, sum anew": lambda held: draw_certificate(
        replace(forged_record(held, mark="Q9"), record_sha256=held.content.record_sha256)
    ),
    "number changed, sum anew": lambda held: draw_certificate(
        replace(held.content, number="DR-2031-0002-76")
    ),
    "record left out": lambda held: draw_certificate(replace(held.content, attachments=())),
}


def updated(pdf: bytes) -> bytes:
    """The file with a table of objects, an end and a sum of the forger's own behind it."""
    former = int(re.findall(rb"startxref\n(\d+)\n", pdf)[-1])
    root = re.findall(rb"/Size \d+ /Root \d+ 0 R /Info \d+ 0 R", pdf)[-1]
    head = pdf + b"9999 0 obj\n(more)\nendobj\n" + open_line("sha256")
    tail = b"xref\n9999 1\n%010d 00000 n \ntrailer\n<< %b /Prev %d >>\nstartxref\n%d\n%%%%EOF\n"
    return fill(head + tail % (len(pdf), root, former, len(head)))


def other_picture() -> bytes:
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.linear_gradient("L").rotate(90).resize((300, 240)).save(out, "JPEG")
    assert out.getvalue() != picture()
    return out.getvalue()


@pytest.mark.parametrize("name", FORGED)
def test_what_was_put_together_anew_is_caught_without_any_register(plain: Case, name: str) -> None:
    found = plain.check(FORGED[name](plain))
    assert found.intact.answer == "no"
    assert found.altered


def test_an_edited_record_with_its_digest_anew_is_caught_by_the_register(plain: Case) -> None:
    forged = draw_certificate(forged_record(plain, mark="Q9"))
    assert plain.check(forged).intact.answer == "yes"
    found = plain.check(forged, here=True)
    assert found.on_record.answer == "no"
    assert not found.stands


def test_a_seal_cannot_be_stripped(sealed: Case) -> None:
    found = sealed.check(draw_certificate(sealed.content))
    assert found.altered
    assert (found.sealed.answer, sealed.check(sealed.issued.pdf + b"%").sealed.answer) == (
        "no",
        "no",
    )
    assert any("the seal is gone" in says for says in found.intact.says)


def test_a_forged_page_around_a_genuine_record_is_caught_by_its_seal(
    sealed: Case, tmp_path: Path
) -> None:
    forger = StudioFolder(tmp_path / "forger")
    make_key(forger)
    theirs = unlock(forger)
    assert theirs is not None
    page = replace(sealed.content, title="Another picture altogether")
    found = sealed.check(draw_certificate(page, None, theirs.sign))
    assert found.sealed.answer == "no"
    assert found.altered


def test_a_whole_forgery_under_another_key_is_caught_by_who_has_the_studios(
    sealed: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (ours,) = known_keys(sealed.desk.folder)
    copy = tmp_path / "copy"
    shutil.copytree(sealed.desk.folder.path, copy)
    forger = StudioFolder(copy)
    retire_key(forger)
    shutil.rmtree(copy / "private" / "key" / "retired")
    make_key(forger)
    with forger.open(clock=sealed.desk.register.clock) as register:
        forged = certify(register, forger, sealed.desk.print, revise="made by a forger").pdf
    assert sealed.check(forged).sealed.answer == "yes"  # by a key that nobody knows
    assert sealed.check(forged, trusted=ours).sealed.answer == "no"
    found = sealed.check(forged, here=True)
    assert (found.sealed.answer, found.on_record.answer) == ("no", "no")


def test_a_retired_key_still_holds(sealed: Case) -> None:
    retire_key(sealed.desk.folder)
    assert answers(sealed.check(here=True)) == ("yes", "yes", "yes")


def test_a_superseded_and_a_withdrawn_certificate_are_told(plain: Case) -> None:
    with plain.open() as register:
        revised = certify(register, plain.desk.folder, plain.desk.print, revise="a slip of the pen")
    found = plain.check(here=True)
    assert found.on_record.answer == "superseded"
    assert "a slip of the pen" in found.on_record.says[0]
    assert not found.stands
    assert not found.altered
    assert plain.check(revised.pdf, here=True).stands
    with plain.open() as register, register.act("artist") as act:
        withdraw(act, revised.number, "the print came back damaged")
    found = plain.check(revised.pdf, here=True)
    assert found.on_record.answer == "withdrawn"
    assert "came back damaged" in found.on_record.says[0]


def test_what_has_changed_since_is_told(plain: Case) -> None:
    with plain.open() as register:
        revise(register, plain.desk.wash, duration_ms=7_200_000)
        revise(
            register,
            plain.desk.print,
            existence="destroyed",
            gone_on="2031-06-01",
            gone_why="water damage",
        )
    found = plain.check(here=True)
    assert found.on_record.answer == "yes"
    assert found.since[0] == "the print is destroyed: water damage"
    assert any(line.startswith("no longer said: Washed") for line in found.since)
    assert any(line.startswith("now said: Washed") for line in found.since)


def test_what_changed_beside_the_sentences_is_told_too(plain: Case) -> None:
    with plain.open() as register:
        revise(register, plain.desk.print, verb="correct", mark="Q8", features="a pinhole")
        revise(register, plain.desk.shelf.negative, title="Slipway, again")
    assert plain.check(here=True).since == (
        "Title: Slipway → Slipway, again",
        "Marks: Q7 on the back → Q8 on the back",
        "Features: – → a pinhole",
    )


def test_a_print_without_a_picture_is_told(plain: Case) -> None:
    with plain.open() as register:
        (held,) = register.read.linked(plain.desk.print, Scan, "print")
        with register.act("printer") as act:
            act.void(held.id, held.version, "the wrong print")
    assert plain.check(here=True).since == ("no picture of it is on record any more",)


def test_the_answers_come_to_a_sentence_that_says_what_to_do(
    plain: Case, sealed: Case, tmp_path: Path
) -> None:
    (ours,) = known_keys(sealed.desk.folder)
    said = {
        "in force": plain.check(here=True),
        "whether it issued this file": plain.check(),
        "compare the fingerprint": sealed.check(),
        "as it left the studio": sealed.check(trusted=ours),
        "not as it was made": plain.check(plain.issued.pdf + b"%"),
        "did not issue this file": plain.check(
            draw_certificate(forged_record(plain, mark="Q9")), here=True
        ),
    }
    for words, found in said.items():
        assert words in found.in_short
        assert bool(found.compare) == found.stands
    assert len({found.in_short for found in said.values()}) == len(said)


def test_a_key_that_is_not_the_seals_does_not_make_a_file_an_altered_one(
    sealed: Case, tmp_path: Path
) -> None:
    other = desk(tmp_path / "other")
    make_key(other.folder)
    (theirs,) = known_keys(other.folder)
    found = sealed.check(trusted=theirs)
    assert answers(found)[:2] == ("yes", "no")
    assert "not the key that was given" in found.sealed.says[1]
    assert "did not seal this file" in found.in_short


def test_a_page_that_is_no_certificate_is_not_called_an_altered_one(plain: Case) -> None:
    with plain.open() as register:
        told = answer(register.read, plain.desk.folder, plain.desk.print, register.clock())
    found = plain.check(draw_answer(told, plain.desk.folder))
    assert found.in_short.startswith("This is no certificate, or its record was taken out of it.")
    assert found.intact.says == (
        "no record is attached: it was stripped, or this is no certificate",
    )
    assert not found.stands


def test_another_studios_register_is_not_asked(plain: Case, tmp_path: Path) -> None:
    studio = Studio(studio_id="0f" * 16, name="Another", artist="Somebody", mark="AN")
    Register.create(tmp_path / "other", studio).close()
    plain.check()
    found = check(plain.elsewhere / "c.pdf", StudioFolder(tmp_path / "other"))
    assert answers(found) == ("yes", "none", "not asked")
    assert found.stands


def test_a_number_that_was_never_issued_is_told(plain: Case, tmp_path: Path) -> None:
    before = desk(tmp_path / "before")  # the same studio, before it issued anything
    before.register.close()
    plain.check()
    found = check(plain.elsewhere / "c.pdf", before.folder)
    assert found.on_record.says == (f"the register has no certificate {plain.issued.number}",)


def test_a_journal_written_anew_has_not_the_head_that_is_printed(plain: Case) -> None:
    with plain.open() as register:
        stood = register.read.all(Certificate)[0].body.head_seq
    with closing(sqlite3.connect(plain.desk.folder.path / "register.db")) as other:
        other.execute("DROP TRIGGER journal_is_never_changed")
        other.execute("UPDATE journal SET digest = ? WHERE seq = ?", ("0" * 64, stood))
        other.commit()
    found = plain.check(here=True)
    assert answers(found) == ("yes", "none", "no")
    assert f"entry {stood} of its journal is not the one" in found.on_record.says[0]


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "it is no PDF"),
        (b"%PDF-" + b"0" * 50_000_001, "larger than 50 MB"),
    ],
)
def test_what_is_no_certificate_is_refused(tmp_path: Path, data: bytes, told: str) -> None:
    (tmp_path / "x.pdf").write_bytes(data)
    with pytest.raises(Refused, match=told) as caught:
        check(tmp_path / "x.pdf", StudioFolder(tmp_path))
    assert caught.value.problems[0].record == "x.pdf"


@pytest.mark.parametrize("data", [b"%PDF-1.7\n", b"%PDF-1.7\nstartxref\n0\n%%EOF\n"])
def test_what_cannot_be_read_is_not_intact(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "x.pdf").write_bytes(data)
    found = check(tmp_path / "x.pdf", StudioFolder(tmp_path))
    assert any("cannot be read" in says for says in found.intact.says)
    assert found.altered


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="cannot be read"):
        check(tmp_path / "none.pdf", StudioFolder(tmp_path))


@pytest.mark.parametrize(
    "data",
    [b"[]", b"{}", b'{"form":"certificate-record/1"}', b"[" * 100_000, b"\xff", b'{"form": 1}'],
)
def test_a_hostile_record_is_no_record(plain: Case, data: bytes) -> None:
    attached = Attachment("record.json", "application/json", data, "")
    found = plain.check(draw_certificate(replace(plain.content, attachments=(attached,))))
    assert found.intact.says == ("the attached record is not of the form that is issued",)
    assert (found.number, found.revision) == ("", 0)


def test_a_bomb_of_zeros_is_not_intact(plain: Case) -> None:
    packed = zlib.compress(bytes(400_000_000), 9)
    old = re.search(rb"/Filter /FlateDecode /Length (\d+) >>\nstream\n", plain.issued.pdf)
    assert old is not None
    spoilt = plain.issued.pdf[: old.end()] + packed + plain.issued.pdf[old.end() :]
    assert plain.check(spoilt).altered
