"""A view camera in a world of planes and rods, measured in metres.

The lens shifts and never tilts, so uprights stay upright.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

from PIL import Image, ImageChops, ImageDraw

from .surfaces import bake, level

Point = tuple[float, float, float]  # metres: right, up, away
Spot = tuple[float, float]  # pixels on the film, or on a texture
Field = Callable[[Point], float]  # a tone or a share, 0 to 1, at a place
Span = tuple[float, float]


def facing(z: float, x: Span, y: Span) -> list[Point]:
    """Corners of an upright plane square to the lens."""
    return [(x[0], y[1], z), (x[1], y[1], z), (x[1], y[0], z), (x[0], y[0], z)]


def flank(x: float, y: Span, z: Span) -> list[Point]:
    """Corners of an upright plane that runs away from the lens."""
    return [(x, y[1], z[0]), (x, y[1], z[1]), (x, y[0], z[1]), (x, y[0], z[0])]


def ground(y: float, x: Span, z: Span) -> list[Point]:
    """Corners of a level plane."""
    return [(x[0], y, z[1]), (x[1], y, z[1]), (x[1], y, z[0]), (x[0], y, z[0])]


def upright(z: float, outline: Iterable[tuple[float, float]]) -> list[Point]:
    """A flat outline stood up at one distance."""
    return [(x, y, z) for x, y in outline]


class Stage:
    """A sheet of film behind a shifted lens, and the air before it."""

    def __init__(
        self, film: Image.Image, eye_m: Point, centre: Spot, air: float, haze: Field
    ) -> None:
        """`centre` is the vanishing point as shares of the film; `air` the tone of the haze."""
        self.film, self.eye, self.air, self.haze = film, eye_m, air, haze
        self.centre = (centre[0] * film.width, centre[1] * film.height)
        self.focal_px = 0.95 * film.height
        self.mirrored = False  # seen in water at height nought

    def scale(self, at: Point) -> float:
        """Pixels to the metre at a place."""
        return self.focal_px / max(0.2, at[2] - self.eye[2])

    def see(self, at: Point) -> Spot:
        """Where a place falls on the film."""
        up = -at[1] if self.mirrored else at[1]
        per_m = self.scale(at)
        return (
            self.centre[0] + per_m * (at[0] - self.eye[0]),
            self.centre[1] - per_m * (up - self.eye[1]),
        )

    def tone(self, at: Point, share: float) -> int:
        """A tone at a place, seen through the air between."""
        veil = self.haze(at)
        return level(share * (1 - veil) + self.air * veil)

    def shape(self, points: Sequence[Point], share: float) -> None:
        """A flat silhouette in one tone."""
        pen = ImageDraw.Draw(self.film)
        pen.polygon([self.see(p) for p in points], fill=self.tone(points[0], share))

    def plane(
        self,
        skin: Image.Image,
        corners: Sequence[Point],
        light: Field,
        grid: tuple[int, int] = (6, 6),
    ) -> None:
        """Lay a texture, lit and hazed, on four corners: upper left first, then clockwise."""
        a, b, c, d = corners

        def place(u: float, v: float) -> Point:
            x, y, z = (
                (a[n] * (1 - u) + b[n] * u) * (1 - v) + (d[n] * (1 - u) + c[n] * u) * v
                for n in range(3)
            )
            return (x, y, z)

        seen = [self.see(p) for p in corners]
        xs, ys = zip(*seen, strict=True)
        left, top = max(0, math.floor(min(xs))), max(0, math.floor(min(ys)))
        right = min(self.film.width, math.ceil(max(xs)) + 1)
        foot = min(self.film.height, math.ceil(max(ys)) + 1)
        if right <= left or foot <= top:
            return
        # A texture finer than the film resolves would glitter: reduce it first.
        across = max(math.dist(seen[0], seen[1]), math.dist(seen[3], seen[2]))
        down = max(math.dist(seen[0], seen[3]), math.dist(seen[1], seen[2]))
        fit = (max(6, min(skin.width, round(across))), max(6, min(skin.height, round(down))))
        skin = skin.resize(fit, Image.Resampling.BOX)
        skin = ImageChops.multiply(skin, bake(grid, fit, lambda u, v: light(place(u, v))))
        veil = bake(grid, fit, lambda u, v: self.haze(place(u, v)))
        skin = Image.composite(Image.new("L", fit, level(self.air)), skin, veil)
        # Inset, so that rounding at the rim does not read beyond the texture.
        u, v = fit[0] - 1.5, fit[1] - 1.5
        local = [(x - left, y - top) for x, y in seen]
        patch = skin.transform(
            (right - left, foot - top),
            Image.Transform.PERSPECTIVE,
            _homography(local, [(1.5, 1.5), (u, 1.5), (u, v), (1.5, v)]),
            Image.Resampling.BILINEAR,
            fillcolor=skin.reduce(fit).getpixel((0, 0)),
        )
        mask = Image.new("L", patch.size, 0)
        ImageDraw.Draw(mask).polygon(local, fill=255)
        self.film.paste(patch, (left, top), mask)

    def rod(
        self,
        points: Sequence[Point],
        radius_m: float,
        shade: float,
        light: float | Field,
        side: float = 0.35,
        lay: float = 0.0,
    ) -> None:
        """A round or hewn length: a dark body with a lit edge.

        `side` is where the light comes from, right if positive; `lay` slants the
        joints between points, as the strands of a rope lie.
        """
        pen = ImageDraw.Draw(self.film)
        for near, far in pairwise(points):
            p, q = self.see(near), self.see(far)
            long = math.dist(p, q) or 1.0
            nx, ny = (p[1] - q[1]) / long, (q[0] - p[0]) / long
            if nx * side < ny * abs(side):
                nx, ny = -nx, -ny
            ends = ((p, radius_m * self.scale(near)), (q, radius_m * self.scale(far)))
            glow = light(near) if callable(light) else light
            for start, stop, share in (
                (-1.0, 1.0, shade),
                (0.0, 1.0, (shade + glow) / 2),
                (0.4, 0.95, glow),
            ):
                band = [
                    (x + (nx + ny * lay) * size * at, y + (ny - nx * lay) * size * at)
                    for ((x, y), size), edges in zip(
                        ends, ((start, stop), (stop, start)), strict=True
                    )
                    for at in edges
                ]
                pen.polygon(band, fill=self.tone(near, share))


def _homography(seen: Sequence[Spot], flat: Sequence[Spot]) -> list[float]:
    """The eight numbers that lead from a seen spot back to its spot on the flat texture."""
    rows: list[list[float]] = []
    for (x, y), (u, v) in zip(seen, flat, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, v])
    for n in range(8):
        best = max(range(n, 8), key=lambda r: abs(rows[r][n]))
        rows[n], rows[best] = rows[best], rows[n]
        pivot = rows[n] = [value / rows[n][n] for value in rows[n]]
        for r in range(8):
            if r != n:
                by = rows[r][n]
                rows[r] = [value - by * own for value, own in zip(rows[r], pivot, strict=True)]
    return [row[8] for row in rows]
