"""Slipway, first frost: a hull in frame on its timbers under a pale sky."""

import math
from itertools import pairwise

from PIL import Image, ImageChops

from .stage import Point, Span, Stage, flank, ground, upright
from .surfaces import bell, bloom, blur, boards, dice, noise, relief, sky, stretch, turned

_YAW, _SLOPE = 0.36, 0.085  # the slip's turn from the lens's axis, and its rise for each metre
_BEAM, _DEEP, _LONG, _STERN = 2.15, 2.5, 13.0, 6.6  # half breadth, depth, length, first station
_SOIL = -0.25  # below the slip's timbers


def expose() -> Image.Image:
    """The negative."""

    def pale(x: float, y: float) -> float:
        return 0.74 + 0.25 * bell((y - 0.58) / 0.36) * (0.7 + 0.3 * bell((x - 0.15) / 0.5))

    stage = Stage(
        sky(dice("slipway"), 0.09, pale),
        (0.0, 1.55, 0.0),
        (0.5, 0.64),
        0.88,
        lambda at: 1 - math.exp(-max(0.0, at[2] - 5) / 56),
    )
    _far_shore(stage)
    _foreshore(stage)
    _slip(stage)
    _hull(stage)
    return bloom(stage.film, 60, 0.2)


def _place(across: float, up: float, along: float) -> Point:
    """A place measured from the middle of the slip's foot, square to its timbers."""
    return (
        2.75 + across * math.cos(_YAW) - along * math.sin(_YAW),
        -0.35 + up + _SLOPE * along,
        1.2 + across * math.sin(_YAW) + along * math.cos(_YAW),
    )


def _far_shore(stage: Stage) -> None:
    """Hills, then sheds and bare masts, each softer than the eye would ask."""
    rng = dice("hills")
    for far, low, tall, share in ((420.0, 4.0, 16.0, 0.5), (260.0, 2.0, 7.0, 0.45)):
        crest = [
            (far * (n / 40 - 0.5), low + tall * abs(math.sin(n * 0.11 + far)) ** 1.5 * swell)
            for n, swell in ((n, rng.uniform(0.8, 1.0)) for n in range(41))
        ]
        stage.shape(upright(far * 0.4, [*crest, (far, 0), (-far, 0)]), share)
    stage.film.paste(blur(stage.film, 4))
    for x, wide, tall in ((-47, 15, 4.4), (-30, 8, 3.2), (26, 12, 3.8), (39, 10, 3.0)):
        roof = [(x, tall), (x + 2, tall + 2), (x + wide - 1, tall + 2), (x + wide, tall)]
        stage.shape(upright(110, [(x, 0), *roof, (x + wide, 0)]), 0.15)
    for foot, mast in ((13.0, 19), (17.6, 16)):
        stage.rod(upright(98, [(foot, 0), (foot + 0.1, mast)]), 0.1, 0.05, 0.1)
    stage.film.paste(blur(stage.film, 2.2))


def _foreshore(stage: Stage) -> None:
    """Frozen shingle, rising with the slip; stones dark where the rime has missed them."""
    size = (1200, 1200)
    stones = noise(dice("shingle"), size, (30, 30), (150, 150), (600, 600))
    drifts = noise(dice("drifts"), size, (5, 5), (16, 16))
    skin = ImageChops.overlay(stretch(stones, 0.42, 1.0), relief(stones, 1.1))
    skin = ImageChops.multiply(skin, stretch(drifts, 0.7, 1.15))
    for far, near in pairwise((120.0, 40.0, 20.0, 11.0, 6.0, 3.5, 1.4)):
        wide = far * 0.7
        square = skin.crop((0, 0, 1200, max(40, round(600 * (far - near) / wide))))
        a, b, c, d = ground(0, (-wide, wide), (near, far))
        rise = [min(1.2, _place(0, _SOIL, z / math.cos(_YAW))[1]) for z in (far, near)]
        corners = [(x, rise[n // 2], z) for n, (x, _, z) in enumerate((a, b, c, d))]
        stage.plane(square, corners, lambda at: 0.78 + 0.2 * min(1.0, at[2] / 20), (8, 8))
    shadow = [_place(*p) for p in ground(_SOIL, (-1.8, 1.8), (0, 24))]
    stage.plane(skin.crop((0, 0, 300, 1200)), shadow, lambda at: 0.36)


def _slip(stage: Stage) -> None:
    rng = dice("slip")
    plank = turned(boards(rng, (200, 900), 1, (0.6, 0.66)))
    rime = stretch(noise(rng, (900, 200), (40, 6), (220, 50), (600, 130)), 0.2, 1.5)
    white = ImageChops.overlay(rime, plank)

    def baulk(x: Span, z: Span, top: float, tall: float) -> None:
        """A squared timber: dark sides, the upper face white with rime."""
        for side in x:
            face = [_place(*p) for p in flank(side, (top - tall, top), z)]
            stage.plane(plank, face, lambda at: 0.3, (3, 3))
        a, b = (_place(side, top, z[0]) for side in x)
        c, d = (_place(side, top - tall, z[0]) for side in reversed(x))
        stage.plane(plank, [a, b, c, d], lambda at: 0.3, (3, 3))
        stage.plane(white, [_place(*p) for p in ground(top, x, z)], lambda at: 0.93)

    for n in reversed(range(28)):
        z = 0.9 * n + rng.uniform(-0.06, 0.06)
        baulk((rng.uniform(-2.05, -1.8), rng.uniform(1.8, 2.05)), (z, z + 0.28), 0.0, 0.24)
    for x in (-0.75, 0.55):
        for n in reversed(range(12)):
            baulk((x, x + 0.2), (2.1 * n, 2.1 * n + 2.06), 0.26, 0.26)


def _mould(t: float, q: float, side: float) -> Point:
    """On the hull's shape: `t` from stern to stem, `q` from keel to sheer."""
    full = math.sin(math.pi * (0.16 + 0.84 * t) ** 0.9) ** 0.6
    hollow = 0.4 + 0.5 * (2 * t - 1) ** 2
    sheer = _DEEP * (1 + 0.34 * (2 * t - 0.9) ** 2)
    rake = 0.9 * t - 0.5 * (1 - t)
    along = _STERN + _LONG * t + rake * q
    return _place(side * _BEAM * full * q**hollow, 0.75 + sheer * q, along)


def _hull(stage: Stage) -> None:
    """Keel, posts, ribs, ribbands and shores, drawn from the farthest to the nearest."""
    for n in range(7):
        stage.rod([_place(0, 0.1, 7 + 2 * n), _place(0, 0.62, 7 + 2 * n)], 0.16, 0.08, 0.3)
    parts: list[tuple[float, list[Point], float]] = []  # distance, line, radius
    for side in (-1.0, 1.0):
        for n in range(23):
            rib = [_mould(0.03 + 0.94 * n / 22, k / 14, side) for k in range(15)]
            parts.append((rib[8][2], rib, 0.075))
        for q in (0.45, 0.72, 0.99):
            band = [_mould(0.02 + 0.96 * k / 30, q, side) for k in range(31)]
            parts += [(a[2] - 0.2, [a, b], 0.05) for a, b in pairwise(band)]
        for t in (0.14, 0.32, 0.5, 0.68, 0.86):
            head = _mould(t, 0.72, side)
            foot = _place(side * 3.1, _SOIL, _STERN - 0.3 + _LONG * t)
            parts.append((head[2] - 0.5, [foot, head], 0.06))
    keel = [_place(0, 0.68, _STERN - 0.5 + _LONG * k / 10) for k in range(11)]
    parts += [(a[2] - 0.1, [a, b], 0.13) for a, b in pairwise(keel)]
    shares = [k / 10 for k in range(11)]
    stem = [_place(0, 0.68 + _DEEP * 1.5 * k, _STERN + _LONG + 1.1 * k**0.6) for k in shares]
    post = [_place(0, 0.68 + _DEEP * 1.2 * k, _STERN - 0.3 - 0.5 * k) for k in shares]
    parts += [(stem[0][2], stem, 0.13), (post[0][2], post, 0.1)]
    for _, line, radius in sorted(parts, key=lambda part: -part[0]):
        stage.rod(line, radius, 0.07, 0.5, -0.4)
