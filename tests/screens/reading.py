"""Reads the screen back as a person sees it: characters in cells, and every colour."""

from typing import Any

from rich.cells import cell_len, get_character_cell_size
from rich.color import Color
from textual._context import visible_screen_stack
from textual.app import App
from textual.strip import Strip


def strips(app: App[Any]) -> list[Strip]:
    """The lines as they go to the terminal, after the filters."""
    # the pages below are seen through a question
    visible_screen_stack.set(app._background_screens)
    return list(app.screen._compositor.render_strips())


def screen_lines(app: App[Any]) -> list[str]:
    """The characters of each line, spaces at its end taken off."""
    return ["".join(segment.text for segment in strip).rstrip() for strip in strips(app)]


def screen_text(app: App[Any]) -> str:
    """The whole screen as text."""
    return "\n".join(screen_lines(app))


def cells(app: App[Any], line: int) -> list[str]:
    """What stands in each cell of a line; the second cell of a wide character is empty."""
    found: list[str] = []
    for character in "".join(segment.text for segment in strips(app)[line]):
        width = get_character_cell_size(character)
        if width == 0 and found:
            # a combining mark stands on the character before it, which may be a wide one
            at = next(place for place in reversed(range(len(found))) if found[place])
            found[at] += character
        else:
            found += [character, *[""] * (width - 1)]
    return found


def line_widths(app: App[Any]) -> set[int]:
    """How many cells the lines take; one number, or the screen is ragged."""
    return {cell_len("".join(segment.text for segment in strip)) for strip in strips(app)}


def screen_colours(app: App[Any]) -> set[str]:
    """Every colour of text and ground, as #rrggbb; the terminal's own as ``default``."""
    found: set[str] = set()
    for strip in strips(app):
        for segment in strip:
            if segment.style is not None:
                found |= {_name(segment.style.color), _name(segment.style.bgcolor)}
    return found


def _name(colour: Color | None) -> str:
    if colour is None or colour.is_default:
        return "default"
    return colour.get_truecolor().hex
