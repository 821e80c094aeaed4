"""What goes to the terminal: standard output is data, standard error is narration.

Text from records may hold anything; control characters are shown, never sent,
so that no record can steer the terminal of whoever reads it.
"""

import re
import sys
import unicodedata
from collections.abc import Iterable, Sequence
from typing import Any

from provenance.errors import Problem, ProvenanceError

_STEERING = re.compile(
    "[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)
"""Controls, marks that turn the direction of writing, and halves of characters,
which stand for the bytes of a file name that is not UTF-8."""
_WRITTEN = {"\n": "\\n", "\t": "\\t"}


def safe(text: str) -> str:
    """`text` on one line, with every character that could steer a terminal as an escape."""
    return _STEERING.sub(
        lambda match: _WRITTEN.get(match[0], f"\\u{ord(match[0]):04x}"),
        text,
    )


def line(text: str = "") -> int:
    """One line of data; returns 1, so that lines can be counted as they go."""
    sys.stdout.write(safe(text) + "\n")
    return 1


def lines(texts: Sequence[str]) -> int:
    """Many lines of data at once; returns how many they are."""
    whole = "".join(texts)
    plain = whole.isascii() and whole.isprintable()
    sys.stdout.write("\n".join(texts if plain else map(safe, texts)) + "\n")
    return len(texts)


def narrate(text: str) -> None:
    """One line of narration, apart from the data."""
    sys.stderr.write(safe(text) + "\n")


def json_line(value: Any) -> int:
    """One value as one line of JSON; returns 1, so that lines can be counted as they go."""
    return line(_as_json(value))


def _as_json(value: Any) -> str:
    # loaded only here: a short list is quick enough to feel it
    import json

    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def counted(number: int, one: str, more: str = "") -> str:
    """``1 print``, ``2 prints``; `more` is given where an s does not make it."""
    return f"{number} {one if number == 1 else more or f'{one}s'}"


def width(text: str) -> int:
    """How many columns `text` takes in a terminal."""
    if text.isascii():
        return len(text)
    return sum(
        0
        if unicodedata.combining(character) or unicodedata.category(character) in ("Cf", "Mn", "Me")
        else 2
        if unicodedata.east_asian_width(character) in ("W", "F")
        else 1
        for character in text
    )


def pad(text: str, columns: int, *, right: bool = False) -> str:
    """`text` filled up with spaces to `columns`."""
    space = " " * max(0, columns - width(text))
    return space + text if right else text + space


def table(
    heads: Sequence[str], rows: Iterable[Sequence[str]], *, right: Sequence[int] = ()
) -> None:
    """Rows in columns; those numbered in `right` are aligned to the right."""
    kept = [[safe(cell) for cell in row] for row in rows]
    widths = [
        max([width(head), *(width(row[place]) for row in kept)]) for place, head in enumerate(heads)
    ]
    for row in [[head.upper() for head in heads], *kept]:
        cells = [pad(cell, widths[place], right=place in right) for place, cell in enumerate(row)]
        sys.stdout.write("  ".join(cells).rstrip() + "\n")


def error_shape(error: ProvenanceError) -> dict[str, Any]:
    """The one shape in which an error is given as JSON."""
    return {
        "error": error.kind,
        "problems": [problem_shape(problem) for problem in error.problems],
    }


def problem_shape(problem: Problem) -> dict[str, Any]:
    """The shape in which a problem, or a warning, is given as JSON."""
    return {
        "what": problem.what,
        "record": problem.record,
        "field": problem.field,
        "mend": problem.mend,
        "line": problem.line,
    }


_HEADINGS = {kind: kind for kind in ("damaged", "conflict", "fault")} | {"misuse": "wrong use"}


def tell_error(error: ProvenanceError, *, as_json: bool) -> None:
    """Say an error to a person, or give it to a program."""
    if as_json:
        narrate(_as_json(error_shape(error)))
        return
    heading = _HEADINGS.get(error.kind, "refused")
    for problem in error.problems:
        narrate(f"{heading}: {problem}")
