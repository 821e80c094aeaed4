"""Whatever is typed after a command, it ends with words; never with a fault of the program."""

import random
from pathlib import Path

import click
import pytest

from provenance.cli.main import run
from tests import studios
from tests.cli.conftest import command_called, commands
from tests.faults.ground import Ground
from tests.hostile.texts import MEAN

WORDS = (
    *("QUAY", "QUAY 7/25", "QUAY Q8", "N-1", "F-1", "#5", "3", "1+9", "11x14 in", "500 ml", "20 C"),
    *("FB-1", "single", "7.5 g", "20 min", "10 s", "f/8", "2 1/2", "thiourea", "plain-hypo", "0.5"),
    *("+1/3", "fibre", "2031-05-01", "en", "A4", "csv", "notes", "x.toml", "out", "name=x", "="),
)
TYPED = [one.replace("\0", "").replace("\ud800", "")[:3000] for one in MEAN]
"""What a shell can hand on: no null, and no half of a character but those of spoiled file names."""
LINES = 200


def typed(chance: random.Random, option: click.Parameter) -> str:
    """A value for an argument or option: fitting, good elsewhere, mean, or a mixture."""
    fitting = getattr(option.type, "choices", None)
    if fitting and chance.random() < 0.8:
        return str(chance.choice(list(fitting)))
    good, mean = chance.choice(WORDS), chance.choice(TYPED)
    return chance.choice((good, good, mean, good + mean, mean + good))


def command_line(chance: random.Random) -> list[str]:
    """A command with arguments and some of its options."""
    words = chance.choice([one for one in commands() if one != ("demo",)])
    line = list(words)
    for one in command_called(words).params:
        if isinstance(one, click.Argument):
            count = 1 if one.nargs == 1 else chance.randint(1, 3)
            line += [typed(chance, one) for _ in range(count)]
        elif isinstance(one, click.Option) and one.name != "help" and chance.random() < 0.35:
            line += [one.opts[0]] if one.is_flag else [one.opts[0], typed(chance, one)]
    return line


def test_no_command_line_brings_about_a_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(1)  # noqa: S311 - what is typed, not a secret
    folder = Ground(tmp_path, chance).quiet()
    (tmp_path / "desk").mkdir()
    monkeypatch.chdir(tmp_path / "desk")
    monkeypatch.setenv("PROVENANCE_PASSPHRASE", "not a secret at all")
    monkeypatch.setattr("provenance.records.register.SystemClock", studios.clock)
    ended = set()
    for _ in range(LINES):
        line = command_line(chance)
        monkeypatch.setattr("sys.argv", ["provenance", "--studio", str(folder), *line])
        status = run()
        said = capsys.readouterr()
        assert status in (0, 1, 2, 3), (line, said.err)
        assert "Traceback" not in said.err
        ended.add(status)
    assert {0, 1, 2} <= ended
