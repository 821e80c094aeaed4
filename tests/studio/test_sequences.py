"""Findings where they are told: of process sheets, of the demo studio, of a day's work."""

from collections import defaultdict
from datetime import UTC, datetime
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.prints import Print
from provenance.records.clock import SetClock
from provenance.resources import resource
from provenance.studio.browsing import name_of
from provenance.studio.demo import run_demo
from provenance.studio.folder import StudioFolder
from provenance.studio.print_view import view_print
from provenance.studio.processes import load_process
from provenance.studio.sequences import load_ground, load_rules, plan_findings
from tests.studio.sheets import Desk, open_desk, print_id

SHIPPED = sorted(path.stem for path in resource("templates", "process").glob("*.toml"))

UNWASHED = """\
[[treatment]]
sheets = ["QUAY Q1", "QUAY Q2"]
[[treatment.step]]
do = "fix"
bath = "fix-A"
time = "2 min"
[[treatment.step]]
do = "wash"
time = "5 min"
[[treatment.step]]
do = "bleach"
time = "1 min"
[[treatment.step]]
do = "rinse"
time = "2 min"
[[treatment.step]]
do = "sulfide"
time = "1 min"
[[treatment.step]]
do = "wash"
time = "60 min"
"""


@pytest.mark.parametrize("code", SHIPPED)
def test_the_process_sheets_that_come_along_trip_no_rule(code: str, tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    assert plan_findings(folder, load_process(folder, code)) == ()


def test_the_prints_of_the_demo_have_few_findings_and_true_ones(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "demo")
    clock = SetClock(datetime(2026, 11, 25, 12, 0, tzinfo=UTC))
    run_demo(folder, lambda _: None, clock=clock)
    found: dict[str, list[str]] = defaultdict(list)
    with folder.open(clock) as register:
        for held in register.read.all(Print):
            for finding in view_print(register.read, folder, held.id).findings:
                found[finding.case].append(name_of(register.read, held))
    assert found == {
        # torn on the evening of the short wash, and never washed again
        "Q7.wash": ["ROPE R7"],
        # the last of seven sheets in two litres kept to the limit for commercial work
        "Q10.silver": ["ROPE R7"],
        # the silver drop was forgotten until the sheets were toned
        "Q7.silver": ["SLIP BAT", "SLIP 1/15", "SLIP 2/15", "SLIP 3/15", "SLIP AP I/II"],
        # the notebook of 2014 says nothing of a stop bath, memory even less
        "Q1": ["QUAY 1/25", "QUAY 2/25", "QUAY 3/25", "QUAY AP I/III"],
    }


def test_a_day_sheet_warns_once_of_what_its_work_brought_about(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    recorded = desk.enter(UNWASHED)
    (warning,) = recorded.warnings
    assert warning.record == "QUAY Q1, QUAY Q2"
    assert warning.what.startswith(
        "Q2, error: 5 min of washing without washing aid between fix and bleach; fixer left"
    )
    assert warning.line is not None
    assert "60 min on fibre" in warning.mend


def test_what_was_found_before_is_not_warned_of_again(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    desk.enter(UNWASHED)
    more = '[[treatment]]\nsheets = ["QUAY Q1"]\n[[treatment.step]]\ndo = "wash"\ntime = "10 min"\n'
    assert desk.enter(more).warnings == ()


def test_a_process_sheet_of_ones_own_is_used_with_a_warning_at_its_line(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    own = _own_process(desk, "fix, bleach, rinse, sulfide, wash")
    (warning, *_) = desk.enter(
        '[[treatment]]\nsheets = ["QUAY Q1"]\nprocess = "own"\n[[treatment.step]]\ndo = "fix"\n'
    ).warnings
    assert (warning.record, warning.field, warning.line) == ("own", "process", 6)
    assert warning.what.startswith("Q2, error: no wash between fix and bleach")
    assert own.is_file()


def test_silver_past_the_limit_is_found_in_the_prints_that_met_it_and_no_others(
    tmp_path: Path,
) -> None:
    desk = open_desk(tmp_path)
    desk.enter('[[bath]]\ncode = "small"\nrole = "fix"\nvolume = "200 ml"\n')
    step = '[[treatment]]\nsheets = ["QUAY {}"]\n[[treatment.step]]\ndo = "fix"\nbath = "small"\n'
    desk.enter(step.format("Q1"))
    desk.enter(step.format("Q2"))
    with desk.folder.open() as register:
        cases = [
            [one.case for one in view_print(register.read, desk.folder, record).findings]
            for record in (print_id(register.read, "QUAY Q1"), print_id(register.read, "QUAY Q2"))
        ]
    assert cases == [[], ["Q10.silver"]]


def test_a_studio_may_have_words_of_its_own_and_is_told_when_they_are_not_whole(
    tmp_path: Path,
) -> None:
    desk = open_desk(tmp_path)
    own = desk.folder.path / "templates" / "data" / "rules.toml"
    own.parent.mkdir(parents=True)
    text = resource("templates", "data", "rules.toml").read_text(encoding="utf-8")
    own.write_text(text.replace("Mix the water cooler.", "Wait for winter."), encoding="utf-8")
    assert load_rules(desk.folder).case["Q19.warm"].do == "Wait for winter."
    own.write_text(text.replace("[case.Q13]", "[case.Q31]"), encoding="utf-8")
    with pytest.raises(Refused, match="case Q13 is missing"):
        load_ground(desk.folder)


def _own_process(desk: Desk, roles: str) -> Path:
    path = desk.folder.path / "templates" / "process" / "own.toml"
    path.parent.mkdir(parents=True)
    steps = "".join(
        f'[[step]]\nname = "{role}"\nrole = "{role}"\naim = "60 min"\n'
        for role in roles.split(", ")
    )
    path.write_text(f'code = "own"\nname = "Own"\nbase = "fibre"\n{steps}', encoding="utf-8")
    return path
