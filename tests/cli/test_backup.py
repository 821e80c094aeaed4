"""The commands that back up and restore."""

from pathlib import Path

from tests.cli.conftest import Desk


def test_a_backup_is_made_and_restored(studio: Desk, tmp_path: Path) -> None:
    file, new = str(tmp_path / "b.zip"), str(tmp_path / "new")
    made = studio.run("backup", file)
    assert made.status == 0
    assert made.lines[-1] == "restored on trial and audited: whole"
    again = studio.run("backup", file, "--json")
    assert again.status == 1
    assert "stands there already" in again.problem["what"]
    restored = studio.run("restore", file, new, "--json")
    assert restored.status == 0
    assert restored.data[-1]["damaged"] is False
    assert studio.run("restore", file, new).status == 1


def test_a_backup_of_a_damaged_studio_says_so(studio: Desk, tmp_path: Path) -> None:
    next((studio.path / "images").iterdir()).write_bytes(b"spoiled")
    made = studio.run("backup", str(tmp_path / "b.zip"), "--json", "--without-private")
    assert made.status == 3
    assert (made.data[0]["damaged"], made.data[0]["private"]) == (True, False)
    assert studio.run("restore", str(tmp_path / "b.zip"), str(tmp_path / "new")).status == 3
