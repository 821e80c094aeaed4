"""Exposure plans, readings and matches on day sheets: everything a later print goes by."""

from pathlib import Path

import pytest

from provenance.model.matching import MatchReport
from provenance.model.printing import Printing
from provenance.model.quantities import Point
from provenance.model.readings import Reading
from provenance.studio.plain import plain_fields
from tests.studio.sheets import Desk, open_desk

PLAN = """\
[[printing]]
edition = "QUAY"
sheets = ["Q4"]
paper = "FB-1"
[printing.exposure]
base = "14 s"
grade = "2 1/2"
parts = [{ grade = "0", time = "8 s" }, { grade = "5", time = "6 s" }]
preflash = "1.5 s"
mask = "unsharp, 0.3"
aperture = "f/8"
enlarger = "the tall one"
head = "diffuse"
carrier = "glass"
lens = "105 mm"
magnification = "4.21"
crop = { left = "0 mm", top = "2 mm", size = "57.0 x 71.3 mm" }
emergence = "18 s"
burns = [{ area = "wall", stops = "+1/2", grade = "5", note = "card, from below", at = "30 62" }]
"""
READ = """\
[[reading]]
print = "QUAY Q1"
density = { sky = "0.12; 0.13", wall = "0.65" }
at = { sky = "30 12" }
[[reading]]
print = "QUAY Q2"
density = { sky = "0.12", wall = "0.71" }
"""
MATCH = """\
[[match]]
print = "QUAY Q2"
reference = "QUAY Q1"
accepted = false
by = "the artist"
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return open_desk(tmp_path)


def test_everything_of_an_exposure_is_recorded_and_told(desk: Desk) -> None:
    desk.enter(PLAN)
    with desk.folder.open() as register:
        body = register.read.all(Printing)[-1].body
    told = dict(plain_fields(body))
    expected = {
        "base": "14 s",
        "grade": "2 1/2",
        "at 0": "8 s",
        "at 5": "6 s",
        "pre-flash": "1.5 s",
        "burn": "wall: +1/2 stop at grade 5; card, from below; 30 % across, 62 % down",
        "mask": "unsharp, 0.3",
        "aperture": "f/8",
        "lens": "105 mm",
        "enlarger": "the tall one",
        "head": "diffuse",
        "carrier": "glass",
        "magnification": "4.21, measured",
        "crop": "5.70 × 7.13 cm of the negative, 0.0 cm from the left, 0.2 cm down",
        "first tone after": "18 s",
    }
    assert {name: told.get(name) for name in expected} == expected


def test_readings_know_their_place_and_a_match_says_where_it_fails(desk: Desk) -> None:
    done = desk.enter(READ + MATCH)
    assert "QUAY Q2 differs from QUAY Q1 at wall; not accepted" in done.entered
    with desk.folder.open() as register:
        sky, wall = register.read.all(Reading)[0].body.patches
        (match,) = register.read.all(MatchReport)
    assert (sky.at, wall.at) == (Point(across_permille=300, down_permille=120), None)
    assert (match.body.outcome, match.body.accepted) == ("differs", False)
    assert match.body.differs_at == ("wall",)


def test_the_studios_own_tolerances_decide_and_stay_with_the_match(desk: Desk) -> None:
    desk.folder.settings.write_text(
        "[match_tolerances]\nlight_density = 0.1\ndark_density = 0.1\nsource = 'own choice'\n"
    )
    desk.enter(READ + MATCH.replace("false", "true"))
    with desk.folder.open() as register:
        (match,) = register.read.all(MatchReport)
    assert (match.body.outcome, match.body.light_md) == ("matches", 100)
    assert match.body.tolerance_source.startswith("own choice")


@pytest.mark.parametrize(
    ("sheet", "field", "what"),
    [
        (READ.replace('"30 12"', '"30"'), "sky", "is no point of the image"),
        (READ.replace('"30 12"', '"30 120"'), "sky", "lies outside of the image"),
        (READ.replace("at = { sky", "at = { hull"), "hull", "has no reading"),
        (MATCH, "reading", "the tones of the new print are not on record"),
        (READ + MATCH.replace("Q2", "Q9"), "print", "Q9"),
    ],
)
def test_what_cannot_be_is_told_at_its_line(desk: Desk, sheet: str, field: str, what: str) -> None:
    problem, *_ = desk.refused(sheet)
    assert what in problem.what
    assert problem.field == field
    assert problem.line
