"""What docs/day-sheets.md shows is what the program does."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, get_args

import pytest

from provenance.model.chemistry import Role
from provenance.model.proof import Method, Specimen
from provenance.records.audit import audit
from provenance.resources import resource
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.processes import read_process
from provenance.studio.settings import read_settings
from provenance.studio.written.forms import Form
from tests.studio.sheets import Desk, draw

PAGE = Path(__file__).parents[2] / "docs" / "day-sheets.md"


@dataclass(frozen=True)
class Block:
    """One fenced block: what it is, and the block that follows it."""

    kind: str
    text: str
    answer: str


def blocks() -> list[Block]:
    """The blocks of the page in their order."""
    found = re.findall(r"^```(\S[^\n]*)\n(.*?)^```$", PAGE.read_text("utf-8"), re.M | re.S)
    answers = [*(text for _kind, text in found[1:]), ""]
    return [Block(kind, text, answer) for (kind, text), answer in zip(found, answers, strict=True)]


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """The studio that the page's sheets were entered into, one after the other."""
    desk = Desk(tmp_path_factory.mktemp("page"), day="2026-06-15")
    draw(desk.path / "scans" / "crane-1.tif")
    for block in blocks():
        if block.kind == "toml":
            before = desk.enter(block.text, rehearse=True)
            assert desk.enter(block.text).entered == before.entered
    return desk


def test_the_sheets_of_the_page_are_entered(desk: Desk) -> None:
    assert sum(block.kind == "toml" for block in blocks()) >= 6
    assert not audit(desk.folder.path).findings


@pytest.mark.parametrize(
    "block", [b for b in blocks() if b.kind == "toml refused"], ids=lambda b: b.text[-24:].strip()
)
def test_the_mistakes_of_the_page_are_told_as_printed(desk: Desk, block: Block) -> None:
    told = [f"refused: {problem}" for problem in desk.refused(block.text)]
    shown = [line.replace(str(desk.path), "...") for line in told]
    shown = [re.sub(r"sheet-\d+\.toml", "2026-06-10.toml", line) for line in shown]
    assert shown == block.answer.splitlines()


def test_the_settings_and_the_process_sheet_of_the_page_are_read(tmp_path: Path) -> None:
    kinds = {block.kind: block.text for block in blocks()}
    desk = Desk(tmp_path)
    desk.folder.path.mkdir()
    desk.folder.settings.write_text(kinds["toml settings"], encoding="utf-8")
    assert read_settings(desk.folder).colon_dilution == "parts"
    assert len(read_process(kinds["toml process"], name="fibre-one-bath.toml").steps) == 4


def _forms(form: type[Form], path: str = "") -> Iterator[tuple[str, list[str]]]:
    """Each form below `form`: the heading of its section, and the names of its fields."""
    import msgspec

    for field in msgspec.structs.fields(form):
        inner = _form_in(field.type)
        if inner is None:
            continue
        name = f"{path}{field.encode_name}"
        many = "list" in str(field.type)
        names = [one.encode_name for one in msgspec.structs.fields(inner)]
        yield (f"[[{name}]]" if many else f"[{name}]"), names
        yield from _forms(inner, f"{name}.")


def _form_in(kind: Any) -> type[Form] | None:
    if isinstance(kind, type) and not get_args(kind):
        return kind if issubclass(kind, Form) else None
    return next((form for one in get_args(kind) if (form := _form_in(one))), None)


FORMS = [one for one in _forms(DaySheet) if one[0] != "[[treatment.step]]"]


@pytest.mark.parametrize(("heading", "fields"), FORMS, ids=[heading for heading, _ in FORMS])
def test_every_field_of_every_table_is_documented(heading: str, fields: list[str]) -> None:
    page = PAGE.read_text("utf-8")
    _, found, rest = page.partition(f"\n### {heading}\n")
    assert found, f"no section is called {heading}"
    section = rest.partition("\n### ")[0].partition("\n## ")[0]
    rows = [row for row in section.splitlines() if row.startswith("|")]
    known = set(re.findall(r"`(\w+)`", " ".join(row.split("|")[1] for row in rows)))
    assert known == set(fields)


def test_every_process_sheet_that_comes_along_is_named() -> None:
    for path in resource("templates", "process").glob("*.toml"):
        assert f"`{path.stem}`" in PAGE.read_text("utf-8")


@pytest.mark.parametrize("word", [*get_args(Role), *get_args(Method), *get_args(Specimen)])
def test_every_word_of_the_trade_is_documented(word: str) -> None:
    assert f'`"{word}"`' in PAGE.read_text("utf-8")
