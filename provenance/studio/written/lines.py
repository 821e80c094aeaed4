"""Which line of a TOML file a value stands on.

The standard parser keeps no positions.  This walks a text that it has already
accepted, so it need not check anything: it only has to find where keys and
values begin and end.
"""

import re
import tomllib

Path = tuple[str | int, ...]

_BETWEEN = re.compile(r"(?:[ \t\n,]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_STRING = re.compile(
    r'"""(?:\\.|(?!""").)*"""{1,3}' r"|'''(?:(?!''').)*'''{1,3}" r'|"(?:\\.|[^"\\])*"' r"|'[^']*'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}\n#]+")
_BARE_KEY = re.compile(r"[\w-]+")


def find_lines(text: str) -> dict[Path, int]:
    """The line (from 1) of every table, list entry and key of valid TOML, by its path.

    What a header or a dotted key implies stands where it is first implied.
    """
    walk = _Walk(text)
    walk.document()
    return walk.lines


def line_of(lines: dict[Path, int], path: Path) -> int | None:
    """The line of `path`, or of the nearest thing above it that has one."""
    while path:
        if path in lines:
            return lines[path]
        path = path[:-1]
    return None


class _Walk:
    """One pass over a text; `_place` is the next character."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Path, int] = {}
        self._text = text
        self._place = 0
        self._line, self._counted = 1, 0
        self._last: dict[Path, int] = {}
        """Of each list of tables, the index of its last entry."""

    def document(self) -> None:
        table: Path = ()
        while self._more():
            if self._text[self._place] == "[":
                table = self._header()
            else:
                self._pair(table)

    def _more(self) -> bool:
        self._skip(_BETWEEN)
        return self._place < len(self._text)

    def _skip(self, what: re.Pattern[str]) -> str:
        match = what.match(self._text, self._place)
        if match is None:
            return ""
        self._place = match.end()
        return match[0]

    def _take(self, character: str) -> bool:
        found = self._text.startswith(character, self._place)
        self._place += len(character) if found else 0
        return found

    def _here(self) -> int:
        """The line of the next character."""
        self._line += self._text.count("\n", self._counted, self._place)
        self._counted = self._place
        return self._line

    def _header(self) -> Path:
        line = self._here()
        closing = "]]" if self._take("[[") else "]"
        if closing == "]":
            self._take("[")
        names = self._key()
        self._skip(_SPACE)
        self._take(closing)
        path: Path = ()
        for place, name in enumerate(names):
            path = (*path, name)
            if place == len(names) - 1 and closing == "]]":
                self.lines.setdefault(path, line)
                self._last[path] = self._last.get(path, -1) + 1
            elif place < len(names) - 1:
                self.lines.setdefault(path, line)
            if path in self._last:
                path = (*path, self._last[path])
        self.lines[path] = line
        return path

    def _key(self) -> list[str]:
        names: list[str] = []
        while True:
            self._skip(_SPACE)
            quoted = self._skip(_STRING)
            # the standard parser knows the escapes
            names.append(next(iter(tomllib.loads(f"{quoted} = 0"))) if quoted else self._bare())
            self._skip(_SPACE)
            if not self._take("."):
                return names

    def _bare(self) -> str:
        return self._skip(_BARE_KEY)

    def _pair(self, table: Path) -> None:
        line = self._here()
        path = table
        for name in self._key():
            path = (*path, name)
            self.lines.setdefault(path, line)
        self._take("=")
        self._skip(_SPACE)
        self._value(path)

    def _value(self, path: Path) -> None:
        if self._take("["):
            count = 0
            while self._more() and not self._take("]"):
                self.lines[(*path, count)] = self._here()
                self._value((*path, count))
                count += 1
        elif self._take("{"):
            while self._more() and not self._take("}"):
                self._pair(path)
        elif not self._skip(_STRING):
            self._skip(_PLAIN)
