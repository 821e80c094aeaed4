"""Wedges and readings from day sheets, and from an instrument's table."""

from pathlib import Path

import pytest

from provenance.errors import Problem, Refused
from provenance.model.printing import Printing
from provenance.model.quantities import Point
from provenance.model.readings import Reading, Wedge
from provenance.studio.readings_table import import_readings
from provenance.studio.settings import Settings
from tests.studio.sheets import FIRST, Desk

EXPOSED = """\
[[printing]]
edition = "QUAY"
sheets = ["Q4"]
[printing.exposure]
grade = "split"
parts = [{ grade = "0", time = "8 s" }, { grade = "5", time = "6.5 s" }]
preflash = "1.2 s"
mask = "unsharp"
aperture = "f/8"
head = "diffuse"
carrier = "glass"
magnification = "4.2105x"
crop = { left = "1.5 mm", top = "2 mm", size = "57 x 71 mm" }
burns = [{ area = "sky", stops = "+1/2", grade = "0", note = "card" }]
emergence = "18 s"
"""
WEDGE = """\
[[wedge]]
paper = "FB-1"
tablet = "T"
exposure = "10 s"
readings = '''
tablet;density;density
unexposed;0,05;0,05
1.5;0,06;0,07
1.2;0,20;0,20
0.9;0,60;0,61
0.6;1,20;1,20
0.3;1,80;1,79
full;2,05
'''
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    held = Desk(tmp_path)
    held.enter(FIRST)
    return held


def test_an_exposure_holds_what_a_reprint_needs(desk: Desk) -> None:
    desk.enter(EXPOSED)
    with desk.folder.open() as register:
        exposure = register.read.all(Printing)[-1].body.exposure
    assert exposure is not None
    assert exposure.base_exposures_ms == {"0": 8_000, "5": 6_500}
    assert exposure.magnification_thousandth in (4_210, 4_211)
    assert (exposure.magnification_from, exposure.head) == ("measured", "diffuse")
    assert exposure.crop is not None
    assert exposure.crop.size.width_tenth_mm == 710
    assert exposure.burns[0].note == "card"
    assert (exposure.preflash_ms, exposure.emergence_ms) == (1_200, 18_000)


def test_a_wedge_keeps_the_densities_of_its_tablet(desk: Desk) -> None:
    desk.enter(WEDGE)
    with desk.folder.open() as register:
        (wedge,) = register.read.all(Wedge)
    assert [step.tablet_md for step in wedge.body.steps] == [1500, 1200, 900, 600, 300]
    assert [tone.density_md for tone in wedge.body.steps[2].tones] == [600, 610]
    assert wedge.body.exposure_ms == 10_000


@pytest.mark.parametrize(
    ("written", "instead", "field", "said"),
    [
        ("full;2,05", "", "readings", "fully exposed patch was not read"),
        ("0.9;0,60;0,61", "0.9;grey", "readings", "grey"),
        ('tablet = "T"', 'tablet = " "', "tablet", "empty"),
        ('"10 s"', '"10"', "exposure", "10"),
        ('"FB-1"', '"FB-9"', "paper", "FB-9"),
        ("tablet;density", "log_h;density", "readings", "log H"),
    ],
)
def test_a_wedge_that_makes_no_curve_is_refused(
    desk: Desk, written: str, instead: str, field: str, said: str
) -> None:
    problems = desk.refused(WEDGE.replace(written, instead))
    assert (problems[0].field, said in problems[0].what) == (field, True), problems


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ('density = { sky = "grey" }', "grey"),
        ('density = { sky = "9.1" }', "no density"),
        ('lab = { sky = "50 0" }', "not a Lab"),
        ('lab = { sky = "150 0 0" }', "outside of Lab"),
        ("density = {}", "holds no spot"),
        ('on = "1997"\ndensity = { sky = "0.1" }', "printed on"),
    ],
)
def test_a_reading_that_is_none_is_refused(desk: Desk, fields: str, said: str) -> None:
    problems = desk.refused(f'[[reading]]\nprint = "QUAY Q1"\n{fields}\n')
    assert any(said in one.what for one in problems), problems


def imported(
    desk: Desk, table: str, *, rehearse: bool = False, mapping: dict[str, str] | None = None
) -> tuple[str, ...]:
    path = desk.path / "spots.csv"
    path.write_text(table, encoding="utf-8")
    with desk.folder.open(desk.evening()) as register:
        return import_readings(
            register,
            desk.folder,
            path,
            mapping=mapping or {},
            fixed={"print": "QUAY Q1", "instrument": "spectro"},
            source="notes",
            settings=Settings(),
            rehearse=rehearse,
        ).entered


def test_the_mapping_is_told_before_it_is_used(desk: Desk) -> None:
    table = "SAMPLE_NAME;LAB_L;LAB_A;LAB_B;QC\nsky;89,1;0,4;3,2;ok\nsky;89,3;0,4;3,2;ok\n"
    told = imported(desk, table, rehearse=True)
    assert told[:5] == (
        "column “SAMPLE_NAME” is spot",
        "column “LAB_L” is lightness",
        "column “LAB_A” is a",
        "column “LAB_B” is b",
        "column “QC” is left out",
    )
    with desk.folder.open() as register:
        assert not register.read.all(Reading)
    assert imported(desk, table) == told
    with desk.folder.open() as register:
        (reading,) = register.read.all(Reading)
    (patch,) = reading.body.patches
    assert [tone.lab.lightness_hundredth for tone in patch.tones if tone.lab] == [8910, 8930]
    assert reading.body.how.instrument == "spectro"


def test_a_column_is_what_it_was_mapped_to(desk: Desk) -> None:
    imported(desk, "where,D,K\nsky,0.2,0.12\n", mapping={"where": "spot", "K": "density", "D": ""})
    with desk.folder.open() as register:
        (reading,) = register.read.all(Reading)
    assert reading.body.patches[0].tones[0].density_md == 120


def test_where_a_spot_lies_comes_with_its_reading(desk: Desk) -> None:
    imported(desk, "spot,D,across,down\nsky,0.2,30,12.5\nwall,0.6,,\n")
    with desk.folder.open() as register:
        (reading,) = register.read.all(Reading)
    sky, wall = reading.body.patches
    assert sky.at == Point(across_permille=300, down_permille=125)
    assert wall.at is None


@pytest.mark.parametrize(
    ("table", "mapping", "expected"),
    [
        ("where,D\nsky,0.2\n", {}, ("spot", 1)),
        ("spot,D\nsky,0.2\n", {"E": "density"}, ("E", 1)),
        ("spot,D\nsky,0.2\n", {"D": "colour"}, ("colour", None)),
        ("spot,D\nsky,0.2\nwall,\n", {}, ("density", 3)),
        ("spot,D\nsky,0.2\nwall,black\n", {}, ("D", 3)),
        ("spot,D,density\nsky,0.2,0.3\n", {}, ("density", 1)),
        ("spot,D,across\nsky,0.2,30\n", {}, ("across", 2)),
    ],
)
def test_mistakes_are_told_by_row_and_column(
    desk: Desk, table: str, mapping: dict[str, str], expected: tuple[str, int | None]
) -> None:
    with pytest.raises(Refused) as refused:
        imported(desk, table, mapping=mapping)
    found: list[Problem] = list(refused.value.problems)
    assert expected in [(one.field, one.line) for one in found]
