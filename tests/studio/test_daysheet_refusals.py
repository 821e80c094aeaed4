"""What a day sheet refuses, at which line, in which words."""

from pathlib import Path

import pytest

from provenance.errors import Problem
from tests.studio.sheets import Desk, draw, open_desk

PRINTING = '[[printing]]\nedition = "QUAY"\nsheets = ["Q7", "Q8"]\n'
STEP = PRINTING + "[[printing.step]]\n"
PLANNED = PRINTING + 'process = "fibre-split-toned"\nas_planned = true\n'
SPOT = 'method = "sulfide spot"\nspecimen = "border"\nverdict = "passed"\n'


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """A studio whose sheets Q1 and Q2 are 3/25 and 4/25; nothing here enters anything more."""
    desk = open_desk(tmp_path_factory.mktemp("desk"))
    desk.enter('[[number]]\nedition = "QUAY"\nsheets = ["Q1", "Q2"]\nfirst = "3/25"\n')
    return desk


REFUSALS = {
    # spelling and kinds
    "unknown field": (
        PRINTING + 'papr = "FB-1"\n',
        "line 7 printing 1 papr: is not known here; perhaps paper;",
    ),
    "unknown table": ('[[print]]\nmark = "Q7"\n', "line 4 print: is not known here;"),
    "unknown word": (STEP + 'do = "fixer"\n', "line 8 printing 1 step 1 do: “fixer” is none"),
    "text for a number": (
        '[[edition]]\ncode = "A"\nnegative = "N-1"\nname = "A"\npromise = "Ten"\n'
        'numbered = "10"\nimage = "3 x 2 cm"\nsheet = "3 x 2 cm"\n',
        "line 9 edition 1 numbered: holds text, where a whole number belongs",
    ),
    "a number for text": (
        '[[negative]]\ncode = "N-2"\ntitle = "A"\nmade = 1998\n',
        "line 7 negative 1 made: holds a whole number, where text belongs; put it in quotes",
    ),
    "less than none": (
        '[[edition]]\ncode = "A"\nnegative = "N-1"\nname = "A"\npromise = "Ten"\n'
        'numbered = -1\nimage = "3 x 2 cm"\nsheet = "3 x 2 cm"\n',
        "line 9 edition 1 numbered: is -1, not a whole number of at least 0",
    ),
    "one sheet that is no text": (
        '[[printing]]\nedition = "QUAY"\nsheets = [\n  "Q7",\n  8,\n]\n',
        'line 8 printing 1 sheets: holds a whole number, where text belongs; put it in quotes: "8"',
    ),
    "no list": (
        '[[printing]]\nedition = "QUAY"\nsheets = "Q7"\n',
        'line 6 printing 1 sheets: holds text, where a list belongs; write it in brackets: ["Q7"]',
    ),
    "no sheets": ('[[printing]]\nedition = "QUAY"\nsheets = []\n', "sheets: is empty"),
    "one table where many belong": (
        '[paper]\ncode = "FB-2"\nbase = "fibre"\n',
        "line 4 paper: is not a list of tables; write it as [[paper]]",
    ),
    "missing": ('[[paper]]\ncode = "FB-2"\n', "line 4 paper 1 base: is missing; add it"),
    "true in quotes": (
        '[[bath]]\ncode = "B"\nrole = "fix"\none_shot = "yes"\n',
        "line 7 bath 1 one_shot: holds text, where true or false belongs",
    ),
    "not a person's word": (
        f'[day]\ndate = 2031-06-01\nwho = "a@b"\n{PRINTING}',
        "line 3 day who: 'a@b' does not say who did it",
    ),
    "logged by hand": (
        f'[day]\ndate = 2031-06-01\nfrom = "run"\n{PRINTING}',
        "line 3 day from: “run” is none of the words there are; write one of: notes, memory",
    ),
    # TOML itself
    "no such day": (
        f"[day]\ndate = 2026-02-30\n{PRINTING}",
        "line 2 sheet.toml: this is not TOML: invalid date or datetime",
    ),
    "a month without quotes": (
        '[[negative]]\ncode = "N-2"\ntitle = "A"\nmade = 1998-03\n',
        "line 7 sheet.toml: this is not TOML: expected newline or end of document"
        " after a statement;"
        ' a date that is no whole day goes in quotes: "1998-03"',
    ),
    "an open quote": (
        '[[negative]]\ncode = "N-2\n',
        "line 5 sheet.toml: this is not TOML:",
    ),
    # dates and quantities
    "no such day, quoted": (
        f'[day]\ndate = "2026-02-30"\n{PRINTING}',
        "line 2 day date: “2026-02-30” is not a date: February 2026 has 28 days",
    ),
    "a day to come": (
        f"[day]\ndate = 2031-06-02\n{PRINTING}",
        "line 2 day date: 2031-06-02 is still to come (today is 2031-06-01); check the date",
    ),
    "circa": (
        '[[negative]]\ncode = "N-2"\ntitle = "A"\nmade = "ca. 1998"\n',
        "line 7 negative 1 made: “ca. 1998” is not a date: "
        "the form is year, year-month or year-month-day; write 1998~ for “about 1998”",
    ),
    "a colon": (
        '[[bath]]\ncode = "B"\nrole = "fix"\ndilution = "1:9"\n',
        "line 7 bath 1 dilution: “1:9” can be read as 1+9 or as 1+8; write it with a plus, or "
        'choose the reading in settings.toml: colon_dilution = "parts" takes 1:9 for 1+9, '
        '"total" for 1+8',
    ),
    "a percentage": (
        '[[bath]]\ncode = "B"\nrole = "fix"\ndilution = "10 %"\n',
        "line 7 bath 1 dilution: “10 %” is not a dilution",
    ),
    "a time without a unit": (
        STEP + 'do = "fix"\ntime = "2"\n',
        "line 9 printing 1 step 1 time: “2” has no unit: 2 s or 2 min",
    ),
    "a time of day": (
        STEP + 'do = "fix"\nstart = "9:5"\n',
        "line 9 printing 1 step 1 start: '9:5' is not a time of day",
    ),
    "a temperature without a scale": (
        STEP + 'do = "fix"\ntemperature = "20"\n',
        "line 9 printing 1 step 1 temperature: “20” is not a temperature",
    ),
    "a burn inside a list": (
        PRINTING + 'exposure = { burns = [\n  { area = "a", stops = "+1" },\n'
        '  { area = "b", stops = "much" },\n] }\n',
        "line 9 printing 1 exposure burns 2 stops: “much” is not a number",
    ),
    "a bare figure of a laboratory": (
        STEP + 'test = "thiosulfate"\nmethod = "laboratory analysis"\nspecimen = "print"\n'
        'measured = "0.9"\nverdict = "passed"\n',
        "line 11 printing 1 step 1 measured: “0.9” is not an amount per area; as 0.9 µg/cm²",
    ),
    # what is named
    "unknown edition": (
        '[[printing]]\nedition = "QUAI"\nsheets = ["Q7"]\n',
        "line 5 printing 1 edition: there is no edition QUAI; on record are: QUAY",
    ),
    "unknown paper": (
        PRINTING + 'paper = "FB-9"\n',
        "line 7 printing 1 paper: there is no paper FB-9; on record are: FB-1",
    ),
    "unknown bath": (
        STEP + 'do = "fix"\nbath = "fix-Z"\n',
        "line 9 printing 1 step 1 bath: there is no bath fix-Z; on record are: fix-A",
    ),
    "unknown process": (
        PRINTING + 'process = "fibre"\n',
        "line 7 printing 1 process: there is no process sheet fibre; there are: ",
    ),
    "unknown print": (
        '[[sign]]\nprints = ["QUAY 9/25"]\n',
        "line 5 sign 1 prints: there is no such print: QUAY 9/25; name it by number",
    ),
    "a sheet that is not in hand": (
        STEP + 'do = "fix"\nown = { Q9 = "2 min" }\n',
        "line 9 printing 1 step 1 own: Q9 is not among the sheets in hand; they are: Q7, Q8",
    ),
    "a code twice": (
        '[[paper]]\ncode = "FB-1"\nbase = "fibre"\n',
        "line 5 paper FB-1 code: the code is taken by #4",
    ),
    "a mark twice": (
        '[[printing]]\nedition = "QUAY"\nsheets = ["Q1"]\n',
        "line 6 QUAY Q1 sheets: the mark Q1 is on the back of print #7",
    ),
    "a second studio": (
        '[studio]\nname = "B"\nartist = "B"\nmark = "BB"\n',
        "line 4 studio: there is a studio here already; take the [studio] table out",
    ),
    # the rules of editions and of work
    "past the edition": (
        '[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "26"\n',
        "line 7 number 1 first: 26 is more than the 25 of edition QUAY",
    ),
    "another total": (
        '[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "5/30"\n',
        "line 7 number 1 first: 5/30 says 30; QUAY declares 25",
    ),
    "none of that kind": (
        '[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "PP I"\n',
        "line 7 QUAY PP I first: PP I is outside the edition, which declares none of that kind",
    ),
    "taken": (
        '[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "4/25"\n',
        "line 7 QUAY 4/25 first: 4/25 is taken by the print marked Q2",
    ),
    "signed without a number": (
        '[[sign]]\nprints = ["QUAY Q3"]\n',
        "line 5 QUAY Q3 prints: it has no number yet; number it first",
    ),
    "a sheet smaller than the image": (
        PRINTING + 'sheet = "20.3 x 25.4 cm"\n',
        "line 7 QUAY Q7 sheet: the sheet is smaller than the image",
    ),
    "an edition's sheet turned round": (
        '[[edition]]\ncode = "A"\nnegative = "N-1"\nname = "A"\npromise = "Ten"\n'
        'numbered = 10\nimage = "30 x 24 cm"\nsheet = "24 x 30 cm"\n',
        "line 11 edition A sheet: the sheet is smaller than the image; "
        "sizes are height x width; turn the sheet's size round",
    ),
    "printed before the negative": (
        '[day]\ndate = "1990"\n' + PRINTING,
        "printing 1 date: printed on 1990 from a negative made 1998~; check both dates",
    ),
    "a bath of another kind": (
        STEP + 'do = "stop"\nbath = "fix-A"\n',
        "line 9 printing 1 step 1 bath: bath fix-A is for fix, the step is stop",
    ),
    "a bath not made yet": (
        "[day]\ndate = 2031-05-01\n" + STEP + 'do = "fix"\nbath = "fix-A"\n',
        "line 8 printing 1 step 1 bath: bath fix-A was made on 2031-05-03, after the step",
    ),
    "a test that cannot tell": (
        STEP + 'test = "thiosulfate"\n' + SPOT,
        "line 9 printing 1 step 1 method: sulfide spot does not test for residual thiosulfate",
    ),
    "a test without its verdict": (
        STEP + 'test = "silver"\nmethod = "sulfide spot"\nspecimen = "border"\n',
        "printing 1 step 1 verdict: is missing; a test needs it",
    ),
    "a bath and a test at once": (
        STEP + 'do = "fix"\ntest = "silver"\n' + SPOT,
        "printing 1 step 1: says neither or both of `do` and `test`",
    ),
    "a bath's field in a test": (
        STEP + 'test = "silver"\ntime = "3 min"\n' + SPOT,
        "line 9 printing 1 step 1 time: belongs to a step with `do`; move it",
    ),
    "read before the drop was done": (
        STEP + 'test = "silver"\ncontact = "3 min"\nread = "2 min"\n' + SPOT,
        "line 10 printing 1 step 1 read: it was read before the contact time was over",
    ),
    "out twice": (
        '[[release]]\nprints = ["QUAY 3/25"]\n[[release]]\nprints = ["QUAY 3/25"]\n',
        "line 7 QUAY 3/25 prints: it left the studio on 2031-06-01 (#12) already",
    ),
    "gone and there": (
        '[[gone]]\nprint = "QUAY 3/25"\nhow = "exists"\nwhy = "found"\n',
        "line 6 gone 1 how: “exists” is none of the words there are",
    ),
    "gone before it was made": (
        '[[gone]]\nprint = "QUAY 3/25"\nhow = "lost"\non = "2030"\nwhy = "?"\n',
        "line 7 QUAY 3/25 on: lost on 2030, before it was made on 2031-05-04",
    ),
    # plans
    "no plan": (
        PRINTING + "as_planned = true\n",
        "line 7 printing 1 as_planned: no plan says what was done as planned",
    ),
    "baths of no plan": (
        PRINTING + 'baths = { fix = "fix-A" }\n',
        "line 7 printing 1 baths: says which bath stood for which planned step, "
        "but nothing was as planned; add as_planned = true",
    ),
    "a bath for a step that is not planned": (
        PLANNED + 'baths = { fixing = "fix-A" }\n',
        "line 9 printing 1 baths fixing: the process sheet has no step 'fixing' with a bath",
    ),
    "one of two alike": (
        PLANNED + '[[printing.step]]\ndo = "fix"\ntime = "90 s"\n',
        "line 10 printing 1 step 1 do: the plan has more than one step of fix; "
        'say which it was: name = "fix one" or name = "fix two"',
    ),
    "after nothing": (
        PLANNED + '[[printing.step]]\ndo = "gold"\nafter = "slenium"\n',
        "line 11 printing 1 step 1 after: the plan has no step 'slenium'; its steps are: developer",
    ),
    "not in the plan": (
        PLANNED + '[[printing.step]]\ndo = "gold"\n',
        "line 10 printing 1 step 1 do: the plan has no step of gold; say after which planned step",
    ),
    "planned once, written twice": (
        PLANNED + '[[printing.step]]\ndo = "bleach"\n[[printing.step]]\ndo = "bleach"\n',
        "line 12 printing 1 step 2 do: the plan's step 'bleach' was written before",
    ),
    # scans
    "no scan": (
        '[[scan]]\nprint = "QUAY 3/25"\nfile = "nowhere.tif"\n',
        "line 6 scan 1 file: there is no file ",
    ),
    "not a picture": (
        '[[scan]]\nprint = "QUAY 3/25"\nfile = "note.tif"\n',
        "note.tif is not a TIFF, JPEG or PNG picture",
    ),
    "a broken picture": (
        '[[scan]]\nprint = "QUAY 3/25"\nfile = "half.png"\n',
        "half.png is broken or cut short",
    ),
    "nothing": ("", "sheet.toml: the sheet enters nothing; write down what was done"),
}


def told(problems: tuple[Problem, ...]) -> str:
    """Every problem in a line; a sheet of the tests is called sheet.toml."""
    import re

    return re.sub(r"sheet-\d+\.toml", "sheet.toml", "\n".join(str(one) for one in problems))


@pytest.mark.parametrize("case", REFUSALS)
def test_a_mistake_is_told_where_it_stands(desk: Desk, case: str) -> None:
    text, expected = REFUSALS[case]
    (desk.path / "note.tif").write_text("no picture", encoding="utf-8")
    whole = draw(desk.path / "whole.png").read_bytes()
    (desk.path / "half.png").write_bytes(whole[: len(whole) // 2])
    before, files = desk.head(), desk.files()
    assert expected in told(desk.refused(text))
    assert desk.head() == before
    assert desk.files() == files


def test_all_mistakes_are_told_at_once_each_at_its_line(desk: Desk) -> None:
    text = (
        '[[negative]]\ncode = "N-2"\ntitle = "A"\nmade = "ca. 1998"\n'
        '[[bath]]\ncode = "B"\nrole = "fix"\ndilution = "1:9"\nvolume = "2"\n'
        '[[printing]]\nedition = "QUAI"\nsheets = ["Q7"]\npaper = "FB-9"\n'
        '[[printing.step]]\ndo = "fix"\ntime = "2"\n'
        '[[printing.step]]\ndo = "wash"\ntemperature = "cold"\n'
        '[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "26"\n'
        '[[sign]]\nprints = ["QUAY Q9"]\n'
        '[[scan]]\nprint = "QUAY 3/25"\nfile = "nowhere.tif"\n'
    )
    lines = [problem.line for problem in desk.refused(text)]
    assert lines == [7, 11, 12, 14, 16, 19, 22, 26, 28, 31]


def test_what_depends_on_a_mistake_is_not_told_again(desk: Desk) -> None:
    text = (
        '[[printing]]\nedition = "QUAY"\nsheets = ["Q7", "Q8"]\npaper = "FB-9"\n'
        '[[number]]\nedition = "QUAY"\nsheets = ["Q7", "Q8"]\nfirst = "5/25"\n'
        '[[sign]]\nprints = ["QUAY 5/25", "QUAY 6/25"]\n'
        '[[release]]\nprints = ["QUAY 6/25"]\n'
    )
    assert [problem.line for problem in desk.refused(text)] == [7]


def test_a_sheet_that_cannot_be_read_is_refused(desk: Desk, tmp_path: Path) -> None:
    from provenance.errors import Refused
    from provenance.studio.daysheet.record import record_day_sheet

    latin = tmp_path / "latin.toml"
    latin.write_bytes("[day]\n# Übung\n".encode("latin-1"))
    for path, why in ((latin, "it is not UTF-8 text; save it as UTF-8"), (tmp_path, "cannot be")):
        with pytest.raises(Refused, match=why):
            record_day_sheet(desk.folder, path)
