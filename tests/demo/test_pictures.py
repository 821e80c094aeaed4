"""The demo's pictures: the same every time, whole in tone, and honest scans."""

import ast
import hashlib
import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from demo import pictures
from provenance.resources import resource

HIGH = 300


def _share_level(image: Image.Image, share: float) -> int:
    """The level that a share of the pixels does not exceed."""
    counts = image.histogram()
    wanted, reached = share * sum(counts), 0
    for n, count in enumerate(counts):
        reached += count
        if reached >= wanted:
            return n
    raise AssertionError("an empty picture")


@pytest.mark.parametrize("scene", pictures.SCENES)
def test_a_print_has_its_size_and_every_tone(scene: str) -> None:
    image = pictures.draw(scene, HIGH)
    assert (image.mode, image.size) == ("L", (240, HIGH))
    assert _share_level(image, 0.01) < 30
    assert _share_level(image, 0.99) > 225
    assert sum(count > 0 for count in image.histogram()) > 200


def test_another_process_draws_the_same_pixels() -> None:
    drawn = (
        "import hashlib; from demo import pictures; print(hashlib.sha256(b''.join("
        f"pictures.draw(scene, {HIGH}, 2).tobytes() for scene in pictures.SCENES)).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", drawn],
        cwd=Path(pictures.__file__).parents[1],
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()
    here = b"".join(pictures.draw(scene, HIGH, 2).tobytes() for scene in pictures.SCENES)
    assert other == hashlib.sha256(here).hexdigest()


def test_two_prints_of_a_negative_are_close_and_not_alike() -> None:
    first, second = (pictures.draw(pictures.SCENES[0], HIGH, n) for n in (0, 1))
    assert first.tobytes() != second.tobytes()
    apart = [abs(a - b) for a, b in zip(first.tobytes(), second.tobytes(), strict=True)]
    assert sum(apart) / len(apart) < 20


def test_a_name_that_is_no_scene_is_refused_with_the_names_that_are() -> None:
    with pytest.raises(ValueError, match="Quay steps, low water"):
        pictures.draw("Harbour light", HIGH)


@pytest.mark.parametrize("kind", ["selenium", "sepia-selenium", "neutral"])
def test_toning_colours_the_print_and_keeps_the_order_of_its_tones(
    kind: pictures.Toning,
) -> None:
    ramp = Image.frombytes("L", (256, 1), bytes(range(256)))
    toned = pictures.tone(ramp, kind)
    assert toned.mode == "RGB"
    for band in toned.split():
        assert list(band.tobytes()) == sorted(band.tobytes())
    red, _, blue = toned.getpixel((128, 0))  # type: ignore[misc]
    assert (red - blue > 20) == (kind == "sepia-selenium")


def test_the_deep_scan_is_large_and_truly_of_sixteen_bits(tmp_path: Path) -> None:
    path = tmp_path / "scan.tif"
    pictures.write_scan(pictures.SCENES[0], path, "tiff16")
    with Image.open(path) as scan:
        assert scan.mode == "I;16"
        assert scan.width * scan.height >= 40_000_000
        pixels = memoryview(scan.crop((1000, 3000, 2000, 4000)).tobytes()).cast("H")
    assert len(set(pixels)) > 10_000
    # Not eight bits written wide: the low byte takes every value, about equally often.
    low = [0] * 256
    for value in pixels:
        low[value & 0xFF] += 1
    assert min(low) > 0.5 * len(pixels) / 256


@pytest.mark.parametrize(
    ("kind", "mode", "size"), [("jpeg", "RGB", (1920, 2400)), ("png", "L", (1440, 1800))]
)
def test_small_scans_repeat_byte_for_byte(
    tmp_path: Path, kind: pictures.ScanKind, mode: str, size: tuple[int, int]
) -> None:
    for name in ("a", "b"):
        pictures.write_scan(pictures.SCENES[2], tmp_path / name, kind)
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()
    with Image.open(tmp_path / "a") as scan:
        assert (scan.mode, scan.size) == (mode, size)


def test_loaded_by_path_alone_it_draws_the_same() -> None:
    spec = importlib.util.spec_from_file_location("lone_pictures", resource("demo", "pictures.py"))
    assert spec is not None
    assert spec.loader is not None
    lone = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(lone)
    scene = pictures.SCENES[1]
    assert lone.draw(scene, HIGH).tobytes() == pictures.draw(scene, HIGH).tobytes()


def test_nothing_is_imported_beyond_pillow_and_the_standard_library() -> None:
    folder = Path(pictures.__file__).parent
    roots: set[str] = set()
    for path in (folder / "pictures.py", *(folder / "scenes").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import):
                roots |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
                roots.add(node.module.split(".")[0])
    assert roots - set(sys.stdlib_module_names) == {"PIL", "demo"}
