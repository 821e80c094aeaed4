"""Quay steps, low water: stone going down into still water, and mist behind."""

import math
from itertools import pairwise
from random import Random

from PIL import Image, ImageChops, ImageDraw

from .stage import Point, Span, Stage, facing, flank, ground, upright
from .surfaces import FILM, bake, bell, bloom, blur, dice, level, masonry, noise, sky, stretch

_EYE, _CENTRE = (0.0, 2.3, 0.0), (0.6, 0.42)
_TOP, _WALL, _EDGE = 4.56, -3.0, -1.5  # quay's height; wall and outer edge of the flight
_FOOT, _RISE, _RUN, _COUNT = 4.1, 0.19, 0.32, 24
_RING = (_EDGE, 1.95, 8.3)


def expose() -> Image.Image:
    """The negative."""
    light = sky(
        dice("quay"), 0.08, lambda x, y: 0.62 + 0.36 * bell((x - 0.86) / 0.5, (y - 0.36) / 0.34)
    )
    under = light.transpose(Image.Transpose.FLIP_TOP_BOTTOM)
    under = ImageChops.offset(under, 0, round(FILM[1] * (2 * _CENTRE[1] - 1)))
    depth = Stage(under, _EYE, _CENTRE, 0.84, _mist)
    depth.mirrored = True
    _build(depth)
    shore = Image.new("L", FILM, 0)
    ImageDraw.Draw(shore).rectangle((0, _CENTRE[1] * FILM[1] + 14, *FILM), fill=255)
    light.paste(_water(depth.film), (0, 0), blur(shore, 9))
    _build(Stage(light, _EYE, _CENTRE, 0.86, _mist))
    return bloom(light, 90, 0.3)


def _mist(at: Point) -> float:
    """Thickest on the water."""
    return 1 - math.exp(-max(0.0, at[2] - 5) / (17 + 2.2 * max(0.0, at[1])))


def _water(mirror: Image.Image) -> Image.Image:
    """The mirrored world, broken by slow swells and dimmer toward the feet."""
    swell = Stage(Image.new("L", FILM, 128), _EYE, _CENTRE, 0.5, _mist)
    ripples = noise(dice("water"), (700, 1400), (5, 120), (9, 330))
    for near, far, wide in ((3.2, 8, 8), (8, 22, 20), (22, 90, 60)):
        swell.plane(ripples, ground(0, (-wide, wide), (near, far)), lambda at: 1.0)
    waves = blur(swell.film, 1.5)
    tilt = waves.point([level(3 * (n / 255 - 0.5) + 0.5) for n in range(256)])
    mirror = blur(mirror, 2.2)
    water = Image.composite(
        ImageChops.offset(mirror, 0, 13), ImageChops.offset(mirror, 0, -13), tilt
    )
    dim = bake((8, 40), FILM, lambda x, y: 1 - 0.5 * max(0.0, (y - 0.42) / 0.58) ** 0.8)
    return ImageChops.overlay(ImageChops.multiply(water, dim), stretch(waves, 0.44, 0.56))


def _wet(y: float) -> float:
    """What stone gives back: little below the tide line."""
    return 1 - 0.72 / (1 + math.exp((y - 1.25) / 0.16))


def _rust(at: Point) -> float:
    """The dark run below the ring."""
    drop = _RING[1] + 0.1 - at[1]
    return 1.0 if drop < 0 else 1 - 0.45 * bell((at[2] - _RING[2]) / 0.08) * math.exp(-drop / 0.7)


def _build(stage: Stage) -> None:
    rng = dice("quay stones")
    _afar(stage)
    for far, near in pairwise((70.0, 36.0, 22.0, 14.0, 9.0, 5.2)):
        _quayside(stage, rng, (near, far))
    _lamp(stage)
    side = masonry(rng, (_COUNT * _RUN, _TOP + 0.6), 110, 0.38)
    for n in reversed(range(_COUNT)):
        _step(stage, rng, n, side)
    x, y, z = _RING
    turn = [math.tau * k / 52 for k in range(53)]
    stage.rod([(x - 0.02, y + 0.17, z), (x + 0.12, y + 0.16, z - 0.02)], 0.04, 0.06, 0.4)
    ring = [(x + 0.12 + 0.18 * math.sin(a), y + 0.18 * math.cos(a), z) for a in turn]
    stage.rod(ring, 0.024, 0.04, 0.4)


def _afar(stage: Stage) -> None:
    """A mole with its light, no more than a change of tone, and a skiff at its mooring."""
    for outline in (
        ((5.5, 0), (40, 0), (40, 1.5), (7.5, 1.5), (6.4, 0.9)),
        ((9.7, 1), (10.9, 1), (10.65, 4.6), (9.95, 4.6)),
        ((10.05, 4.6), (10.55, 4.6), (10.5, 5.4), (10.3, 5.8), (10.1, 5.4)),
    ):
        stage.shape(upright(60, outline), 0.28)
    stage.film.paste(blur(stage.film, 3.5))
    sheer = [(2.1 + 2.7 * k / 12, 0.36 + 0.14 * (k / 6 - 0.9) ** 2) for k in range(13)]
    keel = [(4.72, 0.1), (4.6, -0.1), (2.5, -0.1), (2.25, 0.12)]
    stage.shape(upright(19, [*sheer, *keel]), 0.08)
    stage.rod(upright(19, sheer), 0.028, 0.3, 0.75, -0.2)
    stage.rod(upright(19, [(2.95, 0.4), (2.9, 3.6)]), 0.024, 0.1, 0.2)


def _quayside(stage: Stage, rng: Random, z: Span) -> None:
    per_m = 90 if z[0] < 10 else 46 if z[0] < 20 else 14
    stone = masonry(rng, (z[1] - z[0], _TOP + 0.6), per_m, 0.44)
    coping = stretch(masonry(rng, (z[1] - z[0], 0.3), min(60, per_m), 0.6), 0.35, 1.15)
    stage.plane(
        stone,
        flank(_WALL, (-0.6, _TOP), z),
        lambda at: (0.62 + 0.06 * at[1]) * _wet(at[1] + 0.1 * math.sin(at[2] * 1.7)),
        (14, 24),
    )
    stage.plane(coping, flank(_WALL + 0.1, (_TOP - 0.3, _TOP + 0.02), z), lambda at: 0.86)


def _lamp(stage: Stage) -> None:
    x, z = _WALL - 0.5, 17.0
    stage.rod(upright(z, [(x, _TOP), (x, _TOP + 3.3)]), 0.045, 0.06, 0.2)
    stage.rod(upright(z, [(x, _TOP), (x, _TOP + 0.5)]), 0.08, 0.06, 0.2)
    frame = ((0.09, 3.3), (0.2, 3.75), (0.24, 3.78), (0.05, 4.0), (0.0, 4.1))
    glass = ((0.07, 3.36), (0.16, 3.72))
    for half, share in ((frame, 0.1), (glass, 0.7)):
        whole = [*half, *((-across, up) for across, up in reversed(half))]
        stage.shape(upright(z, [(x + across, _TOP + up) for across, up in whole]), share)


def _step(stage: Stage, rng: Random, n: int, side: Image.Image) -> None:
    y, z = _RISE * (n + 0.35) + rng.uniform(-0.012, 0.012), _FOOT + _RUN * n
    across = (_WALL, _EDGE + rng.uniform(-0.015, 0.02))
    weed = 0.4 + 0.6 / (1 + math.exp((0.75 - y) / 0.14))
    cut = round(n * _RUN * 110), round((_TOP - y) * 110), round((n + 1) * _RUN * 110), side.height
    stage.plane(
        side.crop(cut),
        flank(_EDGE, (-0.6, y), (z, z + _RUN)),
        lambda at: (0.95 - 0.05 * at[1]) * (0.12 + 0.88 * _wet(at[1])) * _rust(at),
        (9, 16),
    )
    slab = stretch(masonry(rng, (1.5, 0.34), 150, 0.6), 0.3, 1.25)

    def tread(at: Point) -> float:
        open_sky = 0.5 + 0.5 * min(1.0, (at[0] - _WALL) / 1.2)
        return weed * open_sky * (1 - 0.3 * (at[2] - z) / _RUN)

    def riser(at: Point) -> float:
        open_sky = 0.55 + 0.45 * (at[0] - _WALL) / 1.5
        return 0.5 * (0.25 + 0.75 * _wet(at[1])) * open_sky * (1 - 0.35 * (y - at[1]) / _RISE)

    stage.plane(slab, ground(y, across, (z, z + _RUN)), tread, (6, 3))
    stage.plane(slab, facing(z, across, (y - _RISE, y)), riser, (4, 4))
    shine = 0.0
    for k in range(30):
        x, shine = _WALL + 0.05 * k, 0.8 * shine + rng.uniform(-0.12, 0.1)
        nosing = upright(z - 0.004, [(x, y - 0.006), (min(x + 0.05, _EDGE), y - 0.006)])
        stage.rod(nosing, 0.008, 0.5 * weed, weed * (0.55 + 0.35 * k / 30 + shine))
