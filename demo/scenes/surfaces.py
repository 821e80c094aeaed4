"""Tones, noise and materials: the skins that a scene's planes are covered with.

Tones are held as display values, where a product of tones is a product of lights.
"""

import math
from collections.abc import Callable
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter

FILM = (1360, 1700)  # the negative, in pixels
_SMOOTH = Image.Resampling.BICUBIC


def dice(*words: object) -> Random:
    """Chance that falls the same way each time for the same words."""
    return Random("/".join(map(str, words)))  # noqa: S311 - grain, not a secret


def level(share: float) -> int:
    """A tone from 0 to 1 as a pixel value; what lies outside is clipped."""
    return max(0, min(255, round(255 * share)))


def noise(rng: Random, size: tuple[int, int], *cells: tuple[int, int]) -> Image.Image:
    """Noise about mid grey: one octave for each grid of cells, the later ones weaker."""
    whole = Image.new("L", size, 128)
    for n, (across, down) in enumerate(cells):
        octave = Image.frombytes("L", (across, down), rng.randbytes(across * down))
        whole = Image.blend(whole, octave.resize(size, _SMOOTH), (1.0, 0.5, 0.36)[n])
    return whole


def stretch(image: Image.Image, low: float, high: float) -> Image.Image:
    """The same picture with black moved to `low` and white to `high`."""
    return image.point([level(low + (high - low) * n / 255) for n in range(256)])


def blur(image: Image.Image, radius_px: float) -> Image.Image:
    """The picture out of focus."""
    return image.filter(ImageFilter.GaussianBlur(radius_px))


def bake(
    grid: tuple[int, int], size: tuple[int, int], field: Callable[[float, float], float]
) -> Image.Image:
    """A field over the unit square, sampled on a grid and spread smoothly to a size."""
    wide, high = grid
    rows = (field(x / (wide - 1), y / (high - 1)) for y in range(high) for x in range(wide))
    return Image.frombytes("L", grid, bytes(map(level, rows))).resize(size, _SMOOTH)


def relief(height: Image.Image, strength: float) -> Image.Image:
    """Raking light on a surface: mid grey where flat, lighter on slopes that face it."""
    moved = ImageChops.offset(height, -2, 2)
    slope = ImageChops.subtract(moved, height, 2.0, 128)
    return stretch(slope, 0.5 - strength, 0.5 + strength)


def masonry(rng: Random, size_m: tuple[float, float], per_m: int, course_m: float) -> Image.Image:
    """Weathered ashlar: courses, broken joints, each stone of its own grey."""
    size = wide, high = max(8, round(size_m[0] * per_m)), max(8, round(size_m[1] * per_m))
    stones = Image.new("L", size, 60)
    pen = ImageDraw.Draw(stones)
    top = 0.0
    while top < high:
        step = course_m * per_m * rng.uniform(0.85, 1.15)
        left = -rng.random() * step
        while left < wide:
            right = left + step * rng.uniform(1.2, 2.7)
            box = (left + 1.2, top + 1.2, right - 1.2, top + step - 1.2)
            pen.rounded_rectangle(box, step * 0.07, fill=rng.randint(138, 206))
            left = right
        top += step
    grit = noise(rng, size, *((wide // n + 2, high // n + 2) for n in (24, 5, 2)))
    stones = ImageChops.multiply(blur(stones, 1.1), stretch(grit, 0.7, 1.15))
    stones = ImageChops.overlay(stones, relief(Image.blend(stones, grit, 0.4), 1.3))
    runs = noise(rng, size, (wide // 60 + 2, 3), (wide // 14 + 2, 5))
    return ImageChops.multiply(stones, stretch(runs, 0.66, 1.15))


def boards(
    rng: Random, size: tuple[int, int], count: int, tones: tuple[float, float]
) -> Image.Image:
    """Boards running up and down the texture, butted here and there."""
    wide, high = size
    wood = Image.new("L", size, 128)
    pen = ImageDraw.Draw(wood)
    for n in range(count):
        left, right = wide * n / count, wide * (n + 1) / count
        cut = -rng.random() * high / 5
        while cut < high:
            end = cut + high * rng.uniform(0.12, 0.3)
            pen.rectangle((left, cut, right, end), fill=level(rng.uniform(*tones)))
            pen.line((left, end, right, end), fill=20, width=2)
            cut = end
        pen.line((left, 0, left, high), fill=16, width=3)
    cells = (wide // 2, high // 90 + 2), (wide, high // 40 + 2), (wide // 3, high // 12 + 2)
    return ImageChops.multiply(wood, stretch(noise(rng, size, *cells), 0.62, 1.18))


def turned(image: Image.Image) -> Image.Image:
    """The texture laid on its side."""
    return image.transpose(Image.Transpose.ROTATE_90)


def sky(rng: Random, cloud: float, field: Callable[[float, float], float]) -> Image.Image:
    """A whole film of sky: a smooth field of light under thin cloud."""
    veil = noise(rng, FILM, (4, 7), (7, 15), (14, 34))
    return ImageChops.multiply(bake((24, 60), FILM, field), stretch(veil, 1 - cloud, 1.0))


def bloom(film: Image.Image, radius_px: float, share: float) -> Image.Image:
    """Light that spreads in mist, dust and emulsion: the upper tones only."""
    bright = film.reduce(4).point([max(0, n - 96) for n in range(256)])
    spread = blur(bright, radius_px / 4).resize(film.size, _SMOOTH)
    return ImageChops.screen(film, stretch(spread, 0, share))


def bell(*offsets: float) -> float:
    """1 at the middle, falling away smoothly with each offset."""
    return math.exp(-sum(x * x for x in offsets))
