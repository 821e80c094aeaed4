"""Process sheets: the two that come along, a studio's own, and wrong ones."""

from pathlib import Path

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.chemistry import TONING
from provenance.model.process import ProcessSheet
from provenance.resources import resource
from provenance.studio.processes import read_process, use_process
from tests.studio.sheets import open_desk

SHIPPED = sorted(path.stem for path in resource("templates", "process").glob("*.toml"))

SHEET = """\
code = "own"
name = "A plan of one's own"
base = "fibre"

[[step]]
name = "fix"
role = "fix"
aim = "2 min"
"""


def shipped(code: str) -> ProcessSheet:
    """A process sheet that comes with the program."""
    path = resource("templates", "process", f"{code}.toml")
    return read_process(path.read_text("utf-8"), name=path.name)


def test_there_is_one_for_fibre_and_one_for_resin_coated_paper() -> None:
    assert shipped("fibre-split-toned").base == "fibre"
    assert shipped("resin-coated").base == "resin-coated"


@pytest.mark.parametrize("code", SHIPPED)
def test_each_is_named_like_its_file_and_asks_both_questions_in_their_place(code: str) -> None:
    sheet = shipped(code)
    assert sheet.code == code
    asked = [step.test for step in sheet.steps if step.test]
    assert asked == ["silver", "thiosulfate"]
    assert sheet.steps[-1].test == "thiosulfate"
    silver = next(place for place, step in enumerate(sheet.steps) if step.test == "silver")
    before = [step.role for step in sheet.steps[:silver]]
    after = [step.role for step in sheet.steps[silver:]]
    assert before.index("fix") < before.index("wash")
    assert not TONING & set(before)
    assert "fix" not in after


@pytest.mark.parametrize("code", SHIPPED)
def test_a_register_takes_it_and_keeps_it_once(code: str, tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    with desk.folder.open(desk.evening()) as register:
        for _ in range(2):
            with register.act("printer") as act:
                record, sheet = use_process(act, desk.folder, code)
        assert register.read.get(ProcessSheet, record).body == sheet
        assert len(register.read.versions(record)) == 1


def test_a_studios_own_sheet_comes_first_and_its_change_is_kept(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    own = desk.folder.path / "templates" / "process" / "resin-coated.toml"
    own.parent.mkdir(parents=True)
    text = SHEET.replace('"own"', '"resin-coated"')
    with desk.folder.open(desk.evening()) as register:
        for aim in ("2 min", "90 s"):
            own.write_text(text.replace("2 min", aim), encoding="utf-8")
            with register.act("printer") as act:
                record, _ = use_process(act, desk.folder, "resin-coated")
        bodies = [version.body for version in register.read.versions(record)]
    aims = [
        body.steps[0].aim.time_ms
        for body in bodies
        if isinstance(body, ProcessSheet) and body.steps[0].aim
    ]
    assert aims == [120_000, 90_000]


def test_an_unknown_one_is_refused_with_those_there_are(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    with (
        desk.folder.open() as register,
        pytest.raises(NotFound, match=f"there are: {', '.join(SHIPPED)};"),
        register.act("printer") as act,
    ):
        use_process(act, desk.folder, "fibre")


@pytest.mark.parametrize(
    ("wrong", "line", "told"),
    [
        (('aim = "2 min"', 'aim = "2"'), 8, "has no unit"),
        (('aim = "2 min"', 'aim = "2 min"\nleast = "soon"'), 9, "soon"),
        (('role = "fix"', 'role = "fixer"'), 7, "is none of the words there are"),
        (('base = "fibre"', 'base = "glass"'), 3, "write one of: fibre, resin-coated"),
        (('name = "fix"\n', ""), 5, "is missing"),
        (('aim = "2 min"', 'temperature = "20"'), 8, "is not a temperature"),
        (('aim = "2 min"', 'time = "2 min"'), 8, "is not known here"),
        (('aim = "2 min"', "aim = 2 min"), 8, "this is not TOML"),
    ],
)
def test_a_wrong_one_is_refused_with_its_line(wrong: tuple[str, str], line: int, told: str) -> None:
    with pytest.raises(Refused) as caught:
        read_process(SHEET.replace(*wrong), name="own.toml")
    (problem,) = caught.value.problems
    assert problem.line == line
    assert told in str(problem)


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (('aim = "2 min"', 'aim = "2 min"\nleast = "3 min"'), "lies outside its own limits"),
        (('role = "fix"\n', ""), "needs either a bath's role or a test"),
    ],
)
def test_what_cannot_be_followed_is_refused_at_the_door(
    tmp_path: Path, wrong: tuple[str, str], told: str
) -> None:
    desk = open_desk(tmp_path)
    own = desk.folder.path / "templates" / "process" / "own.toml"
    own.parent.mkdir(parents=True)
    own.write_text(SHEET.replace(*wrong), encoding="utf-8")
    with (
        desk.folder.open() as register,
        pytest.raises(Refused, match=told),
        register.act("printer") as act,
    ):
        use_process(act, desk.folder, "own")
