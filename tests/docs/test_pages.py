"""The pages lead somewhere: every link, picture and command in them exists."""

import re
from pathlib import Path

import pytest

from provenance.cli.main import COMMANDS

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
LINK = re.compile(r"\]\((?!https?:|mailto:)([^)#]*)(?:#([^)]*))?\)")


def headings(page: Path) -> set[str]:
    """What a link into a page may name."""
    titles = re.findall(r"^#+ (.+)$", page.read_text("utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-") for title in titles}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_link_leads_somewhere(page: Path) -> None:
    for path, part in LINK.findall(page.read_text("utf-8")):
        target = page.parent / path if path else page
        assert target.exists(), path
        if part:
            assert part in headings(target), part


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_command_that_is_named_is_there(page: Path) -> None:
    text = page.read_text("utf-8")
    shown = re.findall(r"^(?:\.venv/bin/)?provenance ([a-z][\w-]*)", text, re.MULTILINE)
    named = re.findall(r"`provenance ([a-z][\w-]*)", text)
    assert set(shown + named) <= COMMANDS.keys()


def test_the_readme_leads_to_every_page() -> None:
    led, reading = set[Path](), [PAGES[0]]
    while reading:
        page = reading.pop()
        led.add(page)
        beside = {
            (page.parent / path).resolve() for path, _ in LINK.findall(page.read_text("utf-8"))
        }
        reading += [one for one in beside if one.suffix == ".md" and one not in led]
    assert set(PAGES) <= led
