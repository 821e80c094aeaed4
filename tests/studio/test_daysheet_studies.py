"""Finishes, studies and the fuller tests of a day sheet, and what is told of mistakes in them."""

from pathlib import Path

import pytest

from provenance.model.finish import Finish
from provenance.model.proof import Test
from provenance.model.study import SpotCalibration, ToningStudy, WashStudy
from provenance.records.audit import audit
from provenance.records.dossier import print_history
from provenance.records.register import Register
from tests.studio.sheets import Desk, draw, open_desk, print_id

STUDIES = """
[[wash_study]]
code = "WASH-1"
paper = "FB-1"
aid = true
method = "methylene blue"
readings = '''
washed,left
0 min,180 µg/cm²
5 min,22 µg/cm²
1 h,0.01 g/m²
'''
[[toning_study]]
code = "TONE-1"
paper = "FB-1"
process = "fibre-split-toned"
bleach = "oxidising bleach"
paper_density = "0.06"
patches = ["0.26: 0.21", "1.86: 1.33"]
[[calibration]]
code = "SPOT-1"
paper = "FB-1"
method = "silver-nitrate spot"
contact = "2 min"
points = ["0.02: 0.2 µg/cm²", "0.06: 0.6 µg/cm²", "0.12: 1.3 µg/cm²"]
"""
FAILED = """
[[treatment]]
sheets = ["QUAY Q1"]
[[treatment.step]]
do = "fix"
bath = "fix-A"
[[treatment.step]]
do = "wash"
time = "20 min"
[[treatment.step]]
test = "thiosulfate"
method = "silver-nitrate spot"
specimen = "companion strip"
contact = "2 min"
verdict = "failed"
[[treatment.step]]
do = "wash"
time = "1 h"
[[treatment.step]]
test = "thiosulfate"
method = "silver-nitrate spot"
specimen = "companion strip"
contact = "2 min"
darker = "0.05"
calibration = "SPOT-1"
verdict = "passed"
kept_at = "box 4"
photograph = "spot.jpg"
"""
FINISH = """
[[finish]]
prints = ["QUAY Q1"]
drying = "on screens"
spotting = "none"
mount = ""
condition = "no marks in raking light"
[[finish.inscription]]
text = "7/25"
where = "verso"
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A studio with three prints."""
    return open_desk(tmp_path)


def opened(desk: Desk) -> Register:
    """The studio's register."""
    return desk.folder.open()


def test_studies_are_entered(desk: Desk) -> None:
    desk.enter(STUDIES)
    with opened(desk) as register:
        (wash,) = register.read.all(WashStudy)
        (tone,) = register.read.all(ToningStudy)
        (spot,) = register.read.all(SpotCalibration)
    assert [one.left_ng_per_cm2 for one in wash.body.readings] == [180_000, 22_000, 1_000]
    assert [(one.before_md, one.after_md) for one in tone.body.patches] == [
        (260, 210),
        (1860, 1330),
    ]
    assert tone.body.process is not None
    assert [one.found_ng_per_cm2 for one in spot.body.points] == [200, 600, 1300]
    assert spot.body.reckoned_as == "ion"


def test_a_repeat_is_linked_to_what_failed_and_keeps_its_picture(desk: Desk) -> None:
    draw(desk.path / "spot.jpg")
    desk.enter(STUDIES + FAILED)
    with opened(desk) as register:
        failed, passed = register.read.all(Test)
        history = print_history(register.read, print_id(register.read, "QUAY Q1"))
    assert (failed.body.repeats, passed.body.repeats) == (None, failed.id)
    assert (passed.body.darker_md, passed.body.kept_at) == (50, "box 4")
    (kept,) = passed.body.attached
    assert (desk.folder.images / kept.kept_name).is_file()
    assert [one.body.code for one in history.calibrations] == ["SPOT-1"]
    assert not audit(desk.folder.path).findings


def test_a_kept_file_that_is_lost_is_told(desk: Desk) -> None:
    (desk.path / "report.pdf").write_bytes(b"%PDF-1.7 0.9")
    desk.enter(STUDIES + FAILED.replace('photograph = "spot.jpg"', 'report = "report.pdf"'))
    (kept,) = desk.folder.images.glob("*.pdf")
    assert kept.read_bytes() == b"%PDF-1.7 0.9"
    kept.unlink()
    (found,) = audit(desk.folder.path).findings
    with opened(desk) as register:
        record = register.read.all(Test)[-1].id
    assert (found.what, found.record) == (f"images/{kept.name} is missing", f"test #{record}")


def test_a_report_that_is_neither_pdf_nor_picture_is_refused(desk: Desk) -> None:
    (desk.path / "report.txt").write_text("0.9")
    (told,) = desk.refused(
        STUDIES + FAILED.replace('photograph = "spot.jpg"', 'report = "report.txt"')
    )
    assert "is not a TIFF, JPEG or PNG picture" in told.what
    assert told.field == "report"


def test_a_finish_is_entered_and_another_is_like_it(desk: Desk) -> None:
    desk.enter(FINISH)
    desk.enter('[[finish]]\nprints = ["QUAY Q2"]\nlike = "QUAY Q1"\nspotting = "dye"\n')
    with opened(desk) as register:
        first, second = (one.body for one in register.read.all(Finish))
    assert (first.drying, first.spotting, first.mount, first.trimmed) == (
        "on screens",
        "none",
        "",
        None,
    )
    assert first.inscriptions is not None
    assert first.inscriptions[0].where == "verso"
    assert first.condition is not None
    assert (second.drying, second.spotting, second.mount) == ("on screens", "dye", "")
    assert (second.inscriptions, second.condition) == (None, None)


def test_a_limit_of_the_studio_is_written_out(desk: Desk) -> None:
    desk.folder.settings.write_text(
        '[residual_limits.house]\nquestion = "thiosulfate"\namount = "0.8 µg/cm²"\n'
        'reckoned_as = "ion"\nsource = "own choice"\n',
        encoding="utf-8",
    )
    sheet = """
[[treatment]]
sheets = ["QUAY Q1"]
[[treatment.step]]
test = "thiosulfate"
method = "methylene blue"
specimen = "companion sheet"
measured = "0.7 µg/cm²"
reckoned_as = "ion"
limit = "house"
verdict = "passed"
"""
    desk.enter(sheet)
    with opened(desk) as register:
        (held,) = register.read.all(Test)
    assert held.body.criterion == "house, 0.8 µg/cm² as ion"
    assert held.body.criterion_source == "own choice"
    for wrong, words in (
        (("0.7", "0.9"), "is 1.1 times the limit house, and cannot have passed"),
        (('reckoned_as = "ion"', ""), "does not say what thiosulfate is reckoned as"),
        (('"house"', '"strict"'), "the studio has no limit 'strict'"),
        (('verdict = "passed"', 'verdict = "passed"\ncriterion = "x"'), "says a limit twice"),
    ):
        (told,) = desk.refused(sheet.replace(*wrong))
        assert words in told.what


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (('"0.26: 0.21"', '"-0.26: 0.21"'), "“-0.26” is no density of a print"),
        (('"0.26: 0.21"', '"0.26"'), "“0.26” is not two readings"),
        (('"0.26: 0.21"', '"0.26: 0.31"'), "would be more than 100 %"),
        (('"0.02: 0.2 µg/cm²", "0.06: 0.6 µg/cm²", ', ""), "one spot or none is no scale"),
        (("22 µg/cm²", "22"), "“22” is no mass per area"),
        (('darker = "0.05"', 'darker = "-0.05"'), "“-0.05” is no density of a print"),
        (('"SPOT-1"\nverdict', '"SPOT-9"\nverdict'), "there is no spot-calibration SPOT-9"),
        (('specimen = "companion strip"\ncontact', "contact"), "is missing"),
    ],
)
def test_mistakes_are_told(desk: Desk, wrong: tuple[str, str], words: str) -> None:
    draw(desk.path / "spot.jpg")
    told = desk.refused((STUDIES + FAILED).replace(*wrong))
    assert words in told[0].what
    assert told[0].line is not None


def test_a_finish_like_one_that_is_not_on_record_is_refused(desk: Desk) -> None:
    (told,) = desk.refused('[[finish]]\nprints = ["QUAY Q2"]\nlike = "QUAY Q1"\n')
    assert (told.what, told.field) == ("has no finish on record", "like")
