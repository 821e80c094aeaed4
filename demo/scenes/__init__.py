"""The demo's three negatives, each built from geometry, light and noise."""

from collections.abc import Callable

from PIL import Image

from . import surfaces
from .quay import expose as _quay
from .ropewalk import expose as _ropewalk
from .slipway import expose as _slipway

NEGATIVES: dict[str, Callable[[], Image.Image]] = {
    "Quay steps, low water": _quay,
    "Ropewalk, interior": _ropewalk,
    "Slipway, first frost": _slipway,
}

__all__ = ["NEGATIVES", "surfaces"]
