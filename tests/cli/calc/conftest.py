"""`provenance calc` as it is called in the tests."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from provenance.cli.main import run

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def calc(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> Run:
    """Runs `provenance calc` in a studio folder without anything in it."""

    def ran(*args: str) -> tuple[int, str, str]:
        argv = ["provenance", "--studio", str(tmp_path), "calc", *args]
        monkeypatch.setattr("sys.argv", argv)
        status = run()
        out, err = capsys.readouterr()
        return status, out, err

    return ran


def data(ran: tuple[int, str, str]) -> dict[str, Any]:
    """What a run gave as JSON."""
    status, out, err = ran
    assert (status, err) == (0, "")
    given: dict[str, Any] = json.loads(out)
    assert given["standing"] == "calculated"
    return given
