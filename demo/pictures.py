"""Prints and scans of the demo's three negatives, drawn rather than photographed.

The same request gives the same pixels, and the same bytes on disk with the same
Pillow. Nothing is used beyond the standard library and Pillow.
"""

import importlib.util
import math
import sys
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from PIL import Image, ImageChops, ImageMath

if TYPE_CHECKING:
    from demo import scenes
else:
    # This file may be loaded by its path alone, from inside the installed package,
    # where no parent package can lead to the folder beside it.
    _name = f"{__name__}_scenes"
    _folder = Path(__file__).with_name("scenes")
    _spec = importlib.util.spec_from_file_location(_name, _folder / "__init__.py")
    scenes = sys.modules[_name] = importlib.util.module_from_spec(_spec)
    _spec.loader.exec_module(scenes)

Toning = Literal["selenium", "sepia-selenium", "neutral"]
ScanKind = Literal["tiff16", "jpeg", "png"]

SCENES: tuple[str, ...] = tuple(scenes.NEGATIVES)

_TIFF_PX = (5760, 7200)
_JPEG_HIGH_PX, _PNG_HIGH_PX = 2400, 1800
_GRADES = dict(zip(SCENES, ((1.0, 0.35), (0.88, 0.42), (1.0, 0.3)), strict=True))
_TONES = {  # black, middle grey and paper white
    "selenium": ((13, 10, 12), (127, 119, 121), (247, 245, 239)),
    "sepia-selenium": ((19, 13, 11), (134, 117, 104), (247, 243, 232)),
    "neutral": ((12, 12, 12), (122, 122, 121), (247, 247, 244)),
}
_SMOOTH = Image.Resampling.BICUBIC


def draw(scene: str, height_px: int, variant: int = 0) -> Image.Image:
    """A grey print of a scene, four wide to five high.

    Another `variant` is another print of the same negative: a little dodging and
    burning, and its own grain. Raises ValueError for a scene not in SCENES.
    """
    sheet = _print(scene, variant)
    size = (round(height_px * 0.8), height_px)
    image = sheet.resize(size, Image.Resampling.LANCZOS, box=_easel(sheet))
    # Grain belongs to the negative: it grows with enlargement, and shows most in the greys.
    high = min(height_px, sheet.height)
    fine, coarse = (round(high * 0.8), high), (round(high * 0.53), round(high * 0.67))
    rng = scenes.surfaces.dice("grain", scene, variant)
    grain = scenes.surfaces.noise(rng, fine, fine, coarse).resize(size, _SMOOTH)
    strong, faint = (
        ImageChops.add(image, scenes.surfaces.stretch(grain, 0.5 - by, 0.5 + by), 1, -128)
        for by in (0.06, 0.022)
    )
    greys = image.point([round(4 * n * (255 - n) / 255) for n in range(256)])
    return Image.composite(strong, faint, greys)


def tone(image: Image.Image, kind: Toning) -> Image.Image:
    """A grey print as toned: RGB, the colour following the density from black to paper white."""

    def channel(black: int, middle: int, white: int) -> list[int]:
        shadows = [round(black + (middle - black) * n / 127) for n in range(127)]
        return shadows + [round(middle + (white - middle) * n / 128) for n in range(129)]

    return Image.merge(
        "RGB", [image.point(channel(*levels)) for levels in zip(*_TONES[kind], strict=True)]
    )


def write_scan(scene: str, path: Path, kind: ScanKind) -> None:
    """Write a scan of a print of the scene.

    "tiff16" is 16-bit grey of 41 megapixels, uncompressed; "jpeg" a selenium-toned
    RGB 2400 px high; "png" grey, 1800 px high, of another print than the first two.
    Raises ValueError for an unknown scene, OSError when the file cannot be written.
    """
    if kind == "tiff16":
        _deep_scan(scene).save(path, format="TIFF")
    elif kind == "jpeg":
        tone(draw(scene, _JPEG_HIGH_PX), "selenium").save(path, format="JPEG", quality=92)
    else:
        draw(scene, _PNG_HIGH_PX, 1).save(path, format="PNG", compress_level=4)


@lru_cache(maxsize=len(SCENES))
def _negative(scene: str) -> Image.Image:
    if scene not in scenes.NEGATIVES:
        raise ValueError(f"no scene is called {scene!r}; there are: {'; '.join(SCENES)}")
    return scenes.surfaces.blur(scenes.NEGATIVES[scene](), 0.95)


@lru_cache(maxsize=4)
def _print(scene: str, variant: int) -> Image.Image:
    """The print before its grain: edges burnt, a place or two by hand, black and white set."""
    negative = _negative(scene)
    rng = scenes.surfaces.dice(scene, variant)
    hand = [(rng.random(), rng.random(), rng.uniform(-0.05, 0.05)) for _ in range(3)]

    def burn(x: float, y: float) -> float:
        corner = math.pow((x - 0.5) ** 2 + (y - 0.5) ** 2, 1.2)
        bell = scenes.surfaces.bell
        return 0.94 - 0.3 * corner + sum(by * bell(3 * (x - u), 3 * (y - v)) for u, v, by in hand)

    film = ImageChops.multiply(negative, scenes.surfaces.bake((17, 21), negative.size, burn))
    counts = film.histogram()
    total, black, white = sum(counts), 0, 255
    while sum(counts[: black + 1]) < 0.005 * total:
        black += 1
    while sum(counts[white:]) < 0.006 * total:
        white -= 1
    gamma, contrast = _GRADES[scene]

    def curve(n: int) -> int:
        t = max(0.0, min(1.0, (n - black) / (white - black))) ** gamma
        t += contrast * (t * t * (3 - 2 * t) - t)
        return scenes.surfaces.level(0.03 + 0.935 * t)

    return film.point([curve(n) for n in range(256)])


def _easel(sheet: Image.Image) -> tuple[float, float, float, float]:
    """What the easel's blades leave of the negative."""
    wide, high = sheet.size
    return (wide * 0.012, high * 0.012, wide * 0.988, high * 0.988)


def _deep_scan(scene: str) -> Image.Image:
    """Interpolated and grained in floating point, a band at a time to spare memory."""
    sheet = _print(scene, 0).convert("F")
    left, top, right, foot = _easel(sheet)
    wide, high = _TIFF_PX
    rng = scenes.surfaces.dice("deep", scene)
    whole = Image.new("I;16", _TIFF_PX)
    bands = 12
    rows = high // bands
    for n in range(bands):
        upper, lower = (top + (foot - top) * edge / bands for edge in (n, n + 1))
        band = sheet.resize((wide, rows), _SMOOTH, box=(left, upper, right, lower))
        cells = (wide // 2, rows // 2), (wide // 3, rows // 3)
        deep = ImageMath.lambda_eval(
            lambda of: of["band"] * 257.0 + (of["float"](of["grain"]) - 127.5) * 32.0,
            band=band,
            grain=scenes.surfaces.noise(rng, (wide, rows), *cells),
        )
        whole.paste(deep.convert("I").convert("I;16"), (0, n * rows))
    return whole
