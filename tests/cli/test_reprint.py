"""Reprints and matches from the command line."""

import re
import subprocess
from pathlib import Path

import pytest
from msgspec import structs

from provenance.model.paper import Paper
from provenance.model.printing import Exposure
from provenance.model.prints import Print
from provenance.model.quantities import Point
from provenance.model.readings import WedgeStep
from provenance.records.register import Register
from tests.cli.conftest import Desk
from tests.studios import clock, enter, reading, revise, tones, wedge
from tests.tools import need


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


def test_the_grade_that_was_not_taken_is_told_and_how_far_a_tone_is_predicted(
    studio: Desk,
) -> None:
    furnished(studio)
    with Register.open(studio.path, clock=clock()) as register:
        new = register.read.by_code(Paper, "FB-2")
        assert new is not None
        hard = tuple(
            WedgeStep(tablet_md=1600 - 200 * place, tones=tones(density))
            for place, density in enumerate((60, 70, 90, 200, 800, 1700, 1950, 2000, 2020))
        )
        enter(register, wedge(new.id, grade="5", exposure_ms=14_000, steps=hard))
    words = ("reprint", "QUAY 7/25", "--paper", "FB-2")
    told = studio.run(*words).out
    assert "grade       2  [by the print's own tones on both papers]" in told
    assert "next best   5: densities off by 0." in told
    assert re.search(r"target      wall: 0.65 ± 0.0\d, predicted 0.6\d ± 0.0\d", told)
    assert "A sky   B wall   C hull" in told
    (data,) = studio.run(*words, "--json").data
    assert [one["grade"] for one in data["grades"]] == ["2", "5"]


def test_a_match_that_fails_at_one_spot_says_where_in_words_and_in_a_picture(
    studio: Desk, tmp_path: Path
) -> None:
    furnished(studio)
    with Register.open(studio.path, clock=clock()) as register:
        first = register.read.get(Print, studio.print).body
        later = enter(
            register, structs.replace(first, mark="Q99", designation=None, signature=None)
        )
        read = reading(later, {"sky": 120, "wall": 710, "hull": 1600})
        places = ((100, 100), (500, 500), (900, 900))
        patches = tuple(
            structs.replace(one, at=Point(across_permille=across, down_permille=down))
            for one, (across, down) in zip(read.patches, places, strict=True)
        )
        enter(register, structs.replace(read, patches=patches))
    told = studio.run("match", "QUAY Q99", "QUAY 7/25")
    assert "the prints differ at wall" in told.out
    inside = [row for row in told.out.splitlines() if row.startswith("│")]
    assert [row.strip("│ ") for row in inside if row.strip("│ ")] == ["a", "B", "c"]
    assert "a capital differs" in told.out
    words = ("--accept", "--by", "the artist", "--why", "the wall is better so")
    assert "accepted by the artist" in studio.run("match", "QUAY Q99", "QUAY 7/25", *words).err
    out = tmp_path / "match.pdf"
    assert "report: " in studio.run("match", "QUAY Q99", "QUAY 7/25", "--out", str(out)).err
    shown = subprocess.run([need("pdftotext"), str(out), "-"], capture_output=True, check=True)
    text = " ".join(shown.stdout.decode().split())
    assert "QUAY Q99 against QUAY 7/25 The prints differ, or were not read, at: wall." in text
    assert "accepted by the artist. the wall is better so" in text
    (data,) = studio.run("match", "QUAY Q99", "QUAY 7/25", "--json").data
    assert data["spots"][1]["at_permille"] == [500, 500]
    assert (
        "differs from QUAY 7/25 at wall; accepted (the artist)"
        in studio.run("show", "QUAY Q99").out
    )
