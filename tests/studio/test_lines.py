"""Every key of a TOML file is found on the line on which it stands."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.studio.written.lines import Path, find_lines, line_of

BARE = st.text("abcXYZ019_-", min_size=1, max_size=4)
QUOTED = st.text('ab .#[]=,"\\é', max_size=5)
NAMES = st.one_of(BARE, QUOTED)


def basic(text: str) -> str:
    """`text` as a basic string."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


@st.composite
def spelled(draw: st.DrawFn, name: str) -> str:
    """A key in one of the spellings that TOML allows for it."""
    spellings = [basic(name)]
    if name and all(one.isascii() and (one.isalnum() or one in "_-") for one in name):
        spellings.append(name)
    if "'" not in name:
        spellings.append(f"'{name}'")
    return draw(st.sampled_from(spellings))


@dataclass
class Page:
    """A TOML text as it grows, and where each path was written."""

    text: str = ""
    lines: dict[Path, int] = field(default_factory=dict)

    @property
    def line(self) -> int:
        """The line on which the next character comes."""
        return self.text.count("\n") + 1

    def put(self, text: str) -> None:
        """Write `text`."""
        self.text += text

    def mark(self, path: Path) -> None:
        """Remember that `path` begins here, unless it began before."""
        self.lines.setdefault(path, self.line)


SCALARS = st.sampled_from(
    (
        "1",
        "true",
        "-0.5",
        "2031-05-04",
        "10:41:07",
        '"a # [x] = \\" {"',
        "'\\ # ]'",
        '"""one\ntwo = 2\n[three]\\\n  \\""" four"""',
        '"""a""""',
        "'''\n# no comment\n[[no]]'''",
        '""',
    )
)
GAPS = st.sampled_from(("", " ", "\n", "  # ] a remark, [\n", "\n\n\t"))


@st.composite
def value(draw: st.DrawFn, page: Page, path: Path, depth: int) -> None:
    """Write a value, and what is inside it."""
    kind = draw(st.sampled_from(("scalar", "scalar", "list", "table") if depth else ("scalar",)))
    if kind == "scalar":
        page.put(draw(SCALARS))
    elif kind == "list":
        page.put("[" + draw(GAPS))
        for place in range(draw(st.integers(0, 3))):
            page.mark((*path, place))
            draw(value(page, (*path, place), depth - 1))
            page.put(draw(GAPS) + "," + draw(GAPS))
        page.put("]")
    else:
        page.put("{ ")
        for place, name in enumerate(draw(st.lists(NAMES, unique=True, max_size=3))):
            page.put(", " if place else "")
            page.mark((*path, name))
            page.put(draw(spelled(name)) + " = ")
            draw(value(page, (*path, name), depth - 1))
        page.put(" }")


@st.composite
def body(draw: st.DrawFn, page: Page, table: Path) -> None:
    """Write the keys of a table, some of them dotted."""
    for name in draw(st.lists(NAMES, unique=True, max_size=3)):
        path = (*table, name)
        page.mark(path)
        page.put(draw(spelled(name)))
        if draw(st.booleans()):
            inner = draw(NAMES)
            path = (*path, inner)
            page.mark(path)
            page.put(draw(st.sampled_from((".", " . "))) + draw(spelled(inner)))
        page.put(draw(st.sampled_from((" = ", "=", "\t=  "))))
        draw(value(page, path, 2))
        page.put(draw(st.sampled_from(("\n", "  # a remark = [\n", "\n\n"))))


@st.composite
def pages(draw: st.DrawFn) -> Page:
    """A whole TOML document: keys, tables, lists of tables, tables inside those."""
    page = Page()
    draw(body(page, ()))
    taken = {path[0] for path in page.lines}
    names = [name for name in draw(st.lists(NAMES, unique=True, max_size=4)) if name not in taken]
    for name in names:
        many = draw(st.booleans())
        for place in range(draw(st.integers(1, 3)) if many else 1):
            page.mark((name,))
            path: Path = (name, place) if many else (name,)
            page.mark(path)
            key = draw(spelled(name))
            page.put(f"[[ {key} ]]\n" if many else f"[{key}]  # a remark\n")
            before = set(page.lines)
            draw(body(page, path))
            own = {one[: len(path) + 1] for one in set(page.lines) - before}
            inner = draw(NAMES)
            if (*path, inner) not in own:
                for step in range(draw(st.integers(0, 2))):
                    page.mark((*path, inner))
                    page.mark((*path, inner, step))
                    page.put(f"[[{key}.{draw(spelled(inner))}]]\n")
                    draw(body(page, (*path, inner, step)))
    return page


def paths(data: Any, path: Path = ()) -> Iterator[Path]:
    """The path of everything that the standard parser found."""
    items = data.items() if isinstance(data, dict) else enumerate(data)
    for key, inner in items:
        yield (*path, key)
        if isinstance(inner, dict | list):
            yield from paths(inner, (*path, key))


@given(pages())
def test_every_path_has_the_line_on_which_it_was_written(page: Page) -> None:
    found = find_lines(page.text)
    assert found == page.lines
    assert set(found) == set(paths(tomllib.loads(page.text)))


@pytest.mark.parametrize(
    ("text", "path", "line"),
    [
        ("[a.b.c]\n[a]\nx = 1\n", ("a",), 2),
        ("[a.b.c]\n[a]\nx = 1\n", ("a", "b"), 1),
        ("[[a]]\n[a.b]\nc = 1\n[[a]]\n[a.b]\nc = 1\n", ("a", 1, "b", "c"), 6),
        ('[a."b]c"]\nd = 1\n', ("a", "b]c", "d"), 2),
        ("a = [\n 1,\n\n 2,\n]\nb = 1\n", ("a", 1), 4),
        ('a = """\nb = 1\n"""\nb = 2\n', ("b",), 4),
        ("\n# a = 1\na = 1", ("a",), 3),
    ],
)
def test_headers_lists_and_long_strings(text: str, path: Path, line: int) -> None:
    assert find_lines(text)[path] == line


def test_what_has_no_line_gets_that_of_what_it_is_in() -> None:
    lines = find_lines("[a]\nb = 1\n[[c]]\n")
    assert line_of(lines, ("a", "missing")) == 1
    assert line_of(lines, ("c", 0, "d", "e")) == 3
    assert line_of(lines, ("z",)) is None
