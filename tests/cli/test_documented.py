"""docs/commands.md names every command and option, and no others."""

import json
import re
from pathlib import Path

import pytest

from provenance.cli.main import provenance
from provenance.records.forms import KINDS
from provenance.studio.print_list import STATES
from tests.cli.conftest import command_called, commands

PAGE = (Path(__file__).parents[2] / "docs" / "commands.md").read_text("utf-8")
SECTIONS = dict(re.findall(r"^## (.+?)\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL))


def options(words: tuple[str, ...]) -> set[str]:
    """The options of a command, except those that every command has."""
    params = command_called(words).params
    return {option for one in params for option in one.opts if option.startswith("--")} - {"--json"}


def test_every_command_has_a_section_and_nothing_else_has() -> None:
    assert list(SECTIONS) == [" ".join(words) for words in commands()]


@pytest.mark.parametrize("words", commands(), ids=" ".join)
def test_a_section_gives_synopsis_options_and_status(words: tuple[str, ...]) -> None:
    name = " ".join(words)
    section = SECTIONS[name]
    synopsis = re.search(rf"```\n(provenance {name}.*?)\n```", section, re.DOTALL)
    assert synopsis, "no synopsis"
    assert set(re.findall(r"--[a-z-]+", synopsis[1])) == options(words) | {"--json"}
    assert set(re.findall(r"^- `(--[a-z-]+)", section, re.MULTILINE)) == options(words)
    assert "Status" in section
    assert "--json" in section.partition("```\n\n")[2]


def test_the_options_of_all_commands_are_named() -> None:
    top = {option for one in provenance.params for option in one.opts}
    assert top == {"--studio", "--light", "--no-mouse", "--version"}
    assert all(option in PAGE.partition("\n## ")[0] for option in top)


def test_the_examples_of_json_are_json() -> None:
    blocks = re.findall(r"```json\n(.*?)```", PAGE, re.DOTALL)
    assert len(blocks) >= 8
    for block in blocks:
        for value in re.split(r"\n(?=\{)", block.strip()):
            assert isinstance(json.loads(value), dict)


def test_the_states_and_kinds_are_named() -> None:
    for letter in STATES:
        assert f"`{letter}` " in SECTIONS["list"]
    for kind in KINDS:
        assert kind in SECTIONS["list"]
