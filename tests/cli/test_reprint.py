"""Reprints and matches from the command line."""

from pathlib import Path

import pytest

from provenance.model.paper import Paper
from provenance.model.printing import Exposure
from provenance.model.prints import Print
from provenance.records.register import Register
from tests.cli.conftest import Desk
from tests.studios import clock, enter, reading, revise, wedge


def furnished(studio: Desk) -> None:
    """A second paper slower by a known share, wedges of both, and the tones of the print."""
    with Register.open(studio.path, clock=clock()) as register:
        read = register.read
        printing = read.get(Print, studio.print).body.printing
        exposure = Exposure(
            base_ms=20_000,
            grade="2",
            head="diffuse",
            aperture_tenth=80,
            magnification_thousandth=4_000,
        )
        revise(register, printing, exposure=exposure)
        old = read.all(Paper)[0].id
        new = enter(register, Paper(code="FB-2", base="fibre"))
        enter(register, wedge(old))
        enter(register, wedge(new, exposure_ms=14_000))
        enter(register, reading(studio.print))


def test_a_reprint_is_planned_drawn_and_put_on_a_worksheet(studio: Desk, tmp_path: Path) -> None:
    furnished(studio)
    out = tmp_path / "sheet.pdf"
    words = ("reprint", "QUAY 7/25", "--paper", "FB-2", "--magnification", "5")
    told = studio.run(*words, "--out", str(out))
    assert told.status == 0, told.err
    assert "⠀" in told.out
    assert out.read_bytes().startswith(b"%PDF")
    (data,) = studio.run(*words, "--json").data
    assert data["low_ms"] < 20_000 * 1.4 * 36 / 25 < data["high_ms"]


@pytest.mark.parametrize(
    "extra", [("--paper", "FB-9"), ("--paper", "FB-2", "--magnification", "x")]
)
def test_a_reprint_that_cannot_be_planned_is_refused(studio: Desk, extra: tuple[str, ...]) -> None:
    furnished(studio)
    assert studio.run("reprint", "QUAY 7/25", *extra).status == 1


def test_a_match_without_readings_is_refused_and_half_a_decision_is_misuse(studio: Desk) -> None:
    furnished(studio)
    assert studio.run("match", "QUAY 7/25", "QUAY 7/25", "--accept").status == 2
