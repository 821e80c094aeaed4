"""Which line of a TOML file a value stands on.

The standard parser keeps no positions.  This walks a text that it has already
accepted, so it can be simple: it only has to tell headers and keys from the
inside of strings and brackets.
"""

import re

Path = tuple[str | int, ...]

_HEADER = re.compile(r"\s*(\[\[?)\s*([^\]]+?)\s*\]")
_KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[\w-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[\w-]+))*)\s*=""")
_PART = re.compile(r"""\s*("[^"]*"|'[^']*'|[\w-]+)\s*\.?""")


def find_lines(text: str) -> dict[Path, int]:
    """The line (from 1) of every table, array entry and key, by its path."""
    lines: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    table: Path = ()
    for number, row in _logical_rows(text):
        if header := _HEADER.match(row):
            table = _resolve(_parts(header[2]), counts, opens_entry=header[1] == "[[")
            lines[table] = number
        elif key := _KEY.match(row):
            path = table
            for part in _parts(key[1]):
                path = (*path, part)
                lines.setdefault(path, number)
    return lines


def line_of(lines: dict[Path, int], path: Path) -> int | None:
    """The line of `path`, or of the nearest thing above it that has one."""
    while path:
        if path in lines:
            return lines[path]
        path = path[:-1]
    return None


def _parts(dotted: str) -> list[str]:
    return [part.strip("\"'") for part in _PART.findall(dotted)]


def _resolve(names: list[str], counts: dict[Path, int], *, opens_entry: bool) -> Path:
    """`names` of a header as a path: names of arrays get the index of their last entry."""
    path: Path = ()
    for place, name in enumerate(names):
        path = (*path, name)
        if opens_entry and place == len(names) - 1:
            counts[path] = counts.get(path, -1) + 1
            # the arrays inside a new entry begin again
            for inner in [
                one for one in counts if len(one) > len(path) and one[: len(path)] == path
            ]:
                if inner[len(path)] == counts[path]:
                    del counts[inner]
        if path in counts:
            path = (*path, counts[path])
    return path


def _logical_rows(text: str) -> list[tuple[int, str]]:
    """Rows that begin outside any string or bracket, with their line numbers."""
    rows: list[tuple[int, str]] = []
    depth = 0
    quote = ""
    for number, row in enumerate(text.split("\n"), 1):
        if depth == 0 and not quote:
            rows.append((number, row))
            if _HEADER.match(row):
                continue
        depth, quote = _walk(row, depth, quote)
    return rows


def _walk(row: str, depth: int, quote: str) -> tuple[int, str]:
    place = 0
    while place < len(row):
        if quote:
            if row[place] == "\\" and quote[0] == '"':
                place += 2
                continue
            if row.startswith(quote, place):
                place += len(quote)
                quote = ""
                continue
        elif row[place] == "#":
            break
        elif row[place] in "\"'":
            quote = row[place] * 3 if row.startswith(row[place] * 3, place) else row[place]
            place += len(quote)
            continue
        elif row[place] in "[{":
            depth += 1
        elif row[place] in "]}":
            depth -= 1
        place += 1
    # a one-line string ends with its line
    return depth, quote if len(quote) == 3 else ""
