"""The colour profile against its own script, and against the colour library of Pillow."""

import io
import struct
import zlib

from PIL import Image, ImageCms

from provenance.documents.colour import srgb_profile
from provenance.resources import resource
from tests.documents.srgb import linear, profile

COMMITTED = resource("templates", "colour", "srgb.icc").read_bytes()


def test_the_committed_bytes_are_those_the_script_makes() -> None:
    assert profile() == COMMITTED
    assert zlib.decompress(srgb_profile()) == COMMITTED


def test_a_colour_library_agrees_to_one_level_of_255() -> None:
    ours = ImageCms.getOpenProfile(io.BytesIO(COMMITTED))
    theirs = ImageCms.createProfile("sRGB")
    steps = [0, 1, 3, 10, 11, 40, 96, 128, 200, 254, 255]
    patches = bytes(level for r in steps for g in steps for b in steps for level in (r, g, b))
    colours = Image.frombytes("RGB", (len(patches) // 3, 1), patches)
    for start, end in ((ours, theirs), (theirs, ours)):
        seen = ImageCms.profileToProfile(colours, start, end)
        assert seen is not None
        off = [abs(a - b) for a, b in zip(seen.tobytes(), patches, strict=True)]
        assert max(off) <= 1


def test_the_profile_is_small_and_of_version_2_for_a_screen() -> None:
    size, version = struct.unpack_from(">I4xI", COMMITTED)
    assert size == len(COMMITTED) < 3000
    assert version >> 24 == 2
    assert COMMITTED[12:24] == b"mntrRGB XYZ "


def test_the_curve_is_that_of_the_standard() -> None:
    # IEC 61966-2-1: the pieces meet at 0.04045 (S: cited in W3C CSS Color 4).
    assert abs(0.04045 / 12.92 - linear(0.0404500001)) < 1e-7
    assert linear(1) == 1
