"""A command is killed on its way: whatever writes to the studio, or beside it."""

import os
import shutil
import signal
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from pypdf import PdfReader

from provenance.cli.main import run
from provenance.records import register as register_module
from provenance.records.audit import audit
from provenance.records.exchange.opened_bag import open_bag
from provenance.records.private import Contacts
from provenance.records.witness import read_witness
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.backup import back_up
from provenance.studio.tables.importing import KINDS
from tests import studios
from tests.faults.ground import Ground, Say, heard, in_a_child
from tests.faults.outcome import Came, Outcome, judged
from tests.faults.registry import HARMLESS, fault

_DAY = """\
[day]
date = 2031-05-04
who = "artist"
[[negative]]
code = "N-77"
title = "Breakwater"
[[release]]
prints = ["QUAY 9/25"]
to = "A. Collector"
"""
_FIRST = """\
[day]
date = 2031-05-04
[studio]
name = "The drying room"
artist = "A. Printer"
mark = "DR"
[[negative]]
code = "N-1"
title = "Slipway"
"""
_LAST = "the last act"
_COMMANDS: tuple[tuple[str, ...], ...] = (
    ("record", "day.toml"),
    ("certify", "QUAY 8/25"),
    ("undo", _LAST, "--reason", "a slip"),
    ("audit", "--rebuild"),
    ("key", "new"),
    ("backup", "studio.zip"),
    ("import", "prints.csv", "--kind", "prints"),
    ("import", "moves.csv", "--kind", "custody"),
    ("erase", "B. Keeper", "--yes"),
    ("bag", "bag"),
    ("restore", "given.zip", "again"),
    ("export", "tables", "--format", "csv"),
    ("answer", "QUAY 9/25", "--format", "pdf", "--out", "letter.pdf"),
    ("edition-list", "QUAY", "--out", "list.pdf"),
    ("withdraw", "DR-9-31", "--reason", "a slip"),
    ("certify", "QUAY 11/25", "--revise", "a slip"),
    ("match", "QUAY 9/25", "QUAY 8/25", "--accept", "--by", "artist", "--out", "match.pdf"),
    ("reprint", "QUAY 9/25", "--paper", "FB-1", "--out", "worksheet.pdf"),
    ("label", "F-1", "--out", "labels.pdf"),
    ("heirs-page", "QUAY", "--full", "--out", "heirs.pdf"),
)
_PAPERS = tuple(words[-1] for words in _COMMANDS if words[-1].endswith(".pdf"))
_PRINTS = "edition;pencil mark;date\n" + "".join(
    f"QUAY;I{number};2031-03-02\n" for number in range(200)
)
_MOVES = "print;event;date;to;price\n" + "".join(
    f"QUAY {number}/25;sold;2031-05-01;Keeper {number};EUR {number}00\n" for number in (8, 9, 10)
)


@fault("a command is killed on its way", long=600, short=20, allowed=HARMLESS)
def killed(ground: Ground, times: int) -> Iterator[Outcome]:
    """What it said to be saved is there; and it can be given again."""
    for turn in range(times):
        folder = ground.quiet()
        words = _COMMANDS[turn % len(_COMMANDS)]
        here = folder.parent / f"desk-{turn}"
        here.mkdir()
        _lay_out(ground, folder, here)
        give = partial(_give, folder, here, words)
        said = _killed(give, ground.chance.uniform(0, _usual_s(ground, words)))
        outcome = judged(ground.aside(folder), said, f"{words}")
        outcome = outcome if outcome.bad else _whole_beside(here, words)
        outcome = outcome if outcome.bad else _given_again(give, folder, words)
        yield outcome if outcome.bad else _whole_beside(here, words)
        shutil.rmtree(folder)
        shutil.rmtree(here)


@fault("a studio is killed while it is founded", long=60, short=4, allowed=HARMLESS)
def founded(ground: Ground, times: int) -> Iterator[Outcome]:
    """There is no studio after it, or a whole one; and it can be founded with the same sheet."""
    for turn in range(times):
        folder = ground.place / f"new-{turn}"
        (ground.place / "first.toml").write_text(_FIRST, encoding="utf-8")
        give = partial(_give, folder, ground.place, ("record", "first.toml"))
        _killed(give, ground.chance.uniform(0, 0.25))
        if (folder / "register.db").exists() and audit(folder).damaged:
            yield Outcome(Came.SILENT, str(audit(folder).findings))
            continue
        outcome = _given_again(give, folder, ("record",))
        left = [path.name for path in folder.glob("*.new*")] if outcome.came is Came.WHOLE else []
        yield Outcome(Came.WHOLE, f"left: {left}") if outcome.came is Came.WHOLE else outcome
        shutil.rmtree(folder)


def _lay_out(ground: Ground, folder: Path, here: Path) -> None:
    """What the commands are given, on the desk and in the studio."""
    (here / "day.toml").write_text(_DAY, encoding="utf-8")
    (here / "prints.csv").write_text(_PRINTS, encoding="utf-8")
    (here / "moves.csv").write_text(_MOVES, encoding="utf-8")
    Contacts(folder).add(name="B. Keeper")
    given = ground.place / "given.zip"
    if not given.exists():
        back_up(StudioFolder(ground.quiet()), given, clock=studios.clock())
    shutil.copy(given, here)


def _whole_beside(here: Path, words: tuple[str, ...]) -> Outcome:
    """What stands beside the studio under the name that was asked for is whole."""
    try:
        for name in ("studio.zip", "bag"):
            if (here / name).exists():
                with open_bag(here / name) as bag:
                    bag.check()
        if (here / "again").exists() and (report := audit(here / "again")).damaged:
            return Outcome(Came.SILENT, f"{words}: {report.findings}")
        if (here / "tables").exists():
            assert {f"{kind}.csv" for kind in KINDS} <= {
                p.name for p in (here / "tables").iterdir()
            }
        for name in _PAPERS:
            if (here / name).exists():
                assert PdfReader(here / name).pages
    except Exception as error:
        return Outcome(Came.SILENT, f"{words}: it is not whole: {type(error).__name__}: {error}")
    return Outcome(Came.WHOLE, f"{words}")


def _give(folder: Path, here: Path, words: tuple[str, ...], say: Say) -> None:
    """Give a command in this process; then say where the journal stands, and how it ended."""
    register_module.SystemClock = studios.clock  # type: ignore[misc, assignment]
    os.environ["PROVENANCE_PASSPHRASE"] = "not a secret at all"  # noqa: S105
    os.chdir(here)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    with (here / "told").open("w", encoding="utf-8") as told:
        os.dup2(told.fileno(), 2)
    sys.stdout, sys.stderr = os.fdopen(1, "w"), os.fdopen(2, "w")
    head = read_witness(folder)
    last = str(head.seq) if head else ""
    words = tuple(last if word == _LAST else word for word in words)
    sys.argv = ["provenance", "--studio", str(folder), *words]
    status = run()
    sys.stderr.flush()
    head = read_witness(folder)
    if status == 0 and head is not None:
        say(f"{head.seq} {head.digest}\n".encode())
    os._exit(status)


def _killed(give: Callable[[Say], object], after_s: float) -> dict[int, str]:
    child, reads = in_a_child(give)
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reads, "rb") as lines:
        return heard(lines.read())


def _given_again(give: Callable[[Say], object], folder: Path, words: tuple[str, ...]) -> Outcome:
    """A second time it does its work, or says in words that the work is done."""
    child, reads = in_a_child(give)
    with os.fdopen(reads, "rb") as lines:
        lines.read()
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    report = audit(folder)
    if status not in (0, 1) or report.damaged:
        return Outcome(Came.FAULT, f"{words} again: {status} {report.findings}")
    return Outcome(Came.WHOLE, f"{words}")


_usual: dict[tuple[str, ...], float] = {}


def _usual_s(ground: Ground, words: tuple[str, ...]) -> float:
    """How long the command takes when nobody kills it; no more than that is waited."""
    if words not in _usual:
        folder = ground.quiet()
        here = folder.with_name(f"{folder.name}-desk")
        here.mkdir()
        _lay_out(ground, folder, here)
        begun = time.monotonic()
        child, reads = in_a_child(partial(_give, folder, here, words))
        with os.fdopen(reads, "rb") as lines:
            done = heard(lines.read())
        os.waitpid(child, 0)
        told = (here / "told").read_text(encoding="utf-8")
        assert done, f"{words} does not work here: {told}"
        _usual[words] = time.monotonic() - begun
        shutil.rmtree(folder)
        shutil.rmtree(here)
    return _usual[words]
