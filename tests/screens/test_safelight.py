"""In safelight nothing but black and pure red leaves the program, whatever the terminal."""

import re
from itertools import product
from pathlib import Path

import pytest
from rich.color import Color, ColorSystem, ColorType
from rich.segment import Segment
from rich.style import Style
from textual.color import Color as TextualColor

from provenance.screens.safelight import DARKEN_TERMINAL, RESTORE_TERMINAL, PureRed
from tests.screens.at_the_trays import darkroom
from tests.screens.form_app import SIZES
from tests.screens.house import at_work
from tests.screens.reading import screen_colours
from tests.screens.terminal import in_a_terminal

SYSTEMS = {
    "truecolor": {"TERM": "xterm-256color", "COLORTERM": "truecolor"},
    "256": {"TERM": "xterm-256color", "COLORTERM": ""},
    "standard": {"TERM": "xterm", "COLORTERM": ""},
}
RED_CUBE = {"16", "52", "88", "124", "160", "196"}
"""Black and the pure reds of the cube of 256: 16 + 36 times the step."""
PLAIN = {"", "0", "1", "2", "3", "4", "22", "23", "24"}
"""Resets, weights and lines: no colours."""
BLACK_AND_RED = {"30", "31", "40", "41"}
COLOUR_STARTS = {"38", "48"}


def foreign(stream: bytes) -> set[str]:
    """Every colour of a raw stream that is neither black nor pure red."""
    found: set[str] = set()
    for codes in re.findall(rb"\x1b\[([0-9;:]*)m", stream):
        parts = codes.decode().replace(":", ";").split(";")
        while parts:
            first = parts.pop(0)
            if first in COLOUR_STARTS and parts[0] == "2":
                red, green, blue = parts[1:4]
                del parts[:4]
                found |= set() if green == blue == "0" else {f"rgb {red} {green} {blue}"}
            elif first in COLOUR_STARTS and parts[0] == "5":
                found |= {parts[1]} - RED_CUBE
                del parts[:2]
            else:
                found |= {first} - PLAIN - BLACK_AND_RED
    return found


def pure(colours: set[str]) -> bool:
    """Whether they are all black or pure red."""
    return all(re.fullmatch("#[0-9a-f]{2}0000", colour) for colour in colours)


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_raw_stream_holds_nothing_but_red(studio: Path, system: str) -> None:
    with in_a_terminal(
        studio, "--light", "safelight", size=(120, 40), env=SYSTEMS[system]
    ) as terminal:
        terminal.until("QUAY")
        terminal.send("\r")
        terminal.until("7/25")
        terminal.send("\r")
        terminal.until("▀")
        for key, shown in (("n", "First"), ("\x1b", "released"), ("5", "Finishing"), ("/", "Find")):
            if key != "\x1b":
                terminal.send(key)
                terminal.until(shown)
            else:
                terminal.send(key)
                terminal.until("certif")
        terminal.send("\x1b")
        terminal.until("Finishing")
        terminal.send("q")
        terminal.until("paper shut away")
        terminal.send("y")
        assert terminal.status() == 0
    assert foreign(terminal.stream) == set()
    # black before the first paint, and the terminal's own colours at the very end
    assert terminal.stream.startswith(DARKEN_TERMINAL.encode())
    assert terminal.stream.endswith(RESTORE_TERMINAL.encode())
    assert len(re.findall(rb"\x1b\[[0-9;]*m", terminal.stream)) > 100


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_place_is_red_in_the_raw_stream_while_a_run_is_in_hand(
    tmp_path: Path, system: str
) -> None:
    """Nobody asks for safelight here: a sheet that is not fixed does."""
    darkroom(tmp_path / "studio")
    pages = (
        ("3", "QUAY, 3 sheets"),
        ("\r", "no key pressed yet"),
        ("/", "into which step?"),
        ("0", "SHEET"),
        ("*", "Is all paper shut away?"),
        ("1", "SHEET"),
        ("\x1b", "The run goes on"),
        ("n", "New run"),
        ("\x1b", "in hand"),
        ("4", "Shelf"),
        ("m", "Mix a bath"),
        ("\x1b", "fixB"),
        ("\r", "how it stands"),
        ("\x7f", "Shelf"),
        ("2", "Dry side"),
        ("5", "Finishing"),
        ("6", "Desk"),
        ("?", "Keys and words"),
        ("\x1b", "Desk"),
        ("\x10", "in a word or two"),
        ("\x1b", "Desk"),
        ("q", "paper shut away"),
    )
    with in_a_terminal(tmp_path / "studio", env=SYSTEMS[system]) as terminal:
        terminal.until("QUAY")
        for key, shown in pages:
            terminal.send(key)
            terminal.until(shown)
        terminal.send("y")
        assert terminal.status() == 0
    assert foreign(terminal.stream) == set()
    assert terminal.stream.startswith(DARKEN_TERMINAL.encode())
    assert terminal.stream.endswith(RESTORE_TERMINAL.encode())


def test_by_day_the_colours_of_the_terminal_are_left_alone(studio: Path) -> None:
    with in_a_terminal(studio) as terminal:
        terminal.until("QUAY")
        terminal.send("q")
        assert terminal.status() == 0
    assert foreign(terminal.stream)
    assert not re.search(rb"\x1b\](4|10|11|12|104|110|111|112)[;\x07]", terminal.stream)


def test_the_first_start_in_safelight_is_red_too(tmp_path: Path) -> None:
    with in_a_terminal(tmp_path / "new", "--light", "safelight") as terminal:
        terminal.until("A new studio")
        terminal.send("\x1b")
        assert terminal.status() == 0
    assert foreign(terminal.stream) == set()
    assert terminal.stream.endswith(RESTORE_TERMINAL.encode())


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
async def test_every_page_is_red(studio: Path, size: tuple[int, int]) -> None:
    async with at_work(studio, size, "safelight") as printer:
        keys = ("enter", "enter", "enter", "h", "2", "3", "4", "5", "6", "slash", "escape")
        for key in (*keys, "ctrl+p", "escape", "question_mark", "escape", "1", "n"):
            await printer.press(key)
            assert pure(screen_colours(printer.app)), (key, screen_colours(printer.app))


async def test_a_picture_is_red_and_keeps_its_shades(studio: Path) -> None:
    async with at_work(studio, (120, 40), "safelight") as printer:
        await printer.press("enter", "enter")
        await printer.until("▀▀")
        colours = screen_colours(printer.app)
        assert pure(colours)
        assert len(colours) > 20


async def test_leaving_the_safelight_asks_whether_all_paper_is_shut_away(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("l", "l")
        assert pure(screen_colours(printer.app))
        for answer, still in (("n", True), ("escape", True), ("y", False)):
            await printer.press("l")
            assert "Is all paper shut away?" in printer.text()
            assert pure(screen_colours(printer.app))
            await printer.press(answer)
            assert printer.studio.in_safelight is still
        assert not pure(screen_colours(printer.app))


@pytest.mark.parametrize("key", ["q", "ctrl+q"])
async def test_leaving_the_program_in_safelight_asks_the_same(studio: Path, key: str) -> None:
    async with at_work(studio, light="safelight") as printer:
        await printer.press(key)
        assert "Is all paper shut away?" in printer.text()
        await printer.press("n")
        assert printer.app.is_running
        await printer.press(key, "y")
        assert printer.app.return_code == 0


async def test_without_colours_the_safelight_is_red_nevertheless(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_work(studio, light="safelight") as printer:
        assert pure(screen_colours(printer.app))


async def test_without_colours_the_cursor_is_still_told(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_work(studio) as printer:
        await printer.press("5")
        assert "▸" in printer.text()
        for colour in screen_colours(printer.app) - {"default"}:
            assert colour[1:3] == colour[3:5] == colour[5:7]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("text", ["word", "▀"])
def test_no_colour_is_brightened_by_another_when_it_is_rounded(system: str, text: str) -> None:
    to = {"truecolor": ColorSystem.TRUECOLOR, "256": ColorSystem.EIGHT_BIT}.get(
        system, ColorSystem.STANDARD
    )
    levels = (0, 1, 60, 95, 120, 180, 234, 255)
    some = [Color.from_rgb(*rgb) for rgb in product(levels[::2], levels, levels[::3])]
    named = [Color.from_ansi(number) for number in range(256)]
    for fore in (*some, *named, Color.default()):
        for style in (Style(color=fore), Style(bgcolor=fore), Style(color=fore, reverse=True)):
            (segment,) = PureRed(system).apply([Segment(text, style)], TextualColor(255, 255, 255))
            assert segment.style is not None
            for colour in (segment.style.color, segment.style.bgcolor):
                assert colour is not None
                shown = colour.downgrade(to)
                if shown.type is ColorType.STANDARD:
                    assert shown.number in (0, 1)
                elif shown.type is ColorType.EIGHT_BIT:
                    assert str(shown.number) in RED_CUBE
                else:
                    assert shown.triplet is not None
                    assert shown.triplet.green == shown.triplet.blue == 0


@pytest.mark.parametrize("system", SYSTEMS)
def test_text_is_told_from_its_ground(system: str) -> None:
    for fore, back in ((234, 0), (180, 0), (255, 120), (234, 120), (0, 234), (120, 0)):
        style = Style.from_color(Color.from_rgb(fore, 0, 0), Color.from_rgb(back, 0, 0))
        (segment,) = PureRed(system).apply([Segment("word", style)], TextualColor(0, 0, 0))
        assert segment.style is not None
        assert segment.style.color != segment.style.bgcolor
