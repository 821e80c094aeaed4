"""A picture in half cells: each cell is an upper half in one colour and a lower one in another.

A cell of a terminal is about twice as high as it is wide, so half cells are
square and the picture keeps its proportion.
"""

import io
from typing import TYPE_CHECKING

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from provenance.errors import Damaged, Problem

if TYPE_CHECKING:
    from PIL.Image import Image

UPPER_HALF = "▀"
MOST_PIXELS = 4_000_000
"""A thumbnail has at most 1200 x 1200; a file that claims far more is none."""


def room_for(width_px: int, height_px: int, columns: int, rows: int) -> tuple[int, int]:
    """How many half cells, across and down, a picture takes in so many columns and rows."""
    if min(width_px, height_px, columns, rows) < 1:
        return 0, 0
    scale = min(columns / width_px, 2 * rows / height_px)
    return max(1, round(width_px * scale)), max(1, round(height_px * scale))


def half_cells(picture: bytes, across: int, down: int, ground: Color) -> list[Strip]:
    """The picture in `across` by `down` half cells; `ground` is the colour below an odd one.

    Raises Damaged when the bytes are not a picture.
    """
    image = _scaled(picture, across, down)
    data = image.tobytes()
    pixels = [Color.from_rgb(*data[at : at + 3]) for at in range(0, len(data), 3)]
    lines: list[Strip] = []
    for top in range(0, down, 2):
        upper = pixels[top * across : (top + 1) * across]
        lower = pixels[(top + 1) * across : (top + 2) * across] or [ground] * across
        cells = [
            Segment(UPPER_HALF, Style.from_color(above, below))
            for above, below in zip(upper, lower, strict=True)
        ]
        lines.append(Strip(cells, across))
    return lines


def _scaled(picture: bytes, across: int, down: int) -> "Image":
    # loaded with the first picture: the first screen does not wait for it
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(picture)) as image:
            if image.width * image.height > MOST_PIXELS:
                raise _not_a_picture()
            # lets a JPEG be decoded at a fraction of its size
            image.draft("RGB", (across * 2, down * 2))
            return image.convert("RGB").resize((across, down), Image.Resampling.BOX)
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError) as error:
        raise _not_a_picture() from error


def _not_a_picture() -> Damaged:
    return Damaged(
        Problem(
            what="the thumbnail is not a picture",
            mend="bring it back from a backup, or attach the scan again",
        )
    )
