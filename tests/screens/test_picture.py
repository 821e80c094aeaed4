import io
import threading
from pathlib import Path

import pytest
from PIL import Image
from rich.color import Color
from rich.segment import Segment
from textual.app import ComposeResult
from textual.widgets import Static

from provenance.errors import Damaged, NotFound
from provenance.records.images import store_thumbnail
from provenance.screens.widgets.half_cells import MOST_PIXELS, half_cells, room_for
from provenance.screens.widgets.picture import MISSING, Picture
from provenance.studio.folder import StudioFolder, make_folders
from provenance.studio.pictures import picture_of
from tests.screens.plain_app import PlainApp
from tests.screens.reading import screen_colours, screen_lines, strips
from tests.studios import enter, furnish, new_register, scan, sheet

GROUND = Color.from_rgb(245, 240, 231)


def png(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def quarters(width_px: int, height_px: int) -> bytes:
    """Black and red above, green and white below."""
    image = Image.new("RGB", (2, 2))
    for place, colour in (
        ((0, 0), (0, 0, 0)),
        ((1, 0), (255, 0, 0)),
        ((0, 1), (0, 255, 0)),
        ((1, 1), (255, 255, 255)),
    ):
        image.putpixel(place, colour)
    return png(image.resize((width_px, height_px), Image.Resampling.NEAREST))


def colours(segment: Segment) -> tuple[str, str]:
    style = segment.style
    assert style is not None
    assert style.color is not None
    assert style.bgcolor is not None
    return style.color.get_truecolor().hex, style.bgcolor.get_truecolor().hex


@pytest.mark.parametrize(
    ("size", "most", "room"),
    [
        ((1200, 960), (24, 12), (24, 19)),
        ((960, 1200), (24, 12), (19, 24)),
        ((300, 300), (24, 12), (24, 24)),
        ((1200, 100), (24, 12), (24, 2)),
        ((5000, 1), (24, 12), (24, 1)),
        ((0, 0), (24, 12), (0, 0)),
        ((300, 300), (0, 12), (0, 0)),
    ],
)
def test_the_proportion_is_kept(
    size: tuple[int, int], most: tuple[int, int], room: tuple[int, int]
) -> None:
    assert room_for(*size, *most) == room


def test_each_cell_holds_two_colours() -> None:
    lines = half_cells(quarters(40, 40), 2, 2, GROUND)
    assert [segment.text for segment in lines[0]] == ["▀", "▀"]
    assert [colours(segment) for segment in lines[0]] == [
        ("#000000", "#00ff00"),
        ("#ff0000", "#ffffff"),
    ]


def test_an_odd_half_cell_shows_the_ground() -> None:
    lines = half_cells(quarters(40, 40), 2, 3, GROUND)
    assert len(lines) == 2
    assert [below for _above, below in map(colours, lines[1])] == ["#f5f0e7", "#f5f0e7"]


@pytest.mark.parametrize("data", [b"", b"no picture", quarters(40, 40)[:60]])
def test_what_is_no_picture_is_damaged(data: bytes) -> None:
    with pytest.raises(Damaged, match="not a picture"):
        half_cells(data, 2, 2, GROUND)


def test_a_picture_that_claims_to_be_huge_is_not_decoded() -> None:
    side = int(MOST_PIXELS**0.5) + 1
    with pytest.raises(Damaged, match="not a picture"):
        half_cells(png(Image.new("1", (side, side))), 2, 2, GROUND)


class Beside(PlainApp):
    """A picture above a line of text, to see how much room it takes."""

    def compose(self) -> ComposeResult:
        yield self.widget
        yield Static("below")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_picture_takes_its_room_and_no_more(size: tuple[int, int]) -> None:
    picture = Picture(columns=20, rows=8)
    app = Beside(picture)
    async with app.run_test(size=size) as pilot:
        assert screen_lines(app)[0] == "below"
        picture.show(lambda: quarters(400, 200), 400, 200)
        await app.workers.wait_for_complete()
        await pilot.pause()
        lines = screen_lines(app)
        assert lines[:6] == ["▀" * 20] * 5 + ["below"]
        first = next(iter(strips(app)[0]))
        assert colours(first)[0] == "#000000"
        picture.clear()
        await pilot.pause()
        assert screen_lines(app)[0] == "below"


async def test_its_room_is_kept_while_it_is_read() -> None:
    picture = Picture(columns=20, rows=8)
    app = Beside(picture)
    go_on = threading.Event()

    def slowly() -> bytes:
        go_on.wait(10)
        return quarters(400, 200)

    async with app.run_test(size=(80, 24)) as pilot:
        picture.show(slowly, 400, 200)
        await pilot.pause()
        assert screen_lines(app)[:6] == [""] * 5 + ["below"]
        go_on.set()
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert screen_lines(app)[0] == "▀" * 20


@pytest.mark.parametrize("error", [NotFound("gone"), Damaged("spoiled"), None])
async def test_what_cannot_be_shown_is_said(error: Exception | None) -> None:
    picture = Picture(columns=24, rows=8)
    app = Beside(picture)

    def load() -> bytes:
        if error is not None:
            raise error
        return b"no picture"

    async with app.run_test(size=(80, 24)) as pilot:
        picture.show(load, 400, 200)
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert screen_lines(app)[0] == MISSING


async def test_safelight_turns_a_picture_red() -> None:
    picture = Picture(columns=20, rows=8)
    app = PlainApp(picture, light="safelight")
    async with app.run_test(size=(80, 24)) as pilot:
        picture.show(lambda: quarters(400, 200), 400, 200)
        await app.workers.wait_for_complete()
        await pilot.pause()
        colours = screen_colours(app)
        # green and white stay apart by their brightness
        assert {"#000000", "#ff0000"} < colours
        assert [colour for colour in colours if not colour.endswith("0000")] == []


def test_the_picture_of_a_print_is_its_latest_scan(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    make_folders(folder)
    with new_register(tmp_path) as register:
        with register.act("printer") as act:
            shelf = furnish(act)
        record = enter(register, sheet(shelf, "Q7"))
        assert picture_of(register.read, folder, record) is None
        for data in (b"first", b"second"):
            store_thumbnail(folder.images, data)
            enter(register, scan(record, data))
        held = picture_of(register.read, folder, record)
        assert held is not None
        assert held.load() == b"second"
        assert (held.width_px, held.height_px) == (1200, 960)
