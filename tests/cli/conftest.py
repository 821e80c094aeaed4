"""A studio to give commands in, and a way to give them."""

import json
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

import click
import pytest

from provenance.cli.main import provenance, run
from tests.studio.finished import desk
from tests.studios import clock


def commands(group: click.Group = provenance, *before: str) -> list[tuple[str, ...]]:
    """The words of every command, those of groups inside the group included."""
    found: list[tuple[str, ...]] = []
    for name in group.list_commands(click.Context(group)):
        command = command_called((name,), group)
        inside = isinstance(command, click.Group)
        found += commands(command, *before, name) if inside else [(*before, name)]
    return found


def command_called(words: tuple[str, ...], group: click.Command = provenance) -> click.Command:
    """The command that `words` name."""
    command: click.Command | None = group
    for word in words:
        assert isinstance(command, click.Group)
        command = command.get_command(click.Context(command), word)
    assert command is not None
    return command


@dataclass
class Ran:
    """How a command ended, and what it wrote."""

    status: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        return self.out.splitlines()

    @property
    def data(self) -> list[Any]:
        """Standard output as JSON lines."""
        return [json.loads(line) for line in self.lines]

    @property
    def problem(self) -> dict[str, Any]:
        """The only problem of the error that is given as JSON."""
        (problem,) = json.loads(self.err)["problems"]
        return problem  # type: ignore[no-any-return]


@dataclass
class Desk:
    """Gives commands in one studio, in this process or in one of their own."""

    path: Path
    print: int
    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]

    def run(self, *words: str) -> Ran:
        """`provenance --studio HERE words...`, in this process."""
        argv = ["provenance", "--studio", str(self.path), *words]
        self.monkeypatch.setattr(sys, "argv", argv)
        # what the studio holds lies ahead of the machine's clock
        self.monkeypatch.setattr("provenance.records.register.SystemClock", clock)
        self.capsys.readouterr()
        status = run()
        written = self.capsys.readouterr()
        return Ran(status, written.out, written.err)

    def start(
        self, *words: str, code: str = "", stdout: IO[bytes] | int = subprocess.PIPE, **env: str
    ) -> subprocess.CompletedProcess[bytes]:
        """The same in a process of its own; `code` is run there in place of the command."""
        command = ["-c", code] if code else ["-m", "provenance"]
        return subprocess.run(
            [sys.executable, *command, *words],
            env={"PROVENANCE_STUDIO": str(self.path), "PATH": "", "PYTHONPATH": "."} | env,
            stdout=stdout,
            stderr=subprocess.PIPE,
            check=False,
        )


@pytest.fixture(scope="session")
def _made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, int]:
    path = tmp_path_factory.mktemp("cli") / "studio"
    held = desk(path, mark="Q7", features="«für Σοφία», 静かな岸")
    held.register.close()
    return path, held.print


@pytest.fixture
def studio(
    _made: tuple[Path, int],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Desk:
    """A studio with one print, 7/25, that owes nothing but its certificate."""
    path = tmp_path / "studio"
    shutil.copytree(_made[0], path)
    monkeypatch.delenv("PROVENANCE_STUDIO", raising=False)
    return Desk(path, _made[1], monkeypatch, capsys)
