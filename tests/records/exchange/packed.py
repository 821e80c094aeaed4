"""Bags made by hand, whole or wrong in one way."""

import hashlib
import io
import stat
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
Change = Callable[[dict[str, bytes]], None]


def files_of(payload: Mapping[str, bytes]) -> dict[str, bytes]:
    """Every file of a bag whose payload is that."""
    rows = [f"{hashlib.sha256(data).hexdigest()}  data/{name}\n" for name, data in payload.items()]
    return {
        "bagit.txt": DECLARATION,
        "manifest-sha256.txt": "".join(rows).encode(),
        **{f"data/{name}": data for name, data in payload.items()},
    }


def zipped(path: Path, files: Mapping[str, bytes], *, top: str = "bag/") -> Path:
    """Those files in a zip at `path`."""
    with zipfile.ZipFile(path, "w") as archive:
        for name, data in files.items():
            archive.writestr(f"{top}{name}", data)
    return path


def linked(path: Path, files: Mapping[str, bytes], name: str, to: str) -> Path:
    """Those files, and under `name` a symbolic link."""
    zipped(path, files)
    info = zipfile.ZipInfo(f"bag/{name}")
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(info, to)
    return path


def bomb(path: Path, length: int) -> Path:
    """A small zip that unpacks to `length` octets."""
    zeros = bytes(length)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in files_of({"studio/register.db": zeros}).items():
            archive.writestr(f"bag/{name}", data)
    path.write_bytes(packed.getvalue())
    return path
