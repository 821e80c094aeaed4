"""Tests of the screen are coroutines; each runs in an event loop of its own."""

import asyncio
import inspect
from pathlib import Path

import pytest

from tests.screens.house import house


@pytest.hookimpl(tryfirst=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> bool | None:
    """Run a test that is a coroutine."""
    if not inspect.iscoroutinefunction(pyfuncitem.obj):
        return None
    wanted = inspect.signature(pyfuncitem.obj).parameters
    asyncio.run(pyfuncitem.obj(**{name: pyfuncitem.funcargs[name] for name in wanted}))
    return True


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the studio of `house` is built, once."""
    return tmp_path_factory.mktemp("screens") / "house"


@pytest.fixture
def ids(tmp_path: Path, built: Path) -> dict[str, int]:
    """The prints of a fresh copy of that studio, which lies in `tmp_path / "studio"`."""
    return house(tmp_path / "studio", built)


@pytest.fixture
def studio(tmp_path: Path, ids: dict[str, int]) -> Path:
    """Its folder."""
    return tmp_path / "studio"


@pytest.fixture(autouse=True)
def _all_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of all colours, whichever the tests are started from."""
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.delenv("NO_COLOR", raising=False)
