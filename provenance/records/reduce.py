"""Bring a scan down to the size of a thumbnail, in sRGB and the right way up."""

import io

from PIL import Image, ImageCms
from PIL.Image import Resampling, Transpose

from provenance.records.scans import GREY_16, Scan

_STRIP_ROWS = 32
_TURNS = {
    2: Transpose.FLIP_LEFT_RIGHT,
    3: Transpose.ROTATE_180,
    4: Transpose.FLIP_TOP_BOTTOM,
    5: Transpose.TRANSPOSE,
    6: Transpose.ROTATE_270,
    7: Transpose.TRANSVERSE,
    8: Transpose.ROTATE_90,
}


class ProfileError(Exception):
    """The colour profile in the scan is broken, or made for another kind of picture."""


def reduced(scan: Scan, long_edge_px: int) -> Image.Image:
    """The scan in 8-bit grey or sRGB, upright, at most `long_edge_px` on its long edge.

    Without a profile the values are taken as sRGB, or as grey with that curve.
    Raises ProfileError when there is a profile that cannot be used.
    """
    image = scan.image
    if image.mode in GREY_16:
        small = _from_16_bit(image, _fitted(image.size, long_edge_px), scan.white_is_zero)
    else:
        small = _plain(image).resize(
            _fitted(image.size, long_edge_px), Resampling.LANCZOS, reducing_gap=2.0
        )
    profile = image.info.get("icc_profile")
    small = _to_srgb(small, profile) if profile else _unprofiled(small)
    turn = _TURNS.get(scan.orientation)
    return small if turn is None else small.transpose(turn)


def _fitted(size: tuple[int, int], long_edge_px: int) -> tuple[int, int]:
    scale = min(1.0, long_edge_px / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _plain(image: Image.Image) -> Image.Image:
    """The same picture in a mode that can be resampled, with white behind what is clear."""
    if image.mode in ("LA", "RGBA") or "transparency" in image.info:
        clear = image.convert("RGBA")
        paper = Image.new("RGBA", clear.size, "white")
        mode = "L" if image.mode in ("1", "L", "LA") else "RGB"
        return Image.alpha_composite(paper, clear).convert(mode)
    if image.mode in ("P", "RGBX"):
        return image.convert("RGB")
    return image.convert("L") if image.mode == "1" else image


def _from_16_bit(image: Image.Image, size: tuple[int, int], white_is_zero: bool) -> Image.Image:
    # The library resamples 32-bit integers but not 16-bit ones, and cuts them
    # off at 255 when asked for 8.  So whole blocks of pixels become their mean,
    # strip by strip, which stays in the processor's cache; what is left to
    # resample is about twice too large, and as 8 bits is right to half a level.
    factor = max(1, round(min(image.width / size[0], image.height / size[1]) / 2))
    narrow = Image.new("L", (-(-image.width // factor), -(-image.height // factor)))
    rows = max(1, _STRIP_ROWS // factor) * factor
    for top in range(0, image.height, rows):
        strip = image.crop((0, top, image.width, min(top + rows, image.height))).convert("I")
        narrow.paste(_to_8_bit(strip.reduce(factor), white_is_zero), (0, top // factor))
    return narrow.resize(size, Resampling.LANCZOS)


def _to_8_bit(wide: Image.Image, white_is_zero: bool) -> Image.Image:
    # 257 takes 65535 to 255 exactly; the half rounds.
    if white_is_zero:
        return wide.point(lambda value: value * (-1 / 257) + 255.5).convert("L")
    return wide.point(lambda value: value * (1 / 257) + 0.5).convert("L")


def _to_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    try:
        converted = ImageCms.profileToProfile(
            image,
            ImageCms.ImageCmsProfile(io.BytesIO(profile)),
            ImageCms.createProfile("sRGB"),
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
            outputMode="RGB",
            flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
        )
    except (ImageCms.PyCMSError, OSError, ValueError) as error:
        raise ProfileError(str(error)) from error
    assert converted is not None  # noqa: S101 - None only when converting in place
    # What came in grey goes out grey: the three channels agree to a rounding.
    return converted.getchannel("G") if image.mode == "L" else converted


def _unprofiled(image: Image.Image) -> Image.Image:
    return image.convert("RGB") if image.mode == "CMYK" else image
