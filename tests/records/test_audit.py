"""An audit finds whatever is not as it was written, and changes nothing itself."""

import hashlib
import re
import sqlite3
import tracemalloc
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import msgspec
import pytest

from provenance.errors import Damaged, NewerRegister, NotFound
from provenance.model.negative import Negative
from provenance.records import projection
from provenance.records.audit import MOST, audit, rebuild_view
from provenance.records.checks.finding import Level
from provenance.records.checks.shape import guards
from provenance.records.entry import decode, digest, encode
from provenance.records.images import store_thumbnail
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.records.schema import VIEW_TABLES
from tests.studios import (
    RECORD,
    WHO,
    certificate,
    enter,
    furnish,
    negative,
    new_register,
    release,
    scan,
    sheet,
    signature,
    silver_test,
    step,
)

JPEG, PDF = b"a small picture", b"%PDF of a certificate"


@dataclass
class Studio:
    """A studio with one print that is fixed, tested, signed, certified and sold; closed."""

    folder: Path
    print: int
    certificate: int
    party: str

    def found(self, level: Level) -> list[str]:
        """What an audit finds, as it would be shown."""
        return [str(f.problem) for f in audit(self.folder).findings if f.level == level]

    def tamper(
        self, *statements: str | tuple[str, tuple[object, ...]], guarded: bool = True
    ) -> None:
        """Change the register with another program, its guards taken off meanwhile."""
        with closing(sqlite3.connect(self.folder / "register.db")) as other:
            for guard in ("is_never_changed", "is_never_cut", "grows_by_one"):
                other.execute(f"DROP TRIGGER journal_{guard}")
            for statement in statements:
                other.execute(*((statement,) if isinstance(statement, str) else statement))
            if guarded:
                for guard in guards().values():
                    other.execute(guard)
            other.commit()

    def entry(self, seq: int) -> bytes:
        """The bytes of one entry."""
        with closing(sqlite3.connect(self.folder / "register.db")) as other:
            (data,) = other.execute("SELECT entry FROM journal WHERE seq = ?", (seq,)).fetchone()
        return bytes(data)


@pytest.fixture
def studio(folder: Path) -> Studio:
    with new_register(folder) as register:
        with register.act(WHO) as act:
            shelf = furnish(act)
            one = act.enter(sheet(shelf, "1", designation="1/25", signature=signature()))
            act.enter(step(shelf, one))
            act.enter(silver_test(one))
        (folder / "images").mkdir()
        store_thumbnail(folder / "images", JPEG)
        enter(register, scan(one, JPEG))
        paper = certificate(register, one, PDF)
        (folder / "certificates").mkdir()
        (folder / "certificates" / paper.file_name).write_bytes(PDF)
        (folder / "certificates" / paper.record_name).write_bytes(RECORD)
        issued = enter(register, paper)
        party = Contacts(folder).add(name="A. Collector")
        enter(register, release(one, party=party))
    return Studio(folder, one, issued, party)


def test_a_studio_in_order(studio: Studio) -> None:
    before = {path: path.read_bytes() for path in studio.folder.rglob("*") if path.is_file()}
    report = audit(studio.folder)
    assert report.findings == ()
    assert not report.damaged
    with Register.open(studio.folder) as register:
        assert (report.entries, report.head) == register.read.head()
    after = {path: path.read_bytes() for path in before}
    assert after == before


def test_a_register_in_use_is_audited_as_well(register: Register) -> None:
    enter(register, negative())
    assert audit(register.folder).findings == ()
    enter(register, negative(code="N-2"))
    assert audit(register.folder).entries == 3


def test_the_slow_parts_tell_how_far_they_are(studio: Studio) -> None:
    told: list[tuple[str, int, int]] = []
    audit(studio.folder, progress=lambda *now: told.append(now))
    entries, tables = audit(studio.folder).entries, len(VIEW_TABLES)
    made_again = ("view, made again", entries, entries)
    assert told == [
        *(("files", done, 3) for done in (1, 2, 3)),
        made_again,
        *(("view, compared", done, tables) for done in range(1, tables + 1)),
    ]
    told.clear()
    rebuild_view(studio.folder, progress=lambda *now: told.append(now))
    assert told == [made_again]


def test_the_work_grows_as_the_studio_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted in steps of the database's machine, which no clock and no load can change."""
    steps = [0]

    def counting(*args: Any, **kwargs: Any) -> sqlite3.Connection:
        connection = connect(*args, **kwargs)
        connection.set_progress_handler(lambda: steps.__setitem__(0, steps[0] + 1), 100)
        return connection

    connect, found = sqlite3.connect, []
    for count in (100, 400):
        with new_register(tmp_path / f"{count}") as register, register.act(WHO) as act:
            shelf = furnish(act)
            for number in range(count):
                one = act.enter(sheet(shelf, f"Q{number}"))
                act.enter(step(shelf, one))
                act.enter(scan(one, b"%d" % number))
        with monkeypatch.context() as patch:
            patch.setattr("sqlite3.connect", counting)
            steps[0] = 0
            audit(tmp_path / f"{count}")
        found.append(steps[0])
    assert found[0] > 100
    assert found[1] < 4 * 1.25 * found[0]


# the journal


def test_changed_bytes(studio: Studio) -> None:
    changed = studio.entry(3).replace(b"FB-1", b"FB-2")
    studio.tamper(("UPDATE journal SET entry = ? WHERE seq = 3", (changed,)))
    assert any(line.startswith("entry 3: its bytes are not") for line in studio.found("damage"))


def test_changed_bytes_with_a_digest_to_match(studio: Studio) -> None:
    changed = studio.entry(3).replace(b"FB-1", b"FB-2")
    studio.tamper(
        ("UPDATE journal SET entry = ?, digest = ? WHERE seq = 3", (changed, digest(changed)))
    )
    assert any("entry 4: it does not follow" in line for line in studio.found("damage"))


def test_a_history_written_anew_is_shown_by_the_witness_and_by_the_paper(studio: Studio) -> None:
    """Whoever can change everything cannot change the certificate that was handed out."""
    previous, statements = "", []
    for seq in range(1, audit(studio.folder).entries + 1):
        data = studio.entry(seq)
        if seq >= 3:
            entry = msgspec.structs.replace(decode(data), previous=previous)
            data = encode(entry).replace(b"FB-1", b"FB-2")
        previous = digest(data)
        statements.append(
            ("UPDATE journal SET entry = ?, digest = ? WHERE seq = ?", (data, previous, seq))
        )
    studio.tamper(*statements)
    rebuild_view(studio.folder)
    damage = studio.found("damage")
    assert len(damage) == 2
    assert "is not the one that was saved here" in damage[0]
    assert f"certificate DR-{studio.print}" in damage[1]
    assert "not the one that is printed on it" in damage[1]


def test_a_missing_entry(studio: Studio) -> None:
    studio.tamper("DELETE FROM journal WHERE seq = 5")
    assert any("entry 6: one entry before it is missing" in f for f in studio.found("damage"))


def test_an_empty_journal(studio: Studio) -> None:
    studio.tamper("DELETE FROM journal")
    assert any("the journal is empty" in line for line in studio.found("damage"))


def test_no_journal_at_all(studio: Studio) -> None:
    studio.tamper("DROP TABLE journal", guarded=False)
    assert any("no such table" in line for line in studio.found("damage"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"seq": 4}, "it says that it is entry 4"),
        ({"act": 1}, "belongs to act 1"),
        ({"verb": "change"}, "cannot be written by the verb change"),
        ({"base": 2}, "cannot be written by the verb enter"),
        ({"record": 2, "base": 1, "verb": "change"}, "replaces version 1 of #2"),
        ({"record": 9, "base": 2, "verb": "change"}, "replaces version 2 of #9"),
        ({"previous": "0" * 64}, "does not follow the entry before it"),
        ({"body": msgspec.Raw(b'{"code":"FB-1"}')}, "does not hold what its form says"),
        ({"kind": "studio"}, "does not hold what its form says"),
    ],
)
def test_an_envelope_that_does_not_agree(
    studio: Studio, fields: dict[str, object], words: str
) -> None:
    changed = encode(msgspec.structs.replace(decode(studio.entry(3)), **fields))
    studio.tamper(
        ("UPDATE journal SET entry = ?, digest = ? WHERE seq = 3", (changed, digest(changed)))
    )
    assert any(line.startswith("entry 3") and words in line for line in studio.found("damage"))


def test_bytes_that_are_no_entry(studio: Studio) -> None:
    studio.tamper(("UPDATE journal SET entry = ? WHERE seq = 3", (b"\xff\x00",)))
    assert any("entry 3: an entry of the journal cannot be" in f for f in studio.found("damage"))


@pytest.mark.parametrize("fields", [{"kind": "hologram"}, {"form": 99}])
def test_an_entry_of_a_later_release_is_said_and_is_no_damage(
    folder: Path, fields: dict[str, object]
) -> None:
    with new_register(folder) as register:
        enter(register, negative())
        seq, previous = register.read.head()
        later = msgspec.structs.replace(
            register.read.entry(seq), seq=3, act=3, record=3, previous=previous, **fields
        )
        data = encode(later)
        register.read.connection.execute(
            "INSERT INTO journal VALUES (3, ?, ?)", (data, digest(data))
        )
    report = audit(folder)
    assert not report.damaged
    assert any("which this release cannot read" in f.what for f in report.findings)
    with pytest.raises(NewerRegister):
        rebuild_view(folder)


def test_the_journal_is_read_as_a_stream(folder: Path) -> None:
    with new_register(folder) as register, register.act(WHO) as act:
        for number in range(2_000):
            act.enter(negative(code=f"N-{number}", note="x" * 3_000))
    size = (folder / "register.db").stat().st_size
    tracemalloc.start()
    try:
        assert not audit(folder).findings
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert size > 6_000_000
    assert most < 1_000_000


def test_guards_that_were_taken_off_are_told_and_put_back(studio: Studio) -> None:
    studio.tamper(guarded=False)
    assert [line.split(":")[0] for line in studio.found("damage")] == list(guards())
    assert all("--rebuild" in line for line in studio.found("damage"))
    rebuild_view(studio.folder)
    assert audit(studio.folder).findings == ()
    with (
        closing(sqlite3.connect(studio.folder / "register.db")) as other,
        pytest.raises(sqlite3.IntegrityError, match="never changed"),
    ):
        other.execute("UPDATE journal SET digest = '' WHERE seq = 3")


def test_a_value_of_another_sort_where_an_entry_should_be(studio: Studio) -> None:
    table = "CREATE TABLE journal (seq INTEGER PRIMARY KEY, entry, digest)"
    with closing(sqlite3.connect(studio.folder / "register.db")) as other:
        rows = other.execute("SELECT * FROM journal").fetchall()
        other.execute("DROP TABLE journal")
        other.execute(table)
        other.executemany("INSERT INTO journal VALUES (?, ?, ?)", rows)
        other.execute("UPDATE journal SET entry = 7 WHERE seq = 3")
        other.commit()
    damage = studio.found("damage")
    assert any("entry 3: it is not stored as an entry is" in line for line in damage)
    assert any("journal: this table is not the one" in line for line in damage)


# the view


@pytest.mark.parametrize(
    ("table", "statement"),
    [
        ("record", "UPDATE record SET code = 'quay' WHERE code = 'QUAY'"),
        ("record", "UPDATE record SET live = 0 WHERE id = 2"),
        ("version", "INSERT INTO version VALUES (2, 3)"),
        ("link", "INSERT INTO link VALUES (2, 'paper', 3, 'negative')"),
        ("print_key", "UPDATE print_key SET designation = '2/25'"),
        ("impression", "UPDATE impression SET state = 'x'"),
        ("impression", "DELETE FROM impression"),
        ("search", "UPDATE search SET words = 'another image' WHERE rowid = 2"),
        ("search", "DELETE FROM search WHERE rowid = 2"),
        ("search", "DELETE FROM search_docsize WHERE id = 2"),
        ("search", "UPDATE search_content SET c0 = 'another image' WHERE id = 2"),
        ("search", "DELETE FROM search_data WHERE id > 10"),
        ("record_by_kind", "DROP INDEX record_by_kind"),
        ("record", "DROP TABLE record"),
        ("view", "DROP TABLE view_made_by"),
    ],
)
def test_a_view_that_the_journal_does_not_call_for(
    studio: Studio, table: str, statement: str
) -> None:
    studio.tamper(statement)
    damage = studio.found("damage")
    assert damage
    assert all(line.startswith("view") and "--rebuild" in line for line in damage)
    assert any(table in line for line in damage)
    rebuild_view(studio.folder)
    assert audit(studio.folder).findings == ()


def test_a_view_of_another_release_is_not_compared(studio: Studio) -> None:
    studio.tamper("UPDATE view_made_by SET fingerprint = 'another'", "DELETE FROM impression")
    assert [line.split(":")[0] for line in studio.found("note")] == [
        "the view was made by another release, and was not compared; it is made again when"
        " the register is next opened"
    ]
    assert studio.found("damage") == []


def test_the_view_is_made_again_where_the_register_does_not_open(studio: Studio) -> None:
    witness = (studio.folder / "head").read_text()
    (studio.folder / "head").write_text("0000000000000099" + witness[16:])
    studio.tamper("DELETE FROM impression")
    with pytest.raises(Damaged):
        Register.open(studio.folder)
    rebuild_view(studio.folder)
    assert [line[:7] for line in studio.found("damage")] == ["entries"]


# beside the register


def thumbnail(folder: Path) -> Path:
    return folder / "images" / f"{hashlib.sha256(JPEG).hexdigest()}.jpg"


def pdf(folder: Path) -> Path:
    (path,) = (folder / "certificates").glob("*.pdf")
    return path


def record(folder: Path) -> Path:
    return pdf(folder).with_suffix(".json")


def alter(path: Path) -> None:
    path.write_bytes(path.read_bytes() + b" ")


@pytest.mark.parametrize("which", [thumbnail, pdf, record])
@pytest.mark.parametrize(("what", "words"), [(Path.unlink, "is missing"), (alter, "was altered")])
def test_a_file_that_is_missing_or_altered(
    studio: Studio,
    which: Callable[[Path], Path],
    what: Callable[[Path], None],
    words: str,
) -> None:
    what(which(studio.folder))
    (line,) = studio.found("damage")
    assert words in line
    assert "bring it back from a backup" in line


def test_a_folder_in_the_place_of_a_file(studio: Studio) -> None:
    path = thumbnail(studio.folder)
    path.unlink()
    path.mkdir()
    assert any("cannot be read" in line for line in studio.found("damage"))


def test_left_over_files_are_listed_and_harmless(studio: Studio) -> None:
    (studio.folder / "images" / "stray.jpg").write_bytes(b"")
    (studio.folder / "certificates" / ".DR-9.pdf.part").write_bytes(b"")
    assert not audit(studio.folder).damaged
    assert [line.split(";")[0] for line in studio.found("note")] == [
        "no record speaks of images/'stray.jpg'",
        "no record speaks of certificates/'.DR-9.pdf.part'",
    ]


def test_what_is_found_a_thousand_times_is_counted(studio: Studio) -> None:
    for number in range(MOST + 23):
        (studio.folder / "images" / f"stray-{number}.jpg").write_bytes(b"")
    notes = studio.found("note")
    assert len(notes) == MOST + 1
    assert notes[-1].startswith("and 23 more of this sort")


def test_a_page_that_was_erased_is_a_note(studio: Studio) -> None:
    Contacts(studio.folder).erase(studio.party)
    assert not audit(studio.folder).damaged
    (line,) = studio.found("note")
    assert "erased, or is missing" in line
    assert "A. Collector" not in line


def test_a_page_that_was_altered_is_damage(studio: Studio) -> None:
    page = studio.folder / "contacts" / f"{studio.party}.json"
    page.write_text(page.read_text().replace("A. Collector", "B. Collector"))
    (line,) = studio.found("damage")
    assert "not the one that was entered" in line


def test_nobody_is_in_the_register(studio: Studio) -> None:
    files = [path for path in studio.folder.iterdir() if path.is_file()]
    assert not any(b"Collector" in path.read_bytes() for path in files)


def test_a_number_that_no_journal_came_to_is_not_read_up_to(studio: Studio) -> None:
    entry = studio.entry(1)
    studio.tamper(("INSERT INTO journal VALUES (?, ?, ?)", (300_000_000, entry, digest(entry))))
    assert any(
        "entry 300000000" in one and "not read further" in one for one in studio.found("damage")
    )


def test_a_making_anew_that_fails_leaves_the_guards(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise sqlite3.OperationalError("the disk is full")

    monkeypatch.setattr(projection, "make_view", full)
    with pytest.raises(sqlite3.OperationalError):
        rebuild_view(studio.folder)
    assert audit(studio.folder).findings == ()


def test_there_is_nothing_to_audit(tmp_path: Path) -> None:
    for call in (audit, rebuild_view):
        with pytest.raises(NotFound):
            call(tmp_path)


def test_what_an_ended_program_left_is_told_and_is_no_damage(studio: Studio) -> None:
    left = f".page.json.{'0a' * 8}.part"
    for place in ("", "contacts", "private/terms"):
        (studio.folder / place).mkdir(parents=True, exist_ok=True)
        (studio.folder / place / left).write_bytes(b"{")
    copy = f".register.before-2.db.{'2c' * 8}.part"
    for name in (copy, f"{copy}-wal", f"register.db.{'1b' * 8}.new-wal"):
        (studio.folder / name).write_bytes(b"")
    (studio.folder / ".provenance-x1y2").mkdir()
    (studio.folder / ".provenance-x1y2" / left).write_bytes(b"{")
    said = "was left by a program that was ended; when no program is open here, it may be deleted"
    assert studio.found("damage") == []
    assert studio.found("note") == [
        f"{left!r} {said}",
        f"'.provenance-x1y2' {said}",
        f"'{copy}' {said}",
        f"'{copy}-wal' {said}",
        f"'register.db.{'1b' * 8}.new-wal' {said}",
        f"'contacts/{left}' {said}",
        f"'private/terms/{left}' {said}",
    ]


def test_of_a_ruined_database_a_few_places_are_told_and_the_rest_counted(studio: Studio) -> None:
    with closing(sqlite3.connect(studio.folder / "register.db")) as other:
        indexes = other.execute("SELECT rootpage FROM sqlite_schema WHERE type = 'index'")
        roots = [row[0] for row in indexes]
        (page,) = other.execute("PRAGMA page_size").fetchone()
    with (studio.folder / "register.db").open("r+b") as file:
        for root in roots:
            # the head of the page still says that there are cells in it
            file.seek((root - 1) * page + 100)
            file.write(bytes(page - 100))
    *shown, rest = [line for line in studio.found("damage") if line.startswith("database")]
    assert len(shown) == 3
    assert re.match(r"database: and in (at least )?\d+ more places; keep the folder as", rest)


@pytest.fixture
def unwritable(studio: Studio) -> Iterator[Studio]:
    studio.folder.chmod(0o500)
    yield studio
    studio.folder.chmod(0o700)


def test_a_medium_that_cannot_be_written_to(unwritable: Studio) -> None:
    assert audit(unwritable.folder).findings == ()
    assert unwritable.certificate < audit(unwritable.folder).entries


def test_voided_records_have_a_history(register: Register) -> None:
    record = enter(register, negative())
    with register.act(WHO) as act:
        act.void(record, record, "a duplicate")
    bodies = [version.body for version in register.read.versions(record)]
    assert isinstance(bodies[0], Negative)
    assert bodies[1] is None
    assert audit(register.folder).findings == ()
