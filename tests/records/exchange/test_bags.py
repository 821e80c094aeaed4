"""Bags are written as the standard says, and trusted only as far as their digests go."""

import zipfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import bagit
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.errors import Damaged, ProvenanceError, Refused
from provenance.records.exchange.bag import Bag
from provenance.records.exchange.names import is_plain
from provenance.records.exchange.opened_bag import open_bag
from provenance.records.exchange.sinks import new_folder, new_zip
from tests.records.exchange.packed import bomb, files_of, linked, zipped

PAYLOAD = {"README.txt": b"read me\n", "studio/images/50 grey.jpg": b"\xff\xd8", "empty": b""}


def make_bag(path: Path, payload: dict[str, bytes] = PAYLOAD) -> Path:
    with new_folder(path) as sink:
        bag = Bag(sink)
        for name, data in payload.items():
            bag.add(name, [data])
        bag.finish({"Bagging-Date": "2031-06-01"})
    return path


def test_the_reference_library_finds_a_bag_valid(tmp_path: Path) -> None:
    held = bagit.Bag(str(make_bag(tmp_path / "bag")))
    held.validate()
    assert held.version_info == (1, 0)
    assert set(held.algorithms) == {"sha256", "sha512"}
    assert held.info["Payload-Oxum"] == "10.3"


def test_the_reference_library_finds_what_is_altered(tmp_path: Path) -> None:
    path = make_bag(tmp_path / "bag")
    (path / "data" / "README.txt").write_bytes(b"read mE\n")
    with pytest.raises(bagit.BagError):
        bagit.Bag(str(path)).validate()
    with open_bag(path) as bag, pytest.raises(Damaged, match="is not the file"):
        bag.check()


def test_a_bag_of_another_writer_is_read(tmp_path: Path) -> None:
    path = tmp_path / "theirs"
    path.mkdir()
    (path / "letter.txt").write_bytes(b"dear\n")
    bagit.make_bag(str(path), {"Contact-Name": "somebody"}, checksums=["sha512"])
    with open_bag(path) as bag:
        bag.check()
        assert bag.sizes == {"letter.txt": 5}
        assert bag.info["Contact-Name"] == "somebody"


@pytest.mark.parametrize("packed", [False, True])
def test_what_is_written_is_read(tmp_path: Path, packed: bool) -> None:
    path = tmp_path / "bag"
    with new_zip(path, "top") if packed else new_folder(path) as sink:
        bag = Bag(sink)
        for name, data in PAYLOAD.items():
            bag.add(name, [data])
        bag.finish({})
    with open_bag(path) as opened:
        opened.check()
        assert opened.sizes == {name: len(data) for name, data in PAYLOAD.items()}


def test_nothing_is_written_over(tmp_path: Path) -> None:
    path = make_bag(tmp_path / "bag")
    before = sorted(path.rglob("*"))
    with pytest.raises(Refused, match="stands there already"):
        make_bag(path)
    with pytest.raises(Refused, match="stands there already"), new_zip(path, "top"):
        pass
    assert sorted(path.rglob("*")) == before


def test_what_breaks_off_leaves_nothing(tmp_path: Path) -> None:
    def cut_off() -> Iterator[bytes]:
        yield b"1"
        raise KeyboardInterrupt

    for made in (new_folder(tmp_path / "a"), new_zip(tmp_path / "b", "top")):
        with pytest.raises(KeyboardInterrupt), made as sink:
            Bag(sink).add("one", cut_off())
    assert list(tmp_path.iterdir()) == []


WHOLE = files_of({"studio/register.db": b"x", "studio/head": b"y"})


@pytest.mark.parametrize(
    "name",
    [
        "data/../../out",
        "/etc/out",
        "data/./x",
        "data//x",
        "C:/out",
        "data\\..\\out",
        "data/nul.txt",
        "data/x.",
        "data/a\x1b[2Jb",
        "data/\u202egpj.exe",
        "data/" + "x" * 500,
    ],
)
def test_a_name_that_leads_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    path = zipped(tmp_path / "a.zip", {**WHOLE, name: b"!"})
    with pytest.raises(Refused) as caught, open_bag(path):
        pass
    # and what is said of it cannot steer the terminal
    assert str(caught.value).isprintable()


def test_a_name_that_climbs_out_of_the_top_is_refused(tmp_path: Path) -> None:
    path = zipped(tmp_path / "a.zip", WHOLE)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("../out", b"!")
    with pytest.raises(Refused, match="leads elsewhere"), open_bag(path):
        pass


def test_links_are_refused(tmp_path: Path) -> None:
    with (
        pytest.raises(Refused, match="a link or a device"),
        open_bag(linked(tmp_path / "a.zip", WHOLE, "data/studio/images", "/etc")),
    ):
        pass
    folder = make_bag(tmp_path / "bag")
    (folder / "data" / "more").symlink_to("/etc")
    with pytest.raises(Refused, match="a link or a device"), open_bag(folder):
        pass


def test_a_bomb_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    path = bomb(tmp_path / "a.zip", 60_000_000)
    assert path.stat().st_size < 100_000
    with pytest.raises(Refused, match="unpack to more"), open_bag(path):
        pass


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"data/extra": b"!"}, "in no manifest"),
        ({"data/studio/head": b"z"}, "is not the file that its sha256"),
        ({"fetch.txt": b"https://x 1 data/x\n"}, "never done"),
        ({"bagit.txt": b"BagIt-Version: 9\n"}, "not a bag of BagIt 1.0"),
        ({"bagit.txt": b"BagIt-Version: 1.0\nTag-File-Character-Encoding: x\n"}, "UTF-8"),
        ({"bagit.txt": b"\xff"}, "is not UTF-8"),
        ({"bagit.txt": b"x" * 5000}, "longer than any"),
        ({"manifest-sha256.txt": b"zz  data/x\n"}, "holds no digest"),
        ({"manifest-sha256.txt": b""}, "in no manifest"),
        ({"manifest-sha256.txt": WHOLE["manifest-sha256.txt"] * 2}, "names a file twice"),
        ({"tagmanifest-sha256.txt": b"0" * 64 + b"  bagit.txt\n"}, "bagit.txt is not the file"),
        ({"tagmanifest-sha256.txt": b"0" * 64 + b"  ../x\n"}, "is missing"),
    ],
)
def test_a_bag_that_is_not_whole_is_told(
    tmp_path: Path, change: dict[str, bytes], said: str
) -> None:
    path = zipped(tmp_path / "a.zip", WHOLE | change)
    with pytest.raises(ProvenanceError, match=said), open_bag(path) as bag:
        bag.check()


def test_weak_digests_alone_are_not_trusted(tmp_path: Path) -> None:
    files = {name: data for name, data in WHOLE.items() if "manifest" not in name}
    path = zipped(tmp_path / "a.zip", files | {"manifest-md5.txt": b"0" * 32 + b"  data/x\n"})
    with pytest.raises(Refused, match="no manifest"), open_bag(path):
        pass


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_a_spoiled_archive_is_told_or_read_as_it_was(tmp_path: Path, data: st.DataObject) -> None:
    path = zipped(tmp_path / "a.zip", WHOLE)
    octets = bytearray(path.read_bytes())
    for _ in range(data.draw(st.integers(1, 4))):
        octets[data.draw(st.integers(0, len(octets) - 1))] = data.draw(st.integers(0, 255))
    path.write_bytes(octets)
    # refused or damaged, in words; anything else would be a fault of the program
    with suppress(Refused, Damaged), open_bag(path) as bag:
        bag.check()
        assert all(is_plain(name) for name in bag.sizes)
