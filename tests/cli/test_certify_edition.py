"""Certifying a whole edition: what is told, how it ends, and what an interrupt leaves."""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pypdf
import pytest

from provenance.model.certificate import Certificate
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.studio.certifying.batch import owing
from provenance.studio.folder import StudioFolder
from tests.cli.conftest import Desk
from tests.studio import finished
from tests.studios import Shelf, clock, enter, revise, sheet


def furnish(studio: Desk, count: int) -> list[str]:
    """More prints that owe nothing but their certificate, numbered from the end."""
    names = [f"QUAY {number}/25" for number in range(8, 8 + count)]
    with Register.open(studio.path, clock=clock()) as register:
        shelf = shelf_of(register, studio.print)
        desk = finished.Desk(StudioFolder(studio.path), register, shelf, studio.print, 0, 0)
        for number in reversed(range(8, 8 + count)):
            finished.another(desk, f"Q{number}", f"{number}/25")
    return names


def shelf_of(register: Register, print_: int) -> Shelf:
    """What the studio's print was made from."""
    from provenance.model.prints import Print

    body = register.read.get(Print, print_).body
    return Shelf(0, body.edition, 0, body.printing, 0, 0)


def issued(studio: Desk) -> list[Certificate]:
    with Register.open(studio.path, clock=clock()) as register:
        return [held.body for held in register.read.all(Certificate)]


def whole(studio: Desk) -> None:
    """Every file in the folder is a whole certificate of the journal, and none is missing."""
    folder = StudioFolder(studio.path).certificates
    held = issued(studio)
    assert sorted(path.name for path in folder.iterdir()) == sorted(
        name for one in held for name in (one.file_name, one.record_name)
    )
    for one in held:
        assert pypdf.PdfReader(folder / one.file_name, strict=True).pages
    report = audit(studio.path)
    assert (report.damaged, report.findings) == (False, ())


def test_every_print_gets_its_certificate_by_number(studio: Desk) -> None:
    names = ["QUAY 7/25", *furnish(studio, 3)]
    done = studio.run("certify", "QUAY", "--all", "--json")
    assert (done.status, done.err) == (0, "")
    assert [one["print"] for one in done.data] == names
    assert [one["certificate"].split("-")[2] for one in done.data] == [
        "0001", "0002", "0003", "0004",
    ]  # fmt: skip
    with Register.open(studio.path, clock=clock()) as register:
        held = register.read.all(Certificate)
        acts = {register.read.entry(one.id).act for one in held}
    assert len(acts) == len(held) == 4
    whole(studio)


def test_who_has_one_is_passed_over_and_who_is_gone_too(studio: Desk) -> None:
    first, _second = furnish(studio, 2)
    assert studio.run("certify", *first.split()).status == 0
    with Register.open(studio.path, clock=clock()) as register:
        revise(register, studio.print, existence="destroyed", gone_on="2031-05-01", gone_why="x")
        assert [one.name for one in owing(register, "quay")] == ["QUAY 9/25"]
    done = studio.run("certify", "QUAY", "--all")
    assert (done.status, len(done.lines)) == (0, 1)
    assert "certificates issued: 1, for 1 print" in done.err
    again = studio.run("certify", "QUAY", "--all")
    assert (again.status, again.out) == (0, "")


def test_what_stands_against_a_print_is_told_at_the_end_and_the_rest_is_issued(
    studio: Desk,
) -> None:
    furnish(studio, 1)
    with Register.open(studio.path, clock=clock()) as register:
        enter(register, sheet(shelf_of(register, studio.print), "Q30"))
    done = studio.run("certify", "QUAY", "--all")
    assert (done.status, len(done.lines)) == (1, 2)
    assert "QUAY Q30 designation: it has no number; number it first" in done.err
    told = studio.run("certify", "QUAY", "--all", "--json")
    assert (told.status, told.out) == (1, "")
    assert {one["record"] for one in json.loads(told.err)["problems"]} == {"QUAY Q30"}
    whole(studio)


def test_copies_go_into_a_folder(studio: Desk, tmp_path: Path) -> None:
    furnish(studio, 1)
    wrong = studio.run("certify", "QUAY", "--all", "--out", str(tmp_path / "none"))
    assert (wrong.status, issued(studio)) == (2, [])
    out = tmp_path / "out"
    out.mkdir()
    done = studio.run("certify", "QUAY", "--all", "--out", str(out))
    assert sorted(map(str, out.iterdir())) == done.lines
    assert len(done.lines) == 2


def test_wrong_use(studio: Desk) -> None:
    assert studio.run("certify", "QUAY", "--all", "--revise", "x").status == 2
    assert studio.run("certify", "PIER", "--all").status == 1
    assert issued(studio) == []


@pytest.fixture
def running(studio: Desk) -> Iterator[subprocess.Popen[str]]:
    """The command at work in a process of its own, which has issued two of eighteen."""
    furnish(studio, 17)
    code = (
        "import sys; from tests.studios import clock; from provenance.records import register;"
        "register.SystemClock = clock; from provenance.cli.main import run; sys.exit(run())"
    )
    with subprocess.Popen(
        [sys.executable, "-uc", code, "--studio", str(studio.path), "certify", "QUAY", "--all"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": "."},
    ) as process:
        assert process.stdout is not None
        for _ in range(2):
            assert process.stdout.readline()
        yield process


def test_an_interrupt_lets_the_one_in_hand_be_finished(
    studio: Desk, running: subprocess.Popen[str]
) -> None:
    running.send_signal(signal.SIGINT)
    _, err = running.communicate()
    held = len(issued(studio))
    if running.returncode != 0:  # else it was done before the signal came
        assert running.returncode == 130
        assert 2 <= held < 18
    assert f"certificates issued: {held}, for 18 prints" in err
    whole(studio)


def test_a_kill_leaves_nothing_half_in_the_journal(
    studio: Desk, running: subprocess.Popen[str]
) -> None:
    running.kill()
    running.communicate()
    assert not audit(studio.path).damaged
    folder = StudioFolder(studio.path).certificates
    for one in issued(studio):
        assert pypdf.PdfReader(folder / one.file_name, strict=True).pages
    assert studio.run("certify", "QUAY", "--all").status == 0
    assert len(issued(studio)) == 18
    assert not audit(studio.path).damaged
