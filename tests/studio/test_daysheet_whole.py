"""A day sheet is entered whole or not at all; a rehearsal leaves nothing behind."""

from pathlib import Path

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.custody import CustodyEvent
from provenance.model.printing import Step
from provenance.model.prints import Print, Scan
from provenance.records.audit import audit
from provenance.records.dossier import print_history
from provenance.records.private import Contacts
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.folder import StudioFolder
from tests.studio.sheets import FIRST, Desk, draw, open_desk, print_id

FULL = """\
[[treatment]]
sheets = ["QUAY Q1"]
[[treatment.step]]
do = "fix"
bath = "fix-A"
time = "1 min"
[[number]]
edition = "QUAY"
sheets = ["Q1"]
first = "7"
[[sign]]
prints = ["QUAY 7/25"]
[[scan]]
print = "QUAY 7/25"
file = "scans/one.png"
[[release]]
prints = ["QUAY 7/25"]
to = "Somebody Particular"
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A studio with three sheets, and a scan beside the day sheets."""
    desk = open_desk(tmp_path)
    draw(tmp_path / "scans" / "one.png")
    return desk


def test_a_sheet_enters_everything_in_one_act(desk: Desk) -> None:
    before = desk.head()[0]
    done = desk.enter(FULL)
    assert done.act == before + 1
    assert desk.head()[0] == before + done.entries
    with desk.folder.open() as register:
        assert {entry.act for entry in register.read.act_entries(done.act)} == {done.act}
        held = register.read.get(Print, print_id(register.read, "QUAY 7/25"))
        (scan,) = register.read.linked(held.id, Scan, "print")
        (event,) = register.read.linked(held.id, CustodyEvent, "print")
    assert held.body.mark == "Q1"
    assert held.body.signature is not None
    assert (desk.folder.images / f"{scan.body.thumbnail_sha256}.jpg").is_file()
    assert event.body.party is not None
    assert Contacts(desk.folder.path).get(event.body.party).name == "Somebody Particular"
    assert not audit(desk.folder.path).findings


def test_a_rehearsal_says_the_same_and_writes_nothing(desk: Desk) -> None:
    head, files = desk.head(), desk.files()
    tried = desk.enter(FULL, rehearse=True)
    assert (desk.head(), desk.files()) == (head, files)
    assert tried.act == 0
    done = desk.enter(FULL)
    assert (tried.entered, tried.entries) == (done.entered, done.entries)


def test_one_mistake_at_the_end_keeps_everything_out(desk: Desk) -> None:
    head, files = desk.head(), desk.files()
    (problem,) = desk.refused(FULL + '[[release]]\nprints = ["QUAY 8/25"]\n')
    assert problem.line == 23
    assert (desk.head(), desk.files()) == (head, files)


def test_the_person_is_in_the_contact_book_only(desk: Desk) -> None:
    desk.enter(FULL)
    named = [
        path
        for path in desk.folder.path.rglob("*")
        if path.is_file() and b"Somebody Particular" in path.read_bytes()
    ]
    assert [path.parent.name for path in named] == ["contacts"]


def test_a_rehearsed_founding_makes_no_folder(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    tried = desk.enter(FIRST, rehearse=True)
    assert not desk.folder.path.exists()
    assert desk.enter(FIRST).entered == tried.entered


def test_a_first_sheet_with_a_mistake_founds_nothing(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    (problem,) = desk.refused(FIRST.replace('base = "fibre"', 'base = "fibre"\nsheet = "30"'))
    assert problem.line == 24
    assert not desk.folder.path.exists()


def test_the_heads_of_a_first_sheet_have_their_lines(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    (mark,) = desk.refused(FIRST.replace('mark = "DR"', 'mark = "dr"'))
    (who,) = desk.refused(FIRST.replace('who = "artist"', 'who = "@"'))
    assert (mark.line, mark.field, who.line, who.field) == (7, "mark", 3, "who")


def test_a_studio_alone_is_a_sheet(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.enter('[studio]\nname = "A"\nartist = "B"\nmark = "AB"\n')
    assert desk.head()[0] == 1


def test_a_founding_that_was_cut_off_goes_on(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    table = FIRST[FIRST.index("[studio]") : FIRST.index("[[negative]]")]
    desk.enter(table)
    desk.enter(FIRST)
    with desk.folder.open() as register:
        assert print_id(register.read, "QUAY Q1")
    (problem,) = desk.refused(FIRST)
    assert "there is a studio here already" in problem.what


def test_a_sheet_without_a_studio_says_how_to_begin(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    with pytest.raises(NotFound, match=r"add a \[studio\] table to the day sheet"):
        desk.enter('[[paper]]\ncode = "FB-1"\nbase = "fibre"\n')
    assert not desk.folder.path.exists()


@pytest.mark.parametrize(
    ("evening", "standing"),
    [("2031-05-04", "same-day notes"), ("2031-05-05", "entered later, from notes")],
)
def test_a_sheet_is_of_the_same_day_only_on_its_day(
    tmp_path: Path, evening: str, standing: str
) -> None:
    from provenance.craft.standing import step_standing

    desk = Desk(tmp_path, day=evening)
    desk.enter(FIRST + '[[printing.step]]\ndo = "fix"\nbath = "fix-A"\ntime = "1 min"\n')
    with desk.folder.open() as register:
        history = print_history(register.read, print_id(register.read, "QUAY Q2"))
    assert [step_standing(step).value for step in history.steps] == [standing]


@pytest.mark.parametrize(("reading", "parts"), [("parts", (100, 900)), ("total", (100, 800))])
def test_a_colon_is_read_once_the_studio_has_chosen(
    desk: Desk, reading: str, parts: tuple[int, ...]
) -> None:
    from provenance.model.chemistry import Bath

    sheet = '[[bath]]\ncode = "B"\nrole = "fix"\ndilution = "1:9"\n'
    assert "1+9 or as 1+8" in desk.refused(sheet)[0].what
    desk.folder.settings.write_text(f'colon_dilution = "{reading}"\n', encoding="utf-8")
    desk.enter(sheet)
    with desk.folder.open() as register:
        bath = register.read.by_code(Bath, "B")
    assert bath is not None
    assert bath.body.dilution is not None
    assert (bath.body.dilution.parts_hundredths, bath.body.dilution.typed) == (parts, "1:9")


def test_sheets_of_two_systems_are_read(desk: Desk) -> None:
    path = desk.write('[[paper]]\ncode = "FB-2"\nbase = "fibre"\nmaker = "e\u0301tiquette"\n')
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    record_day_sheet(desk.folder, path, clock=desk.evening())
    wrong = path.with_name("wrong.toml")
    wrong.write_bytes(path.read_bytes().replace(b"FB-2", b"FB-3").replace(b"maker", b"makr"))
    with pytest.raises(Refused, match=r"line 7 paper 1 makr: .*perhaps maker"):
        record_day_sheet(desk.folder, wrong, clock=desk.evening())


def test_steps_of_a_second_sheet_come_after_those_of_the_first(desk: Desk) -> None:
    step = '[[treatment]]\nsheets = ["QUAY Q1"]\n[[treatment.step]]\ndo = "wash"\ntime = "{} min"\n'
    for minutes in (5, 10, 15):
        desk.enter(step.format(minutes))
    with desk.folder.open() as register:
        history = print_history(register.read, print_id(register.read, "QUAY Q1"))
        steps = register.read.all(Step)
    assert [fact.body.duration_ms for fact in history.steps] == [300_000, 600_000, 900_000]
    assert [one.body.place for one in steps] == [1, 2, 3]


def test_a_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    sheet = desk.write(FIRST)
    with pytest.raises(Refused):
        record_day_sheet(StudioFolder(sheet), sheet, clock=desk.evening())
