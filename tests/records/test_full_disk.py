"""A disk without room: said in words, nothing lost, and all is well once there is room."""

import os
import subprocess
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.negative import Negative
from provenance.records.audit import audit
from provenance.records.images import store_thumbnail
from provenance.records.private import Contacts
from provenance.records.register import Register
from tests.studios import enter, negative, new_register
from tests.tools import lack, need

SIZE = 1_000_000


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one megabyte."""
    mount, umount = need("mount"), need("umount")
    disk = tmp_path / "disk"
    disk.mkdir()
    made = subprocess.run(
        [mount, "-t", "tmpfs", "-o", f"size={SIZE}", "none", str(disk)], capture_output=True
    )
    if made.returncode:
        lack("this user may not mount a small disk")
    yield disk
    subprocess.run([umount, str(disk)], check=True)


def fill(disk: Path) -> Path:
    """Take all the room there is; deleting the file gives it back."""
    ballast = disk / "ballast"
    with ballast.open("wb", buffering=0) as file, suppress(OSError):
        while True:
            file.write(bytes(4096))
    return ballast


def enter_until_refused(register: Register) -> Refused:
    """Enter negatives with much to say, until one is refused."""
    for number in range(1_000):
        try:
            enter(register, negative(code=f"B-{number}", title="x" * 5_000))
        except Refused as refusal:
            return refusal
    raise AssertionError("the disk was never full")


def test_a_full_disk_is_said_in_words_and_nothing_is_lost(small_disk: Path) -> None:
    register = new_register(small_disk / "studio")
    enter(register, *(negative(code=f"A-{number}") for number in range(5)))
    ballast = fill(small_disk)
    refusal = enter_until_refused(register)
    assert "the disk is full; nothing was written; make room" in str(refusal)
    saved = register.read.head()[0]
    assert saved == 1 + len(register.read.all(Negative))
    ballast.unlink()
    record = enter(register, negative(code="C-1"))
    assert register.read.get(Negative, record).id == saved + 1
    register.close()
    assert not audit(small_disk / "studio").findings
    with Register.open(small_disk / "studio") as again:
        assert again.read.head()[0] == saved + 1


def test_nothing_half_made_is_left_on_a_full_disk(small_disk: Path) -> None:
    (small_disk / "images").mkdir()
    ballast = fill(small_disk)
    with pytest.raises(Refused):
        new_register(small_disk / "studio")
    with pytest.raises(Refused, match="No space"):
        store_thumbnail(small_disk / "images", os.urandom(20_000))
    with pytest.raises(Refused, match="No space"):
        Contacts(small_disk).add(name="A. Collector", note="x" * 20_000)
    left = [path for path in small_disk.rglob("*") if path.is_file()]
    assert left == [ballast]
    ballast.unlink()
    new_register(small_disk / "studio").close()
    assert not audit(small_disk / "studio").findings
