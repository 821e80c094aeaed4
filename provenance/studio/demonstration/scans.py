"""Draws the demo's scans with the program that comes along in `demo/`."""

import importlib.util
from functools import cache
from pathlib import Path
from typing import Any

from provenance.resources import resource
from provenance.studio.demonstration.story import Picture

HEIGHT_PX = 2000
_FORMATS = {".jpg": "JPEG", ".png": "PNG"}


def draw_scan(picture: Picture, path: Path) -> None:
    """Draw the scan at `path`, unless it is there; what is there is whole."""
    if path.exists():
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(f"{path.name}.part")
    pictures = _pictures()
    if picture.toning is None:
        pictures.write_scan(picture.scene, unfinished, "tiff16")
    else:
        grey = pictures.draw(picture.scene, HEIGHT_PX, picture.variant)
        image = pictures.tone(grey, picture.toning)
        image.save(unfinished, format=_FORMATS[path.suffix], quality=92, compress_level=4)
    unfinished.replace(path)


@cache
def _pictures() -> Any:
    """The drawing program, loaded by its path: in a wheel it is data, not a package."""
    path = resource("demo", "pictures.py")
    spec = importlib.util.spec_from_file_location("provenance_demo_pictures", path)
    if spec is None or spec.loader is None:
        raise FileNotFoundError(f"{path} cannot be loaded")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
