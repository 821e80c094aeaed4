"""Open the scan of a print: only formats that are known, only sizes that fit.

A scan comes from anywhere, so its header is judged before a pixel is decoded.
"""

import os
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BufferedReader
from pathlib import Path

from PIL import Image, ImageFile, UnidentifiedImageError

from provenance.errors import Problem, Refused

FORMATS = ("TIFF", "JPEG", "PNG")
GREY_16 = ("I;16", "I;16L", "I;16B")
_MODES = ("1", "L", "LA", "P", "RGB", "RGBA", "RGBX", "CMYK", *GREY_16)
_SAVE_AGAIN = "save it again as TIFF, JPEG or PNG, in grey or RGB, with 8 or 16 bits"

# The limit of the imaging library is a global, and lower than an honest scan.
_library_limit = threading.Lock()


@dataclass(frozen=True)
class PictureLimits:
    """How large a scan may be, in pixels."""

    pixels: int = 400_000_000
    long_edge_px: int = 100_000


@dataclass(frozen=True)
class Scan:
    """A scan whose pixels are decoded; `image` stands as it was stored."""

    image: Image.Image
    width_px: int
    """Width of the picture the right way up."""
    height_px: int
    orientation: int
    """The turn that `image` still needs, as EXIF counts it: 1 (none) to 8."""
    bits: int
    """Bits of one channel in the file: 1, 8 or 16."""
    colour: str
    """``grey``, ``RGB`` or ``CMYK``."""
    white_is_zero: bool
    """A 16-bit negative of itself, which the library leaves for us to turn."""


@contextmanager
def opened(path: Path) -> Iterator[BufferedReader]:
    """The file at `path`, for reading.  Raises Refused unless it is a plain file."""
    try:
        # A named pipe would wait for ever, so ask before opening.
        if path.exists() and not path.is_file():
            raise Refused(
                Problem(what=f"{path} is not a file", mend="name the picture file itself")
            )
        file = path.open("rb")
    except FileNotFoundError:
        raise Refused(
            Problem(what=f"there is no file {path}", mend="see where the scan was saved")
        ) from None
    except PermissionError:
        raise Refused(
            Problem(what=f"{path} may not be read", mend="change its permissions")
        ) from None
    except (OSError, ValueError) as error:
        # ValueError: a name that no file can have
        why = getattr(error, "strerror", None) or error
        raise Refused(
            Problem(what=f"{path} cannot be read ({why})", mend="see where the scan was saved")
        ) from error
    with file:
        yield file


@contextmanager
def opened_again(path: Path, file: BufferedReader) -> Iterator[BufferedReader]:
    """The open `file` once more, with a reading place of its own.

    Raises Refused when another file has come to stand at `path` meanwhile.
    """
    with opened(path) as same:
        if not os.path.samestat(os.fstat(file.fileno()), os.fstat(same.fileno())):
            raise Refused(Problem(what=f"{path} was replaced while it was read", mend="try again"))
        yield same


@contextmanager
def decoded(file: BufferedReader, path: Path, limits: PictureLimits) -> Iterator[Scan]:
    """The scan in `file`; `path` is only its name for messages.

    Raises Refused when the format is not known, the picture is past `limits`
    (told from its header alone) or its data are broken.
    """
    with _library_limit, warnings.catch_warnings():
        # Odd metadata make the library warn; only the pixels matter here.
        warnings.simplefilter("ignore")
        usual, Image.MAX_IMAGE_PIXELS = Image.MAX_IMAGE_PIXELS, None
        try:
            scan = _read(file, path, limits)
        finally:
            Image.MAX_IMAGE_PIXELS = usual
    with scan.image:
        yield scan


def _read(file: BufferedReader, path: Path, limits: PictureLimits) -> Scan:
    try:
        # From the file object, never by path: by path the library maps some
        # turned TIFFs into memory and garbles them (Pillow 13.0.0).
        image = Image.open(file, formats=FORMATS)
    except UnidentifiedImageError:
        raise Refused(
            Problem(what=f"{path} is not a TIFF, JPEG or PNG picture", mend=_SAVE_AGAIN)
        ) from None
    except Exception as error:
        raise _broken(path, error) from error
    _judge(image, path, limits)
    bits, white_is_zero, size = _bits(image), _white_is_zero(image), image.size
    try:
        # A large JPEG is decoded at a half, quarter or eighth where that is enough.
        image.draft(None, (2400, 2400))
        image.load()
    except Exception as error:
        # The decoders raise whatever they stumble on: OSError, SyntaxError,
        # ValueError, struct.error, EOFError, zlib.error...
        raise _broken(path, error) from error
    # The library turns a TIFF while decoding and forgets the tag; others wait for us.
    orientation = _orientation(image)
    width, height = reversed(size) if orientation >= 5 else size
    return Scan(image, width, height, orientation, bits, _colour(image.mode), white_is_zero)


def _judge(image: Image.Image, path: Path, limits: PictureLimits) -> None:
    width, height = image.size
    if width * height > limits.pixels or max(width, height) > limits.long_edge_px:
        raise Refused(
            Problem(
                what=f"{path} is {width} × {height} pixels, more than the limit of "
                f"{limits.pixels // 1_000_000} megapixels or {limits.long_edge_px} on an edge",
                mend="save a smaller copy of the scan and attach that",
            )
        )
    if image.mode not in _MODES:
        raise Refused(
            Problem(
                what=f"{path} holds a kind of picture that is not read here ({image.mode})",
                mend=_SAVE_AGAIN,
            )
        )


def _broken(path: Path, error: Exception) -> Refused:
    return Refused(
        Problem(
            what=f"{path} is broken or cut short ({error})",
            mend="copy the scan again from where it was made",
        )
    )


def _orientation(image: Image.Image) -> int:
    try:
        orientation = image.getexif().get(0x0112, 1)
    except Exception:  # broken metadata do not spoil a picture
        return 1
    return orientation if orientation in range(1, 9) else 1


def _bits(image: Image.Image) -> int:
    if image.mode == "1":
        return 1
    # Three channels of 16 bits are decoded to 8; only the file's own words tell.
    if isinstance(in_tiff := _tiff_tag(image, 258), tuple):
        return int(in_tiff[0])
    tiles = image.tile if isinstance(image, ImageFile.ImageFile) else []
    return 16 if any("16" in str(tile.args) for tile in tiles) else 8


def _white_is_zero(image: Image.Image) -> bool:
    return image.mode in GREY_16 and _tiff_tag(image, 262) == 0


def _tiff_tag(image: Image.Image, tag: int) -> object:
    tags = getattr(image, "tag_v2", None)
    return None if tags is None else tags.get(tag)


def _colour(mode: str) -> str:
    if mode == "CMYK":
        return mode
    return "RGB" if mode in ("P", "RGB", "RGBA", "RGBX") else "grey"
