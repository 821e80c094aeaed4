"""Ropewalk, interior: a long shed, sun through side windows, strands on their trestles."""

import math
from itertools import pairwise

from PIL import Image, ImageChops

from .stage import Field, Point, Stage, facing, flank, ground, upright
from .surfaces import FILM, bloom, blur, boards, dice, stretch, turned

_EYE, _CENTRE = (0.75, 1.6, 0.0), (0.47, 0.45)
_HALF, _EAVES, _RIDGE, _END = 2.4, 2.75, 4.3, 54.0
_BAY, _FIRST, _WIDE, _SILL, _HEAD = 3.0, 4.2, 1.5, 1.0, 2.25  # windows in the right wall
_WINDOWS = [_FIRST + _BAY * n for n in range(-2, 16)]
_DOWN, _BACK = 0.5, 0.3  # how far sunlight falls, and comes nearer, for each metre to the left


def expose() -> Image.Image:
    """The negative."""
    stage = _stage(8)
    _shell(stage)
    pools, dust = _sunlight()
    boards_lit = stretch(blur(stage.film, 0.6), 0.5, 2.2)
    stage.film = ImageChops.add(stage.film, ImageChops.multiply(blur(pools, 3), boards_lit))
    _windows(stage)
    _frame(stage)
    _ropes(stage)
    veiled = ImageChops.screen(stage.film, stretch(blur(dust, 16), 0, 0.45))
    return bloom(veiled, 80, 0.6)


def _stage(tone: int) -> Stage:
    def dusty(at: Point) -> float:
        return 0.8 * (1 - math.exp(-max(0.0, at[2] - 4) / 34))

    return Stage(Image.new("L", FILM, tone), _EYE, _CENTRE, 0.62, dusty)


def _lit(normal: Point, paint: float) -> Field:
    """Light on a surface: each window by its solid angle, and the floor's own return."""

    def field(at: Point) -> float:
        x, floor = _HALF - at[0], (-0.2 - at[0], -at[1])
        total = 0.004
        for near in _WINDOWS:
            y, z = 1.62 - at[1], near + _WIDE / 2 - at[2]
            square = x * x + y * y + z * z + 0.25
            slant = max(0.0, x * normal[0] + y * normal[1] + z * normal[2])
            total += 0.9 * slant * max(0.0, x) / (square * square)
        back = max(0.0, floor[0] * normal[0] + floor[1] * normal[1])
        total += 0.09 * back / (floor[0] ** 2 + floor[1] ** 2 + 0.6)
        return float(paint * total**0.45)

    return field


def _shell(stage: Stage) -> None:
    rng = dice("ropewalk")
    floor = boards(rng, (900, 2400), 22, (0.5, 0.72))
    wall = turned(boards(rng, (420, 2000), 14, (0.46, 0.74)))
    for far, near in pairwise((_END, 40.0, 30.0, 21.0, 15.0, 9.0, 4.5, 1.6)):
        z = (near, far)
        length = floor.crop((0, 0, 900, min(2400, round((far - near) * 200))))
        stage.plane(length, ground(0, (-_HALF, _HALF), z), _lit((0, 1, 0), 1.0), (20, 24))
        for x in (-_HALF, _HALF):
            roof = [(0, _RIDGE, near), (0, _RIDGE, far), (x, _EAVES, far), (x, _EAVES, near)]
            slope = boards(rng, (500, 500), 16, (0.4, 0.6))
            stage.plane(slope, roof, _lit((-math.copysign(0.54, x), -0.84, 0), 0.68), (10, 10))
        stage.plane(wall, flank(-_HALF, (0, _EAVES), z), _lit((1, 0, 0), 0.95), (24, 12))
        stage.plane(wall, flank(_HALF, (0, _EAVES), z), _lit((-1, 0, 0), 0.6), (12, 8))
    gable = boards(rng, (200, 200), 12, (0.5, 0.6))
    stage.plane(gable, facing(_END, (-_HALF, _HALF), (0, _RIDGE)), lambda at: 0.4)
    stage.shape(facing(_END, (-0.9, 0.9), (0, 2.3)), 1.6)


def _panes(near: float) -> list[tuple[float, float]]:
    """Low near corner of each pane of a window: height and distance."""
    return [(_SILL + 0.62 * row + 0.03, near + 0.5 * n + 0.03) for row in (0, 1) for n in range(3)]


def _landing(y: float, z: float) -> Point:
    """Where the sunlight that passes a place in the window wall meets the floor."""
    return (_HALF - y / _DOWN, 0.0, z - _BACK * y / _DOWN)


def _sunlight() -> tuple[Image.Image, Image.Image]:
    """Pools on the floor, and shafts in the dust: drawn apart so that both can be soft."""
    pools, dust = _stage(0), Image.new("L", FILM, 0)
    pools.haze = lambda at: 0.0
    for near in _WINDOWS:
        far = near + _WIDE
        for y, z in _panes(near):
            corners = ((y, z), (y + 0.55, z), (y + 0.55, z + 0.43), (y, z + 0.43))
            pool = [_landing(*corner) for corner in corners]
            if pool[1][2] > 1.2:
                pools.shape(pool, 0.8)
        if near > 3:
            shaft = _stage(0)
            shaft.haze = pools.haze
            top = [(_HALF, _HEAD, near), (_HALF, _HEAD, far)]
            shaft.shape([*top, _landing(_HEAD, far), _landing(_HEAD, near)], 0.2)
            end = [(_HALF, _HEAD, near), (_HALF, _SILL, near)]
            shaft.shape([*end, _landing(_SILL, near), _landing(_HEAD, near)], 0.2)
            dust = ImageChops.add(dust, shaft.film)
    return pools.film, dust


def _windows(stage: Stage) -> None:
    rng = dice("panes")
    for near in reversed(_WINDOWS[2:]):
        case = flank(_HALF, (_SILL - 0.08, _HEAD + 0.08), (near - 0.08, near + _WIDE + 0.08))
        stage.shape(case, 0.2)
        for y, z in _panes(near):
            stage.shape(flank(_HALF, (y, y + 0.55), (z, z + 0.43)), rng.uniform(0.9, 1.3))


def _frame(stage: Stage) -> None:
    """Ties, posts and principals, far to near, and a trestle under every second tie."""
    rng = dice("frame")
    for n in reversed(range(17)):
        z = 6.35 + _BAY * n
        tie = turned(boards(rng, (80, 300), 1, (0.5, 0.6)))
        across = (-_HALF, _HALF)
        stage.plane(tie, ground(_EAVES, across, (z + 0.2, z)), _lit((0, -1, 0), 0.9))
        stage.plane(
            tie, facing(z, across, (_EAVES, _EAVES + 0.24)), lambda at: 0.26 + 0.09 * at[0] / _HALF
        )
        for x in across:
            post = upright(z + 0.1, [(x * 0.985, 0), (x * 0.985, _EAVES)])
            stage.rod(post, 0.09, 0.1, 0.34 if x < 0 else 0.12)
            stage.rod(upright(z + 0.1, [(x, _EAVES + 0.1), (0, _RIDGE)]), 0.07, 0.1, 0.2)
        if n % 2 == 0:
            stage.rod(upright(z, [(-1.15, 0), (-1.1, 0.8)]), 0.06, 0.1, 0.5)
            stage.rod(upright(z, [(0.55, 0), (0.5, 0.8)]), 0.06, 0.08, 0.45)
            stage.rod(upright(z, [(-1.3, 0.82), (0.7, 0.82)]), 0.06, 0.12, 0.6)
            for k in range(8):
                peg = upright(z, [(-1.22 + 0.26 * k, 0.85), (-1.22 + 0.26 * k, 1.1)])
                stage.rod(peg, 0.018, 0.1, 0.55)


def _strand(at: Point) -> float:
    """A strand's lit edge: bright where a window's sun crosses it, its lay showing near by."""
    left = _HALF - at[0]
    height, z = at[1] + left * _DOWN, at[2] + left * _BACK
    sun = _SILL < height < _HEAD and (z - _FIRST) % _BAY < _WIDE
    return 0.44 + 0.5 * sun + 0.14 * math.sin(at[2] * 90) * math.exp(-at[2] / 3)


def _ropes(stage: Stage) -> None:
    rng = dice("ropes")
    for k in range(7):
        x = -1.09 + 0.26 * k
        run = [0.75 * 1.009**n for n in reversed(range(470))]
        sag = [0.92 - 0.06 * math.sin(math.pi * (z - 6.35) / 6) ** 2 for z in run]
        strand = [(x * (1 - 0.3 * z / _END), y, z) for y, z in zip(sag, run, strict=True)]
        stage.rod(strand, 0.018, 0.13, _strand, lay=1.2)
    for k in range(8):
        size, y = rng.uniform(0.3, 0.42), 1.6 - rng.uniform(0, 0.08)
        turn = [math.tau * n / 50 for n in range(51)]
        hank = [
            (-2.3 + 0.015 * k, y + size * math.cos(a), 10.8 + 0.75 * size * math.sin(a))
            for a in turn
        ]
        stage.rod(hank, 0.022, 0.1, 0.5)
    for k in range(9):
        size = 0.44 - 0.012 * k + rng.uniform(-0.02, 0.02)
        x, z = 1.5 + rng.uniform(-0.02, 0.02), 4.4 + rng.uniform(-0.02, 0.02)
        turn = [math.tau * n / 120 for n in range(121)]
        coil = [(x + size * math.sin(a), 0.03 + 0.04 * k, z + size * math.cos(a)) for a in turn]
        for half in (coil[:61], coil[:59:-1]):
            stage.rod(half, 0.024, 0.05, lambda at: 0.33 + 0.1 * math.sin(at[0] * 95), lay=1.0)
