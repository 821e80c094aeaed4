"""Network folders are refused; local ones are not, whatever else is mounted."""

from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.records.place import refuse_network_folder

ROOT = "22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw\n"


def mount(point: str, kind: str, source: str = "server:/share") -> str:
    return f"40 22 0:50 / {point} rw,relatime shared:9 - {kind} {source} rw\n"


@pytest.mark.parametrize(
    ("mounts", "kind"),
    [
        (mount("/prints", "nfs4"), "nfs4"),
        (mount("/prints", "nfs"), "nfs"),
        (mount("/prints", "cifs", "//server/share"), "cifs"),
        (mount("/prints", "smb3"), "smb3"),
        (mount("/prints", "fuse.sshfs", "me@server:"), "fuse.sshfs"),
        (mount("/prints", "9p"), "9p"),
        (mount("/", "nfs4"), "nfs4"),
        (mount("/prints", "ext4", "/dev/sdb1") + mount("/prints/studio", "nfs4"), "nfs4"),
        (mount("/prints", "ext4", "/dev/sdb1") + mount("/prints", "nfs4"), "nfs4"),
    ],
)
def test_network_file_systems_are_refused_by_name(mounts: str, kind: str) -> None:
    with pytest.raises(Refused, match=rf"network file system \({kind}\)"):
        refuse_network_folder(Path("/prints/studio"), ROOT + mounts)


@pytest.mark.parametrize(
    "mounts",
    [
        "",
        mount("/prints", "xfs", "/dev/sdb1"),
        mount("/prints", "btrfs", "/dev/sdb1"),
        mount("/prints", "tmpfs", "tmpfs"),
        mount("/prints", "fuseblk", "/dev/sdb1"),
        mount("/prints", "overlay", "overlay"),
        mount("/print", "nfs4"),
        mount("/prints/studio2", "nfs4"),
        mount("/prints/studio/backup", "nfs4"),
        mount("/prints", "nfs4") + mount("/prints/studio", "ext4", "/dev/sdb1"),
        mount("/prints", "nfs4") + mount("/prints", "ext4", "/dev/sdb1"),
        "a line of another sort\n\n",
    ],
)
def test_local_file_systems_are_accepted(mounts: str) -> None:
    refuse_network_folder(Path("/prints/studio"), ROOT + mounts)


@pytest.mark.parametrize(
    ("folder", "point"),
    [
        ("/my prints/studio", r"/my\040prints"),
        ("/tab\there/studio", r"/tab\011here"),
        ("/back\\slash/studio", r"/back\134slash"),
        ("/fotoarchiv-für-später/studio", "/fotoarchiv-für-später"),
    ],
)
def test_mount_points_are_read_as_the_table_writes_them(folder: str, point: str) -> None:
    with pytest.raises(Refused, match="nfs4"):
        refuse_network_folder(Path(folder), ROOT + mount(point, "nfs4"))


def test_a_link_is_followed_to_where_the_studio_is(tmp_path: Path) -> None:
    there, link = tmp_path / "there", tmp_path / "link"
    there.mkdir()
    link.symlink_to(there)
    table = ROOT + mount(str(there.resolve()), "cifs")
    with pytest.raises(Refused, match="cifs"):
        refuse_network_folder(link / "studio", table)
    refuse_network_folder(tmp_path, table)


def test_a_share_is_known_by_its_path() -> None:
    with pytest.raises(Refused, match="a network share"):
        refuse_network_folder(Path("//server/share/studio"), ROOT)
