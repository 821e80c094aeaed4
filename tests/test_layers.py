"""The layers of the program, held with nothing but the standard library.

The import-linter contracts in pyproject.toml say the same; this test runs
wherever pytest does, and names the line that crosses a layer.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "provenance"

BELOW: dict[str, set[str]] = {
    "model": set(),
    "craft": {"model"},
    "records": {"craft", "model"},
    "documents": {"craft", "model"},
    "studio": {"records", "documents", "craft", "model"},
    "cli": {"studio", "records", "documents", "craft", "model"},
    "screens": {"studio", "records", "craft", "model"},
}
"""Each layer, and the layers it may import beside itself."""

ANYONE = {"errors", "resources", "toml"}
PURE = {"model", "craft"}
IMPURE = {"sqlite3", "sqlite_utils", "reportlab", "PIL", "click", "textual", "time", "os"}


def imports(path: Path) -> Iterator[tuple[int, str]]:
    """Every module that a file imports, with its line; imports inside functions too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} imports relatively"
            yield node.lineno, node.module or ""


def crossings(layer: str, path: Path) -> Iterator[str]:
    allowed = BELOW[layer] | ANYONE | {layer}
    for line, module in imports(path):
        first, _, rest = module.partition(".")
        part = rest.split(".")[0]
        where = f"{path.relative_to(PACKAGE)}:{line} imports {module}"
        if first == "provenance" and part and part not in allowed:
            yield where
        if layer in PURE and first in IMPURE:
            yield where


@pytest.mark.parametrize("layer", BELOW)
def test_a_layer_imports_only_what_lies_below_it(layer: str) -> None:
    files = sorted((PACKAGE / layer).rglob("*.py"))
    assert files
    assert [crossing for path in files for crossing in crossings(layer, path)] == []


def test_every_module_belongs_to_a_layer() -> None:
    at_top = {path.stem for path in PACKAGE.glob("*.py")} - {"__init__", "__main__"}
    folders = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").exists()}
    assert at_top == ANYONE
    assert folders == BELOW.keys()


def test_a_crossing_would_be_seen(tmp_path: Path) -> None:
    module = PACKAGE / "model" / "body.py"
    upward = tmp_path / "upward.py"
    upward.write_text("def f() -> None:\n    import provenance.records.act\n    import sqlite3\n")
    found = [m for _line, m in imports(upward)]
    assert found == ["provenance.records.act", "sqlite3"]
    assert list(crossings("model", module)) == []


def test_files_stay_small() -> None:
    long = {
        str(path.relative_to(PACKAGE)): lines
        for path in PACKAGE.rglob("*.py")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}
