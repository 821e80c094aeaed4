"""A backup holds the whole studio, is tried, and comes back as it was."""

import io
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import IO

import pytest

from provenance.errors import Damaged, Refused
from provenance.model.negative import Negative
from provenance.records.audit import audit
from provenance.records.exchange.bag import Bag
from provenance.records.private import Contacts, Drafts
from provenance.records.register import Register
from provenance.records.witness import read_witness
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.backup import back_up
from provenance.studio.handover.last_backup import backup_due
from provenance.studio.handover.restore import restore
from tests.records.exchange.packed import bomb, files_of, zipped
from tests.studio.finished import Desk, desk
from tests.studios import WHO, clock, enter, release


@pytest.fixture
def studio(tmp_path: Path) -> Desk:
    """A studio in use, with a person, a draft, a key and wording of its own."""
    held = desk(tmp_path / "studio")
    folder = held.folder.path
    key = Contacts(folder).add(name="Ada Collector")
    enter(held.register, release(held.print, party=key))
    Drafts(folder).put("sale", '{"price":"900"}')
    for name, text in {
        "templates/wording/own.toml": "x = 1\n",
        "private/key/studio.key.pem": "locked",
        "settings.toml": "backup_days = 7\n",
    }.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return held


def held_files(folder: Path) -> dict[str, bytes]:
    """Every file of a studio but the register, whose bytes differ from copy to copy."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.startswith(("register.db", "last-backup"))
    }


def test_a_backup_of_a_register_in_use_comes_back_as_it_was(studio: Desk, tmp_path: Path) -> None:
    made = back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    assert not made.report.damaged
    # the register goes on meanwhile
    enter(studio.register, Negative(code="N-9", title="Later"))
    restored = restore(tmp_path / "b.zip", tmp_path / "new")
    assert restored.private
    assert restored.report.findings == ()
    assert (restored.report.entries, restored.report.head) == (made.head.seq, made.head.digest)
    assert held_files(tmp_path / "new") | {"head": b""} == held_files(studio.folder.path) | {
        "head": b""
    }
    assert read_witness(tmp_path / "new") == made.head
    with Register.open(tmp_path / "new", clock=clock()) as register:
        enter(register, Negative(code="N-9", title="Another way"))


def test_a_backup_is_its_owners_alone(studio: Desk, tmp_path: Path) -> None:
    back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    restore(tmp_path / "b.zip", tmp_path / "new")
    assert (tmp_path / "b.zip").stat().st_mode & 0o077 == 0
    assert (tmp_path / "new").stat().st_mode & 0o077 == 0
    files = [path for path in (tmp_path / "new").rglob("*") if path.is_file()]
    assert all(path.stat().st_mode & 0o077 == 0 for path in files)


def test_what_is_private_stays_when_it_is_asked_to(studio: Desk, tmp_path: Path) -> None:
    back_up(studio.folder, tmp_path / "b.zip", private=False, clock=clock())
    restored = restore(tmp_path / "b.zip", tmp_path / "new")
    assert not restored.private
    assert not restored.report.damaged
    assert [finding.level for finding in restored.report.findings] == ["note"]
    assert not list((tmp_path / "new").glob("contacts/*"))
    assert not (tmp_path / "new" / "private").exists()
    # it is no backup of everything, so it is still time for one
    assert backup_due(studio.folder) is not None


def test_writers_at_work_disturb_no_backup(studio: Desk, tmp_path: Path) -> None:
    stop, wrote = threading.Event(), 0

    def write() -> None:
        nonlocal wrote
        with Register.open(studio.folder.path, clock=clock()) as register:
            while not stop.is_set():
                enter(register, Negative(code=f"W-{wrote}", title="Meanwhile"))
                wrote += 1

    writer = threading.Thread(target=write)
    writer.start()
    try:
        made = [
            back_up(studio.folder, tmp_path / f"{place}.zip", clock=clock()) for place in range(3)
        ]
    finally:
        stop.set()
        writer.join()
    assert wrote > 3
    assert not any(one.report.damaged for one in made)
    assert made[0].head.seq <= made[1].head.seq <= made[2].head.seq
    assert not audit(studio.folder.path).damaged


def test_a_damaged_studio_is_backed_up_and_told(studio: Desk, tmp_path: Path) -> None:
    next(studio.folder.images.glob("*.jpg")).write_bytes(b"spoiled")
    made = back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    assert made.report.damaged
    assert made.path.exists()
    assert backup_due(studio.folder) is not None


def test_a_backup_that_the_studio_cannot_note_is_made_all_the_same(
    studio: Desk, tmp_path: Path
) -> None:
    """As of a studio on a medium that cannot be written to."""
    (studio.folder.path / "last-backup.json").mkdir()
    made = back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    assert not made.report.damaged
    assert "last-backup.json cannot be written" in made.unnoted


def test_what_cannot_be_read_is_named_and_not_where_it_was_to_go(
    studio: Desk, tmp_path: Path
) -> None:
    for path, what in ((tmp_path / "gone", "is not there any more"), (tmp_path, "cannot be read")):
        with pytest.raises(Refused, match=what) as caught:
            Bag(Nowhere()).copy("a", path)
        assert caught.value.problems[0].record == str(path)


class Nowhere:
    """Takes everything."""

    @contextmanager
    def open(self, name: str) -> Iterator[IO[bytes]]:
        yield io.BytesIO()


def test_an_interrupt_leaves_nothing(studio: Desk, tmp_path: Path) -> None:
    def progress(name: str, done: int, whole: int) -> None:
        if name == "files":
            raise KeyboardInterrupt

    before = sorted(tmp_path.iterdir())
    with pytest.raises(KeyboardInterrupt):
        back_up(studio.folder, tmp_path / "b.zip", clock=clock(), progress=progress)
    assert sorted(tmp_path.iterdir()) == before


def test_a_link_in_the_folder_does_not_go_along(studio: Desk, tmp_path: Path) -> None:
    (studio.folder.images / "x.jpg").symlink_to("/etc/hostname")
    with pytest.raises(Refused, match=r"images/x\.jpg: is a link"):
        back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    assert not (tmp_path / "b.zip").exists()


def test_a_spoiled_backup_restores_nothing(studio: Desk, tmp_path: Path) -> None:
    back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    octets = bytearray((tmp_path / "b.zip").read_bytes())
    place = octets.index(b"\xff\xd8\xff") + 100
    octets[place] ^= 1
    (tmp_path / "b.zip").write_bytes(octets)
    before = sorted(tmp_path.iterdir())
    with pytest.raises(Damaged, match="images/"):
        restore(tmp_path / "b.zip", tmp_path / "new")
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize("share", [0.01, 0.5, 0.9999])
def test_a_backup_that_was_cut_short_is_told_as_damaged(
    studio: Desk, tmp_path: Path, share: float
) -> None:
    back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    octets = (tmp_path / "b.zip").read_bytes()
    (tmp_path / "b.zip").write_bytes(octets[: int(len(octets) * share)])
    with pytest.raises(Damaged, match=r"is cut short, or spoiled.*use another copy"):
        restore(tmp_path / "b.zip", tmp_path / "new")
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("kind", ["bomb", "stranger", "empty", "text", "missing"])
def test_what_is_no_backup_restores_nothing(tmp_path: Path, kind: str) -> None:
    source = tmp_path / "a.zip"
    files = files_of({"studio/register.db": b"x", "studio/evil.sh": b"y"})
    if kind == "bomb":
        bomb(source, 60_000_000)
    elif kind == "stranger":
        zipped(source, files)
    elif kind == "empty":
        zipped(source, files_of({"README.txt": b""}))
    elif kind == "text":
        source.write_text("no zip")
    before = sorted(tmp_path.iterdir())
    with pytest.raises(Refused):
        restore(source, tmp_path / "new")
    assert sorted(tmp_path.iterdir()) == before


def test_never_over_a_folder_that_holds_anything(studio: Desk, tmp_path: Path) -> None:
    back_up(studio.folder, tmp_path / "b.zip", clock=clock())
    with pytest.raises(Refused, match="stands there already"):
        restore(tmp_path / "b.zip", studio.folder.path)
    (tmp_path / "empty").mkdir()
    assert not restore(tmp_path / "b.zip", tmp_path / "empty").report.damaged


def test_a_register_that_is_none_is_restored_and_told(tmp_path: Path) -> None:
    source = zipped(tmp_path / "a.zip", files_of({"studio/register.db": b"x" * 5000}))
    assert restore(source, tmp_path / "new").report.damaged


def test_a_backup_is_asked_for_when_it_is_time(studio: Desk, tmp_path: Path) -> None:
    folder, today = studio.folder, clock()().local_date()
    (folder.path / "settings.toml").write_text("backup_days = 7\n")
    due = backup_due(folder, today)
    assert due is not None
    assert due.line == "No backup yet"
    back_up(folder, tmp_path / "b.zip", clock=clock())
    assert backup_due(folder, today) is None
    assert backup_due(folder, today + timedelta(days=30)) is None, "nothing was written since"
    with studio.register.act(WHO) as act:
        act.enter(Negative(code="N-9", title="Later"))
    assert backup_due(folder, today + timedelta(days=7)) is None
    late = backup_due(folder, today + timedelta(days=8))
    assert late is not None
    assert late.line == "Last backup 8 days ago, 1 entry since"
    (folder.path / "settings.toml").write_text("backup_days = 0\n")
    assert backup_due(folder, today + timedelta(days=99)) is None


def test_a_folder_without_a_studio_is_told(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no register here"):
        back_up(StudioFolder(tmp_path / "none"), tmp_path / "b.zip")
    assert not (tmp_path / "b.zip").exists()
    shutil.rmtree(tmp_path / "none", ignore_errors=True)
