"""The command in a process of its own: how it ends, and what it loads."""

import json
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from provenance import __version__
from tests.cli.conftest import Desk
from tests.tools import need

HEAVY = ("textual", "pint", "reportlab", "scipy", "PIL", "sqlite_utils", "numpy")

PROBE = """
import sys
from provenance.__main__ import main
try:
    main()
except SystemExit:
    pass
sys.stderr.write("LOADED " + " ".join(sys.modules))
"""


def loaded(studio: Desk, *words: str) -> set[str]:
    """The modules that a command has loaded when it is done."""
    ran = studio.start(*words, code=PROBE)
    return set(ran.stderr.decode().rpartition("LOADED ")[2].split())


def test_the_version_is_told_before_anything_is_loaded(studio: Desk) -> None:
    ran = studio.start("--version")
    assert (ran.returncode, ran.stdout.decode()) == (0, f"provenance {__version__}\n")
    modules = loaded(studio, "--version")
    assert not modules & {*HEAVY, "click", "sqlite3", "msgspec"}


@pytest.mark.parametrize(
    "words",
    [("list", "prints"), ("list", "prints", "--json"), ("list", "papers"), ("--help",)],
    ids=" ".join,
)
def test_lists_and_help_load_nothing_heavy(studio: Desk, words: tuple[str, ...]) -> None:
    modules = loaded(studio, *words)
    assert "click" in modules
    assert not modules & set(HEAVY)


def test_the_help_of_a_command_loads_no_other_command(studio: Desk) -> None:
    modules = loaded(studio, "audit", "--help")
    commands = {name for name in modules if name.startswith("provenance.cli.")}
    every = ("main", "output", "progress")
    assert commands == {f"provenance.cli.{name}" for name in (*every, "audit")}
    assert not modules & {*HEAVY, "sqlite3"}


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (("list", "prints"), 0),
        (("show", "QUAY", "9/25"), 1),
        (("develop",), 2),
        ((), 2),
    ],
    ids=str,
)
def test_the_exit_status_says_how_it_ended(
    studio: Desk, words: tuple[str, ...], status: int
) -> None:
    ran = studio.start(*words)
    assert ran.returncode == status
    assert bool(ran.stdout) == (status == 0)
    assert ran.stderr


def test_damage_ends_with_3(studio: Desk) -> None:
    (studio.path / "register.db").write_bytes(b"not a register at all" * 400)
    for words in (("list", "prints"), ("list", "papers"), ("find", "x")):
        ran = studio.start(*words, "--json")
        assert ran.returncode == 3
        assert json.loads(ran.stderr)["error"] == "damaged"
    assert studio.start("audit").returncode == 3


@pytest.mark.parametrize("words", ["list prints", "list steps --json", "--help", "show QUAY 7/25"])
def test_a_broken_pipe_is_silent(studio: Desk, words: str) -> None:
    # true reads nothing, so that whatever is written finds the pipe broken
    command = f"{shlex.quote(sys.executable)} -m provenance {words} | true; exit ${{PIPESTATUS[0]}}"
    ran = subprocess.run(
        [need("bash"), "-c", command],
        env={"PROVENANCE_STUDIO": str(studio.path), "PATH": "/usr/bin:/bin", "PYTHONPATH": "."},
        capture_output=True,
        check=False,
    )
    assert ran.returncode == 0
    assert b"Traceback" not in ran.stderr
    assert b"Broken pipe" not in ran.stderr
    assert b"Exception" not in ran.stderr


def test_a_long_list_that_nobody_reads_to_the_end_is_silent(studio: Desk) -> None:
    code = """
import sys
import provenance.cli.output as output
from provenance.cli.main import run
import provenance.studio.browsing as browsing
found = browsing.Found(1, "print", "x" * 200, "y")
browsing.search = lambda *_, **__: [found] * 5000
sys.argv = ["provenance", "find", "x"]
sys.exit(run())
"""
    started = subprocess.Popen(
        [sys.executable, "-c", code],
        env={"PROVENANCE_STUDIO": str(studio.path), "PATH": "", "PYTHONPATH": "."},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert started.stdout is not None
    assert started.stderr is not None
    started.stdout.readline()
    started.stdout.close()
    assert started.stderr.read() == b""
    assert started.wait(timeout=30) == 0
    started.stderr.close()


def test_an_interrupt_ends_with_130(studio: Desk) -> None:
    code = """
import os, signal, sys
import provenance.studio.browsing as browsing
from provenance.cli.main import run
browsing.search = lambda *_, **__: os.kill(os.getpid(), signal.SIGINT)
sys.argv = ["provenance", "find", "x"]
sys.exit(run())
"""
    ran = studio.start(code=code)
    assert ran.returncode == 130
    assert ran.stdout == b""
    assert b"Traceback" not in ran.stderr


def test_a_file_name_that_is_no_text_is_shown_as_an_escape(studio: Desk, tmp_path: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "provenance", "record", b"bad\xff\x1b[2J.toml"],
        env={"PROVENANCE_STUDIO": str(studio.path), "PATH": "", "PYTHONPATH": "."},
        capture_output=True,
        check=False,
    )
    assert ran.returncode == 1
    assert b"\x1b" not in ran.stderr
    assert b"\xff" not in ran.stderr
    ran.stderr.decode("utf-8")
