"""Every release's journal can be read by this one, and says what it said then."""

import json
from contextlib import closing
from pathlib import Path

import pytest

from provenance.model.certificate import Certificate
from provenance.model.prints import Scan
from provenance.model.proof import Test
from provenance.records.audit import audit
from provenance.records.connection import FILE, connect_new
from provenance.records.entry import digest
from provenance.records.forms import KINDS
from provenance.records.migrations import migrate
from provenance.records.reader import Reader
from provenance.records.register import Register
from tests.records.journals.freeze import HERE, view_of
from tests.studios import RECORD, REPORT, clock

JOURNALS = sorted(HERE.glob("*.jsonl"))


def replayed(folder: Path, journal: Path) -> Register:
    """A register that holds the bytes of a frozen journal, with the files it names."""
    folder.mkdir()
    with closing(connect_new(folder / FILE)) as connection:
        migrate(connection)
        for seq, line in enumerate(journal.read_bytes().splitlines(), 1):
            connection.execute("INSERT INTO journal VALUES (?, ?, ?)", (seq, line, digest(line)))
    register = Register.open(folder, clock=clock())
    for scan in register.read.all(Scan):
        put(folder / "images" / f"{scan.body.thumbnail_sha256}.jpg", b"picture")
    for test in register.read.all(Test):
        for attached in test.body.attached:
            put(folder / "images" / attached.kept_name, REPORT)
    for certificate in register.read.all(Certificate):
        put(folder / "certificates" / certificate.body.file_name, b"page")
        put(folder / "certificates" / certificate.body.record_name, RECORD)
    return register


def put(path: Path, data: bytes) -> None:
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(data)


def test_there_is_a_journal_for_this_release() -> None:
    assert JOURNALS


@pytest.mark.parametrize("journal", JOURNALS, ids=lambda path: path.stem)
def test_a_frozen_journal_says_what_it_said(tmp_path: Path, journal: Path) -> None:
    expected = json.loads(journal.with_suffix(".view.json").read_text(encoding="utf-8"))
    with replayed(tmp_path / "studio", journal) as register:
        assert view_of(register.read) == expected
        _every_version_is_read(register.read)
    assert not audit(tmp_path / "studio").damaged


def _every_version_is_read(reader: Reader) -> None:
    read = 0
    for seq, _data, _mark in reader.entries():
        entry = reader.entry(seq)
        if entry.record == seq:
            read += len(reader.versions(seq))
    assert read == reader.head()[0]


def test_the_newest_journal_holds_every_kind_and_verb(tmp_path: Path) -> None:
    with replayed(tmp_path / "studio", JOURNALS[-1]) as register:
        entries = [register.read.entry(seq) for seq, _data, _mark in register.read.entries()]
    assert {entry.kind for entry in entries} == KINDS.keys()
    assert {entry.verb for entry in entries} == {"enter", "change", "correct", "void", "undo"}
