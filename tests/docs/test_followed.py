"""Who follows a page with the demo studio gets what it says."""

import re
import shlex
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from provenance.cli.main import run
from provenance.records.clock import SetClock
from provenance.studio.demo import run_demo
from provenance.studio.folder import StudioFolder

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(r"^```(\w*)\n(.*?)^```", re.MULTILINE | re.DOTALL)
TODAY = SetClock(datetime(2026, 11, 25, 12, 0, tzinfo=UTC))
REFUSED = {"certify SLIP 5/15"}
"""What the pages say is refused."""


def lines(page: str) -> Iterator[str]:
    """The commands of a page, in its order, but for those that open the application."""
    for language, text in BLOCK.findall((ROOT / page).read_text("utf-8")):
        for line in text.splitlines() if not language else ():
            words = line.removeprefix("provenance ")
            if words != line and not words.startswith("demo"):
                yield words


def test_every_command_of_the_pages_does_its_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One studio for all three: it is made once, and no page leans on another."""
    run_demo(StudioFolder(tmp_path / "made"), lambda _line: None, clock=TODAY)
    monkeypatch.setenv("PROVENANCE_STUDIO", "demo-studio")
    monkeypatch.setattr("provenance.records.register.SystemClock", lambda: TODAY)
    for page in ("README.md", "docs/tour.md", "docs/hand-over.md"):
        desk = tmp_path / Path(page).stem
        shutil.copytree(tmp_path / "made", desk / "demo-studio")
        monkeypatch.chdir(desk)
        for language, text in BLOCK.findall((ROOT / page).read_text("utf-8")):
            if language == "toml":
                (desk / "today.toml").write_text(text, "utf-8")
        followed = list(lines(page))
        assert len(followed) >= 4
        for words in followed:
            here = words.replace("/media/disk", str(desk))
            monkeypatch.setattr("sys.argv", ["provenance", *shlex.split(here)])
            status = run()
            said = capsys.readouterr()
            assert status == (1 if words in REFUSED else 0), (words, said.err)
