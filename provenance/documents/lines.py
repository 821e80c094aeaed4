"""Break a text into lines: ragged right, never hyphenated, no lonely last word."""

from collections.abc import Callable, Iterator

_NEW_LINE_COST = 1e6
"""Larger than any raggedness, so the fewest lines always win."""
_LONELY = 0.22
"""A last line shorter than this part of the measure looks forgotten."""


def break_lines(text: str, width: float, measure: Callable[[str], float]) -> tuple[str, ...]:
    """The lines of `text`, each at most `width` wide as `measure` tells.

    White space separates words; a no-break space does not.  A word wider than
    the line is cut where it must be.  The lines are no more than necessary
    and, within that, as even as can be; a figure stays with the word after it
    where it can.  An empty text has no lines.
    """
    words = [piece for word in _words(text) for piece in _fitting(word, width, measure)]
    if not words:
        return ()
    widths = [measure(word) for word in words]
    space = measure(" ")
    # best[i]: least cost of setting the words from i on, and where the next line starts.
    best: list[tuple[float, int]] = [(0.0, len(words))] * (len(words) + 1)
    for start in reversed(range(len(words))):
        best[start] = min(
            (_cost(used, width, words[start:end], end == len(words)) + best[end][0], end)
            for end, used in _ends(widths, space, start, width)
        )
    lines, start = [], 0
    while start < len(words):
        end = best[start][1]
        lines.append(" ".join(words[start:end]))
        start = end
    return tuple(lines)


def _words(text: str) -> list[str]:
    return [
        word for line in text.splitlines() for word in line.replace("\t", " ").split(" ") if word
    ]


def _fitting(word: str, width: float, measure: Callable[[str], float]) -> Iterator[str]:
    while measure(word) > width and len(word) > 1:
        fits = next((n for n in range(len(word) - 1, 1, -1) if measure(word[:n]) <= width), 1)
        yield word[:fits]
        word = word[fits:]
    yield word


def _ends(
    widths: list[float], space: float, start: int, width: float
) -> Iterator[tuple[int, float]]:
    used = -space
    for end in range(start, len(widths)):
        used += space + widths[end]
        if used > width and end > start:
            return
        yield end + 1, used


def _cost(used: float, width: float, words: list[str], is_last: bool) -> float:
    slack = max(0.0, (width - used) / width)
    if is_last:
        return _NEW_LINE_COST + (60 if len(words) == 1 or used < _LONELY * width else 0)
    # A figure belongs to the unit or the month that follows it, a side to the other side.
    torn = words[-1] == "×" or words[-1].replace(".", "", 1).isdecimal()
    return _NEW_LINE_COST + 100 * slack**2 + (30 if torn else 0)
