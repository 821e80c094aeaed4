"""Makes templates/colour/srgb.icc: a profile of sRGB, version 2, matrix and curve.

    python -m tests.documents.srgb

The definition is IEC 61966-2-1: primaries of ITU-R BT.709, white D65, and a
curve of two pieces.  A profile is seen from D50 (ICC.1:2001-04), so the
primaries are adapted by the Bradford transform that the ICC recommends.
"""

import struct
from pathlib import Path

from provenance.resources import resource

_RED, _GREEN, _BLUE = (0.64, 0.33), (0.30, 0.60), (0.15, 0.06)
_D65 = (0.3127, 0.3290)
_D50 = (0.9642, 1.0, 0.8249)
_BRADFORD = ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))
_STEPS = 1024

Vector = tuple[float, ...]
Matrix = tuple[Vector, ...]


def linear(value: float) -> float:
    """The light of an sRGB value, both from 0 to 1."""
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def profile() -> bytes:
    """The bytes of the profile."""
    red, green, blue = _columns_seen_from_d50()
    curve = struct.pack(">4sII", b"curv", 0, _STEPS) + struct.pack(
        f">{_STEPS}H", *(round(65535 * linear(at / (_STEPS - 1))) for at in range(_STEPS))
    )
    white = _xyz_of(_D65)
    tags = {
        b"desc": _description("sRGB, IEC 61966-2-1"),
        b"cprt": b"text\0\0\0\0No rights reserved\0",
        b"wtpt": _xyz(white),
        b"rXYZ": _xyz(red),
        b"gXYZ": _xyz(green),
        b"bXYZ": _xyz(blue),
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    return _with_header(tags)


def _with_header(tags: dict[bytes, bytes]) -> bytes:
    places: dict[bytes, int] = {}
    at, body = 128 + 4 + 12 * len(tags), b""
    for data in tags.values():
        if data not in places:
            places[data] = at + len(body)
            body += data + b"\0" * (-len(data) % 4)
    table = struct.pack(">I", len(tags)) + b"".join(
        struct.pack(">4sII", name, places[data], len(data)) for name, data in tags.items()
    )
    size = at + len(body)
    header = struct.pack(">I4sI4s4s4s", size, b"\0\0\0\0", 0x02100000, b"mntr", b"RGB ", b"XYZ ")
    # The day of the standard, so that the same bytes come out on every day.
    header += struct.pack(">6H", 1999, 10, 18, 0, 0, 0) + b"acsp"
    header = header.ljust(68, b"\0") + b"".join(_fixed(value) for value in _D50)
    return header.ljust(128, b"\0") + table + body


def _description(text: str) -> bytes:
    words = text.encode("ascii") + b"\0"
    return struct.pack(">4sII", b"desc", 0, len(words)) + words + bytes(4 + 4 + 2 + 1 + 67)


def _xyz(values: Vector) -> bytes:
    return b"XYZ \0\0\0\0" + b"".join(_fixed(value) for value in values)


def _fixed(value: float) -> bytes:
    return struct.pack(">i", round(value * 65536))


def _xyz_of(chromaticity: tuple[float, float]) -> Vector:
    x, y = chromaticity
    return (x / y, 1.0, (1 - x - y) / y)


def _columns_seen_from_d50() -> Matrix:
    primaries = tuple(zip(*(_xyz_of(one) for one in (_RED, _GREEN, _BLUE)), strict=True))
    white = _xyz_of(_D65)
    shares = _times(_inverse(primaries), white)
    native = tuple(
        tuple(cell * share for cell, share in zip(row, shares, strict=True)) for row in primaries
    )
    cones = [
        to / seen
        for to, seen in zip(_times(_BRADFORD, _D50), _times(_BRADFORD, white), strict=True)
    ]
    adapted = []
    for column in zip(*native, strict=True):
        moved = tuple(c * v for c, v in zip(cones, _times(_BRADFORD, column), strict=True))
        adapted.append(_times(_inverse(_BRADFORD), moved))
    return tuple(adapted)


def _times(matrix: Matrix, vector: Vector) -> Vector:
    return tuple(sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix)


def _inverse(matrix: Matrix) -> Matrix:
    (a, b, c), (d, e, f), (g, h, i) = matrix
    whole = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    rows = (
        (e * i - f * h, c * h - b * i, b * f - c * e),
        (f * g - d * i, a * i - c * g, c * d - a * f),
        (d * h - e * g, b * g - a * h, a * e - b * d),
    )
    return tuple(tuple(cell / whole for cell in row) for row in rows)


if __name__ == "__main__":
    Path(resource("templates") / "colour" / "srgb.icc").write_bytes(profile())
