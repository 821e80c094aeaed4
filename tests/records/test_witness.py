"""The witness: a lost end, another copy and another studio are noticed; lagging is not."""

import shutil
from pathlib import Path

import pytest

from provenance.errors import Damaged
from provenance.records import witness as witness_module
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.records.witness import FILE, Head, read_witness, write_witness
from tests.studios import enter, negative, new_register


def codes(folder: Path, *names: str) -> None:
    """Enter a negative under each code and close."""
    with Register.open(folder) as register:
        enter(register, *(negative(code=name) for name in names))


@pytest.fixture
def closed(folder: Path) -> Path:
    """A studio with four entries, closed."""
    new_register(folder).close()
    codes(folder, "A-1", "A-2", "A-3")
    return folder


def refuses(folder: Path, what: str) -> None:
    """The register does not open, and the audit says the same."""
    with pytest.raises(Damaged, match=what) as caught:
        Register.open(folder)
    assert any(caught.value.problems[0].what == found.what for found in audit(folder).findings)
    assert audit(folder).damaged


def test_it_says_where_the_journal_stands(closed: Path) -> None:
    with Register.open(closed) as register:
        seq, digest = register.read.head()
    assert read_witness(closed) == Head(seq, digest, "0123456789abcdef0123456789abcdef")
    assert seq == 4


def test_it_is_written_with_every_act(register: Register) -> None:
    for code in ("A-1", "A-2"):
        enter(register, negative(code=code))
        witness = read_witness(register.folder)
        assert witness is not None
        assert (witness.seq, witness.digest) == register.read.head()


def test_a_lost_end_is_noticed(closed: Path, tmp_path: Path) -> None:
    older = tmp_path / "older.db"
    shutil.copy(closed / "register.db", older)
    codes(closed, "A-4", "A-5")
    shutil.copy(older, closed / "register.db")
    refuses(closed, "entries 5 to 6 were saved here and are gone")


def test_a_cut_log_is_noticed(folder: Path) -> None:
    """What a machine leaves that dies while its disk forgets the last of the log."""
    register = new_register(folder)
    enter(register, *(negative(code=f"A-{number}") for number in range(5)))
    copy = folder.with_name("after")
    shutil.copytree(folder, copy)
    register.close()
    log = copy / "register.db-wal"
    (copy / "register.db-shm").unlink()
    with log.open("r+b") as file:
        file.truncate(log.stat().st_size - 4_000)
    refuses(copy, "entries 6 to 6 were saved here and are gone")


def test_a_lost_register_is_noticed(closed: Path) -> None:
    (closed / "register.db").unlink()
    with pytest.raises(Damaged, match=r"register\.db is gone"):
        Register.open(closed)
    assert audit(closed).damaged


def test_lagging_behind_is_harmless(closed: Path) -> None:
    behind = (closed / "head").read_bytes()
    codes(closed, "A-4")
    (closed / "head").write_bytes(behind)
    assert not audit(closed).damaged
    codes(closed, "A-5")
    assert read_witness(closed) != behind


@pytest.mark.parametrize("torn", [b"", b"0000", b"\xff\xfe", None])
def test_a_torn_or_missing_witness_is_no_damage(closed: Path, torn: bytes | None) -> None:
    whole = (closed / "head").read_bytes()
    (closed / "head").unlink()
    if torn is not None:
        (closed / "head").write_bytes(torn)
    report = audit(closed)
    assert [finding.level for finding in report.findings] == ["note"]
    assert "lost end would not show" in report.findings[0].what
    codes(closed, "A-4")
    assert (closed / "head").stat().st_size == len(whole)
    assert not audit(closed).findings


def test_a_longer_line_is_cut_when_the_register_closes(closed: Path) -> None:
    with (closed / "head").open("ab") as file:
        file.write(b"more\n")
    codes(closed, "A-4")
    assert not audit(closed).findings


def test_the_witness_of_another_studio(closed: Path, tmp_path: Path) -> None:
    new_register(tmp_path / "other", studio_id="f" * 32).close()
    codes(tmp_path / "other", *(f"B-{number}" for number in range(9)))
    shutil.copy(tmp_path / "other" / "head", closed / "head")
    refuses(closed, "belongs to the register of another studio")


@pytest.mark.parametrize("more", [1, 2])
def test_two_copies_that_went_separate_ways(closed: Path, tmp_path: Path, more: int) -> None:
    other = tmp_path / "other"
    shutil.copytree(closed, other)
    codes(closed, "C-1", "C-2")
    codes(other, *(f"D-{number}" for number in range(more)))
    assert not audit(closed).findings
    assert not audit(other).findings
    shutil.copy(other / "head", closed / "head")
    refuses(closed, f"entry {4 + more} is not the one that was saved here: this is another copy")


def test_a_witness_is_one_line_of_fixed_width(tmp_path: Path) -> None:
    for seq in (1, 10**15):
        write_witness(tmp_path, Head(seq, "ab" * 32, "cd" * 16))
        assert (tmp_path / "head").read_bytes() == b"%016d %s %s\n" % (
            seq,
            b"ab" * 32,
            b"cd" * 16,
        )


def test_a_line_that_is_read_while_it_is_overwritten_is_read_again(
    closed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half of one line and half of the next name an entry that never was."""
    with Register.open(closed) as register:
        enter(register, negative(code="A-4"))
    before, after = b"0" * 16 + b" " + b"a" * 64, (closed / FILE).read_bytes()
    torn = after[:40] + before[40:81] + after[81:]
    reads = iter([torn, after, after])
    monkeypatch.setattr(witness_module, "_read", lambda _path: next(reads))
    read = read_witness(closed)
    assert read is not None
    assert read.digest in after.decode()


def test_a_disagreement_counts_when_it_is_still_there_a_moment_later(
    closed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A pause of another program in the middle of its line looks like a line of its own."""
    right = (closed / FILE).read_bytes()
    torn = right[:17] + b"f" * 64 + right[81:]
    reads = iter([torn, torn, right, right])
    monkeypatch.setattr(witness_module, "_read", lambda _path: next(reads, right))
    Register.open(closed).close()
    monkeypatch.setattr(witness_module, "_read", lambda _path: torn)
    with pytest.raises(Damaged, match="not the one that was saved here"):
        Register.open(closed)
