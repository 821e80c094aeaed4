"""What the numbers of a colour mean: sRGB, as IEC 61966-2-1 defines it."""

import zlib
from functools import cache

from provenance.resources import resource


@cache
def srgb_profile() -> bytes:
    """The ICC profile of sRGB, compressed."""
    return zlib.compress(resource("templates", "colour", "srgb.icc").read_bytes(), 9)
