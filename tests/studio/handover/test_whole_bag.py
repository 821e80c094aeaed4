"""A bag that is not whole is refused whole, wherever it is damaged, and nothing is made of it."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import bagit
import pytest

from provenance.errors import Damaged, ProvenanceError, Refused
from provenance.records.audit import audit, rebuild_view
from provenance.records.entry import decode, encode
from provenance.records.forms import read_body
from provenance.records.glance import glance
from provenance.records.register import Register
from provenance.studio.handover.bagging import make_bag
from provenance.studio.handover.restore import restore
from tests.studio.finished import desk
from tests.studios import clock

Change = Callable[[Path], object]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive bag of a small studio."""
    room = tmp_path_factory.mktemp("whole")
    held = desk(room / "studio")
    held.register.close()
    return make_bag(held.folder, room / "bag", "archive", clock=clock()).path


def edited(name: str, old: bytes = b"", new: bytes = b"") -> Change:
    """One file with some bytes changed; with nothing said, its last byte cut off."""

    def change(bag: Path) -> None:
        data = (bag / name).read_bytes()
        assert old in data
        (bag / name).write_bytes(data.replace(old, new, 1) if old else data[:-1])

    return change


def put(name: str, data: bytes = b"!") -> Change:
    """One file more."""
    return lambda bag: (bag / name).write_bytes(data)


def gone(*names: str) -> Change:
    """Some files fewer."""
    return lambda bag: [(bag / name).unlink() for name in names]


def linked(name: str) -> Change:
    """A file that is a link to the same bytes elsewhere."""

    def change(bag: Path) -> None:
        outside = bag.with_name("outside")
        shutil.move(bag / name, outside)
        (bag / name).symlink_to(outside)

    return change


def relisted(bag: Path) -> None:
    """A file that the manifests have twice, once by a way that climbs out and back."""
    for kind in ("sha256", "sha512"):
        path = bag / f"manifest-{kind}.txt"
        path.write_text(path.read_text().replace("  data/README", "  data/../data/README"))
    gone("tagmanifest-sha256.txt", "tagmanifest-sha512.txt", "bag-info.txt")(bag)


def swapped_agent(bag: Path) -> None:
    """No tag manifests, and no word of who packed it: digests of the payload remain."""
    gone("tagmanifest-sha256.txt", "tagmanifest-sha512.txt", "bag-info.txt")(bag)
    edited("data/tables/prints.csv", b"QUAY", b"QUAX")(bag)


def unlisted(bag: Path) -> None:
    """What the bag says of itself altered, and left out of the lists that would show it."""
    edited("bag-info.txt", b"archive", b"sealed")(bag)
    for kind in ("sha256", "sha512"):
        path = bag / f"tagmanifest-{kind}.txt"
        rows = path.read_text().splitlines(keepends=True)
        path.write_text("".join(row for row in rows if "bag-info" not in row))


CHANGES: dict[str, Change] = {
    "a table altered": edited("data/tables/prints.csv", b"QUAY", b"QUAX"),
    "the journal cut": edited("data/journal.jsonl"),
    "the events cut": edited("data/events.jsonld"),
    "the readme altered": edited("data/README.txt"),
    "the register altered": edited("data/studio/register.db"),
    "the witness altered": edited("data/studio/head"),
    "a table gone": gone("data/tables/papers.csv"),
    "a stray file": put("data/tables/more.csv"),
    "a stray file beside the studio": put("data/.hidden"),
    "a stray file in the studio": put("data/studio/images/x.jpg"),
    "sha256 altered": edited("manifest-sha256.txt", b"a", b"b"),
    "sha512 altered": edited("manifest-sha512.txt", b"a", b"b"),
    "sha512 cut": edited("manifest-sha512.txt"),
    "sha512 gone": gone("manifest-sha512.txt"),
    "tag manifest altered": edited("tagmanifest-sha512.txt", b"a", b"b"),
    "tag manifest gone": gone("tagmanifest-sha256.txt"),
    "all tag manifests gone": gone("tagmanifest-sha256.txt", "tagmanifest-sha512.txt"),
    "every word of the packer gone": swapped_agent,
    "declaration altered": edited("bagit.txt", b"1.0", b"0.9"),
    "information altered": edited("bag-info.txt", b"archive", b"sealed"),
    "information gone": gone("bag-info.txt"),
    "information altered and in no list": unlisted,
    "a stray file beside the payload": put("more.sh"),
    "a manifest of another kind that is wrong": put("manifest-md5.txt", b"0" * 32 + b"  data/x\n"),
    "a list of files to fetch": put("fetch.txt", b"https://x.example 1 data/x\n"),
    "a link": linked("data/tables/papers.csv"),
    "a link in the studio": linked("data/studio/register.db"),
    "a link to a folder": lambda bag: (bag / "data" / "etc").symlink_to("/etc"),
    "a pipe": lambda bag: os.mkfifo(bag / "data" / "pipe"),
    "a way that climbs": relisted,
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_bag_that_is_not_whole_makes_nothing(whole: Path, tmp_path: Path, change: Change) -> None:
    bag = tmp_path / "bag"
    shutil.copytree(whole, bag)
    change(bag)
    before = sorted(tmp_path.iterdir())
    with pytest.raises(ProvenanceError) as caught:
        restore(bag, tmp_path / "new")
    assert isinstance(caught.value, Refused | Damaged)
    assert all(one.what and one.mend for one in caught.value.problems)
    assert sorted(tmp_path.iterdir()) == before, "nothing was left, not even a part"


def test_the_same_bag_as_it_was_comes_back_whole(whole: Path, tmp_path: Path) -> None:
    bagit.Bag(str(whole)).validate()
    assert not restore(whole, tmp_path / "new").report.damaged


def test_nothing_is_made_while_a_bag_is_looked_at(whole: Path, tmp_path: Path) -> None:
    seen: list[list[Path]] = []

    def progress(name: str, _done: int, _all: int) -> None:
        if name == "files checked":
            seen.append(list(tmp_path.iterdir()))

    restore(whole, tmp_path / "new", progress=progress)
    assert seen
    assert not any(seen)


def test_the_studio_of_a_bag_is_not_opened_where_it_lies(whole: Path) -> None:
    """Who opens a register changes bytes of it, and the digests of the bag hold no longer."""
    inside = whole / "data" / "studio"
    for look in (lambda: Register.open(inside), lambda: rebuild_view(inside)):
        with pytest.raises(Refused, match=r"lies in a bag.*provenance restore"):
            look()
    with pytest.raises(Refused, match="lies in a bag"), glance(inside):
        pass
    assert not audit(inside).damaged
    bagit.Bag(str(whole)).validate()


def test_folders_however_deep_are_read(whole: Path, tmp_path: Path) -> None:
    bag, deep = tmp_path / "bag", "/".join("d" * 1500)
    shutil.copytree(whole, bag)
    here = os.open(bag / "data", os.O_RDONLY)
    try:
        for name in deep.split("/"):
            os.mkdir(name, dir_fd=here)
            below = os.open(name, os.O_RDONLY, dir_fd=here)
            os.close(here)
            here = below
        assert not restore(bag, tmp_path / "new").report.damaged
    finally:
        os.close(here)
        # the standard library takes such folders away by recursion
        subprocess.run(["rm", "-rf", str(bag)], check=True)


def test_an_entry_that_is_nested_without_end_is_damage(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio")
    seq, digest = held.register.read.head()
    held.register.close()
    body = b"[" * 200_000 + b"]" * 200_000
    entry = decode(_entry(tmp_path / "studio", seq))
    data = encode(entry).replace(bytes(entry.body), body)
    with closing(sqlite3.connect(tmp_path / "studio" / "register.db")) as other:
        other.execute("INSERT INTO journal VALUES (?, ?, ?)", (seq + 1, data, digest))
        other.commit()
    assert audit(tmp_path / "studio").damaged
    with pytest.raises(Damaged):
        read_body("negative", 1, body)
    bag = make_bag(held.folder, tmp_path / "bag", "sealed", clock=clock())
    assert bag.report.damaged
    assert restore(bag.path, tmp_path / "new").report.damaged


def _entry(folder: Path, seq: int) -> bytes:
    with closing(sqlite3.connect(folder / "register.db")) as other:
        query = "SELECT entry FROM journal WHERE seq = ?"
        return bytes(other.execute(query, (seq,)).fetchone()[0])
