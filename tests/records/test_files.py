import os
import stat
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.records.files import write_whole


def test_a_file_is_written_and_replaced(tmp_path: Path) -> None:
    path = tmp_path / "head"
    write_whole(path, b"one")
    write_whole(path, b"two")
    assert path.read_bytes() == b"two"
    assert [entry.name for entry in tmp_path.iterdir()] == ["head"]


def test_the_mode_is_kept_to_the_owner_when_asked(tmp_path: Path) -> None:
    write_whole(tmp_path / "contact", b"name", mode=0o600)
    assert stat.S_IMODE((tmp_path / "contact").stat().st_mode) == 0o600


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_failure_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    path = tmp_path / "head"
    path.write_bytes(b"old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    if call == "fsync":
        monkeypatch.setattr(os, "fsync", full)
    else:
        monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(Refused, match=r"head cannot be written: No space left"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["head"]


def test_an_interruption_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "head", b"new")
    assert list(tmp_path.iterdir()) == []


def test_file_then_folder_are_flushed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    flushed: list[str] = []
    really = os.fsync

    def watched(handle: int) -> None:
        flushed.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")
        really(handle)

    monkeypatch.setattr(os, "fsync", watched)
    write_whole(tmp_path / "head", b"new")
    assert flushed == ["file", "folder"]


def test_a_missing_folder_is_refused_by_name(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r"nowhere/head cannot be written"):
        write_whole(tmp_path / "nowhere" / "head", b"new")
