"""Thumbnails: made once from a scan, kept under the name of their digest."""

import hashlib
import io
import re
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from provenance.errors import Damaged, NotFound, Problem, Refused
from provenance.records.files import write_whole

if TYPE_CHECKING:
    from PIL.Image import Image

    from provenance.records.scans import PictureLimits

LONG_EDGE_PX = 1200
_QUALITY = 88
_DIGEST = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True)
class Thumbnail:
    """A small picture of a print, and what it was made from."""

    jpeg: bytes
    """sRGB, or grey with the sRGB curve; no metadata."""
    width_px: int
    height_px: int
    source_sha256: str
    """SHA-256 of the scan's file, in lower-case hexadecimal."""
    source_name: str
    """Name of that file, without its folder."""
    source_width_px: int
    """Width of the scan the right way up."""
    source_height_px: int
    bits: int
    """Bits of one channel in the scan: 1, 8 or 16."""
    colour: str
    """Colour of the scan: ``grey``, ``RGB`` or ``CMYK``."""


def make_thumbnail(path: Path, limits: "PictureLimits | None" = None) -> Thumbnail:
    """A JPEG of the scan at `path`, upright, in sRGB, at most 1200 pixels on its long edge.

    Of a file with several pictures the first is taken.  The same scan gives
    the same bytes.  Raises Refused, naming the file, when it is missing, is
    not a TIFF, JPEG or PNG, is past `limits`, or is broken.
    """
    # Loaded here so that who only keeps thumbnails does not wait for it.
    from provenance.records import reduce, scans

    # Hashing takes as long as decoding and needs no lock: let it run beside.
    with (
        scans.opened(path) as file,
        scans.opened_again(path, file) as same,
        ThreadPoolExecutor(1) as beside,
    ):
        digest = beside.submit(hashlib.file_digest, same, "sha256")
        with scans.decoded(file, path, limits or scans.PictureLimits()) as scan:
            try:
                small = reduce.reduced(scan, LONG_EDGE_PX)
            except reduce.ProfileError as error:
                raise Refused(
                    Problem(
                        what=f"the colour profile in {path} cannot be used ({error})",
                        mend="save the scan again with an sRGB or a grey profile",
                    )
                ) from error
            return Thumbnail(
                jpeg=_jpeg(small),
                width_px=small.width,
                height_px=small.height,
                source_sha256=digest.result().hexdigest(),
                source_name=path.name,
                source_width_px=scan.width_px,
                source_height_px=scan.height_px,
                bits=scan.bits,
                colour=scan.colour,
            )


def _jpeg(image: "Image") -> bytes:
    image.info = {}  # the encoder would carry a comment over
    out = io.BytesIO()
    image.save(out, "JPEG", quality=_QUALITY, optimize=True, subsampling=0)
    return out.getvalue()


def store_thumbnail(folder: Path, jpeg: bytes) -> str:
    """Keep `jpeg` in `folder`; return its SHA-256 in lower-case hexadecimal.

    The same bytes are kept once.  Raises Refused when the folder cannot be written.
    """
    digest = hashlib.sha256(jpeg).hexdigest()
    path = _path(folder, digest)
    if not path.is_file() or path.read_bytes() != jpeg:
        write_whole(path, jpeg)
    return digest


def load_thumbnail(folder: Path, digest: str) -> bytes:
    """The JPEG kept under `digest`.

    Raises NotFound when there is none, Damaged when its bytes are not those
    that were kept.
    """
    path = _path(folder, digest)
    try:
        jpeg = path.read_bytes()
    except FileNotFoundError:
        raise NotFound(
            Problem(
                what=f"the thumbnail {path.name} is not in {folder}",
                mend="bring it back from a backup, or attach the scan again",
            )
        ) from None
    if hashlib.sha256(jpeg).hexdigest() != digest:
        raise Damaged(
            Problem(
                what=f"{path} is not the picture that was kept under this name",
                mend="bring it back from a backup, or attach the scan again",
            )
        )
    return jpeg


def _path(folder: Path, digest: str) -> Path:
    # A digest comes from a record; as a path it could lead anywhere.
    if not _DIGEST.fullmatch(digest):
        raise NotFound(Problem(what=f"{digest!r} is not the digest of a thumbnail"))
    return folder / f"{digest}.jpg"
