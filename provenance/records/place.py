"""Whether a folder may hold a register.

SQLite's write-ahead log needs memory shared between processes, which network
file systems do not give; a register there could be damaged without a word.
"""

import re
from pathlib import Path, PurePosixPath

from provenance.errors import Problem, Refused

# fmt: off
_NETWORK = frozenset({
    "9p", "afpfs", "afs", "beegfs", "ceph", "cifs", "coda", "davfs", "fuse.curlftpfs",
    "fuse.davfs2", "fuse.glusterfs", "fuse.gvfsd-fuse", "fuse.kio-fuse", "fuse.rclone",
    "fuse.s3fs", "fuse.sshfs", "glusterfs", "lustre", "ncpfs", "nfs", "nfs4", "orangefs",
    "smb2", "smb3", "smbfs", "webdav",
})
# fmt: on
_MOUNTS = Path("/proc/self/mountinfo")
_OCTAL = re.compile(r"\\([0-7]{3})")
"""How the table writes spaces, tabs, line breaks and backslashes."""


def refuse_network_folder(folder: Path, mounts: str | None = None) -> None:
    """Raise Refused when `folder` lies on a network file system.

    `mounts` is the text of /proc/self/mountinfo, read here when not given.
    Where the system has no such table only the form of the path can tell.
    """
    path = folder.absolute()
    if str(path).startswith(("\\\\", "//")):
        raise _refusal(folder, "a network share")
    if mounts is None:
        try:
            mounts = _MOUNTS.read_text(encoding="utf-8", errors="replace")
        except OSError:
            return
    kind = _file_system(PurePosixPath(path.resolve()), mounts)
    if kind in _NETWORK:
        raise _refusal(folder, f"a network file system ({kind})")


def _file_system(folder: PurePosixPath, mounts: str) -> str:
    """The type of the file system mounted nearest above `folder`."""
    best, kind = -1, ""
    for line in mounts.splitlines():
        before, _, after = line.partition(" - ")
        fields = before.split()
        if len(fields) < 5 or not after:
            continue
        point = PurePosixPath(_OCTAL.sub(lambda match: chr(int(match[1], 8)), fields[4]))
        # a later mount on the same point hides the earlier one
        if folder.is_relative_to(point) and len(point.parts) >= best:
            best, kind = len(point.parts), after.split()[0]
    return kind


def _refusal(folder: Path, why: str) -> Refused:
    return Refused(
        Problem(
            what=f"{folder} lies on {why}, where a register can be damaged without a word",
            record="studio folder",
            mend="keep the studio on a local disk and copy backups to the network",
        )
    )
