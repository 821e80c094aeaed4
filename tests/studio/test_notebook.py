"""A notebook comes in whole, row by row, or not at all."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from provenance.craft.standing import printing_standing
from provenance.errors import Refused
from provenance.model.chemistry import Role
from provenance.model.evidence import Source, Standing
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.records.dossier import print_history
from provenance.records.register import Register
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.notebook import PLAIN, import_notebook
from provenance.studio.print_view import view_print
from provenance.studio.references import resolve_print
from provenance.studio.settings import Settings
from provenance.studio.tables.importing import import_table
from tests.studios import WHO, furnish, new_register

DOC = (Path(__file__).parents[2] / "docs" / "notebooks.md").read_text(encoding="utf-8")

Import = Callable[..., Recorded]


@pytest.fixture
def register(tmp_path: Path) -> Register:
    made = new_register(tmp_path / "studio")
    with made.act(WHO) as act:
        furnish(act)
    return made


@pytest.fixture
def bring(register: Register, tmp_path: Path) -> Import:
    def bring(
        text: str, *, source: Source = "notes", rehearse: bool = False, **told: dict[str, str]
    ) -> Recorded:
        path = tmp_path / "notebook.csv"
        path.write_text(text, encoding="utf-8")
        folder = StudioFolder(register.folder)
        return import_notebook(
            register, folder, path, source=source, settings=Settings(), rehearse=rehearse, **told
        )

    return bring


GOOD = (
    "date;edition;sheets;paper;base;aperture;grade;develop;fix;fix: fix two;wash;note\n"
    "2031-03-05;QUAY;14/a 14/b;FB-1;17 s;f/8;2;3 min;1 min;1 min;1 h;fresh\n"
    ";;;;;;;;;;;\n"
    "2031~;QUAY;proof;;;;;;;;;\n"
)


def test_a_notebook_comes_in(register: Register, bring: Import) -> None:
    assert bring(GOOD).act
    prints = {one.body.mark: one for one in register.read.all(Print)}
    assert prints.keys() == {"14/a", "14/b", "proof"}
    steps = [one.body for one in register.read.linked(prints["14/b"].id, Step, "sheets")]
    assert [(step.role, step.name, step.duration_ms) for step in steps] == [
        ("develop", "", 180_000),
        ("fix", "", 60_000),
        ("fix", "fix two", 60_000),
        ("wash", "", 3_600_000),
    ]
    late = view_print(register.read, StudioFolder(register.folder), prints["14/a"].id)
    assert {line.standing for line in late.life if line.day == "2031-03-05"} == {
        Standing.FROM_NOTES
    }
    printings = [one.body for one in register.read.all(Printing)]
    assert printings[-1].done_on == "2031~"
    assert printings[-2].exposure is not None
    assert printings[-2].exposure.aperture_tenth == 80


def test_memory_is_said(register: Register, bring: Import) -> None:
    bring("date,edition,sheets\n2031-03,QUAY,M1\n", source="memory")
    assert register.read.all(Printing)[-1].body.source == "memory"


def test_a_rehearsal_writes_nothing(register: Register, bring: Import) -> None:
    head = register.read.head()
    assert bring(GOOD, rehearse=True).entries > 5
    assert register.read.head() == head


@pytest.mark.parametrize(
    ("row", "line", "column", "what"),
    [
        ("2031-02-30;QUAY;A;1 min;no", 2, "date", "is not a date"),
        ("2031-03-05;QAY;A;1 min;no", 2, "edition", "no edition QAY"),
        ("2031-03-05;QUAY;;1 min;no", 2, "sheets", ""),
        ("2031-03-05;QUAY;A;3;no", 2, "fix", ""),
        ("2031-03-05;QUAY;A;1 min;perhaps", 2, "as planned", "neither yes nor no"),
        ("2031-03-05;QUAY;A;1 min;no;more", 2, "", "more cells"),
        ("2034-03-05;QUAY;A;1 min;no", 2, "", "still to come"),
    ],
)
def test_mistakes_are_told_by_row_and_column(
    register: Register, bring: Import, row: str, line: int, column: str, what: str
) -> None:
    head = register.read.head()
    good = "2031-03-05;QUAY;G1;1 min;no"
    with pytest.raises(Refused) as refused:
        bring(f"date;edition;sheets;fix;as planned\n{row}\n{good}\n")
    told = refused.value.problems
    assert any(problem.line == line and what in problem.what for problem in told)
    if column:
        assert column in {problem.field for problem in told}
    assert register.read.head() == head


def test_every_mistake_is_told_at_once(bring: Import) -> None:
    with pytest.raises(Refused) as refused:
        bring("date;edition;sheets;fix\n2031-13-01;QUAY;A;1 min\n2031-03-05;QUAY;B;soon\n")
    assert {problem.line for problem in refused.value.problems} == {2, 3}


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "is empty"),
        ("date,edition\n", "is missing"),
        ("date,edition,sheets,tea\n", "is not a column"),
        ("date,edition,sheets,date\n", "stands there twice"),
        ('date,edition,sheets\n"2031,QUAY,A\n', "is not a table"),
    ],
)
def test_a_table_that_is_none(bring: Import, text: str, what: str) -> None:
    with pytest.raises(Refused, match=re.escape(what)):
        bring(text)


@pytest.mark.parametrize("column", ["date", "edition", "sheets"])
@pytest.mark.parametrize("on_record", [False, True])
def test_an_empty_cell_that_is_needed_is_refused(
    register: Register, bring: Import, column: str, on_record: bool
) -> None:
    cells = {"date": "2031-03-05", "edition": "QUAY", "sheets": "K1", "note": "x"}
    heads = ";".join(cells)
    if on_record:
        bring(f"{heads}\n{';'.join(cells.values())}\n")
    head = register.read.head()
    row = ";".join((cells | {column: ""}).values())
    with pytest.raises(Refused) as caught:
        bring(f"{heads}\n{row}\n")
    assert str(caught.value) == f"line 2 {column}: is empty; fill it in"
    assert register.read.head() == head


def test_a_row_of_the_day_of_the_import_is_of_the_same_day(
    register: Register, bring: Import
) -> None:
    bring("date;edition;sheets\n2031-06-01;QUAY;K1\n2031-05-31;QUAY;K2\n2031-06;QUAY;K3\n")
    standings = {}
    for mark in ("K1", "K2", "K3"):
        print_ = resolve_print(register.read, f"QUAY {mark}").id
        standings[mark] = printing_standing(print_history(register.read, print_).printing)
    assert standings == {
        "K1": Standing.SAME_DAY,
        "K2": Standing.FROM_NOTES,
        "K3": Standing.FROM_NOTES,
    }


def test_what_is_on_record_is_passed_over(register: Register, bring: Import) -> None:
    bring(GOOD)
    head = register.read.head()
    again = bring(GOOD)
    assert (again.act, again.entries) == (0, 0)
    assert register.read.head() == head
    more = bring(GOOD + "2031-03-06;QUAY;new;;;;;;;;;\n")
    assert more.entered[-1] == "2 printings on record already"
    assert [one.body.mark for one in register.read.all(Print)][-1] == "new"


PRINTS = (
    "edition;mark;number;date;paper\n"
    "QUAY;K1;1;2031-03-05;FB-1\nQUAY;K2;2;2031-03-05;FB-1\nQUAY;K3;3;2031-03-06;\n"
)
MORE = (
    "date;edition;sheets;paper;printer;base;aperture;grade;note;develop;fix\n"
    "2031-03-05;QUAY;K1 K2;FB-1;;17 s;f/8;2;fresh;3 min;8 min\n"
    "2031-03-06;QUAY;K3;FB-1;assistant;;;;;;\n"
    "2031-03-07;QUAY;K4;;;;;;;2 min;\n"
)


@pytest.fixture
def prints(register: Register, tmp_path: Path) -> Register:
    """The sheets K1 to K3, from a table that knows no exposure and no bath."""
    path = tmp_path / "prints.csv"
    path.write_text(PRINTS, encoding="utf-8")
    import_table(
        register,
        StudioFolder(register.folder),
        path,
        kind="prints",
        mapping={},
        fixed={},
        source="notes",
        settings=Settings(),
    )
    return register


def test_a_notebook_adds_to_sheets_that_are_on_record(prints: Register, bring: Import) -> None:
    sheets = {one.body.mark: one for one in prints.read.all(Print)}
    came = bring(MORE)
    assert came.entered[-1] == "added to 2 printings"
    assert len(prints.read.all(Print)) == len(sheets) + 1
    one, other = (
        prints.read.get(Printing, sheets[mark].body.printing).body for mark in ("K1", "K3")
    )
    assert one.exposure is not None
    assert (one.exposure.base_ms, one.exposure.aperture_tenth, one.exposure.grade) == (
        17_000,
        80,
        "2",
    )
    assert (one.note, other.printer, other.paper) == ("fresh", "assistant", one.paper)
    steps = [step.body for step in prints.read.linked(sheets["K2"].id, Step, "sheets")]
    assert [(step.role, step.duration_ms, len(step.sheets)) for step in steps] == [
        ("develop", 180_000, 2),
        ("fix", 480_000, 2),
    ]
    again = bring(MORE)
    assert (again.act, again.entries) == (0, 0)
    assert again.entered[-1] == "3 printings on record already"


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("paper", "FB-2"),
        ("printer", "artist"),
        ("base", "18 s"),
        ("aperture", "f/11"),
        ("grade", "3"),
        ("note", "old"),
        ("develop", "4 min"),
        ("fix", "9 min"),
        ("date", "2031-03-04"),
    ],
)
def test_a_cell_that_is_on_record_otherwise_is_refused(
    prints: Register, bring: Import, column: str, cell: str
) -> None:
    with prints.act(WHO) as act:
        act.enter(Paper(code="FB-2", base="fibre"))
    table = MORE.replace("FB-1;;", "FB-1;artist's friend;", 1)
    bring(table)
    head = prints.read.head()
    heads, first, *rest = table.splitlines()
    cells = first.split(";")
    cells[heads.split(";").index(column)] = cell
    with pytest.raises(Refused, match="is on record otherwise") as caught:
        bring("\n".join([heads, ";".join(cells), *rest]) + "\n")
    told = {(problem.line, problem.field) for problem in caught.value.problems}
    assert told == {(2, column)}
    assert f"“{cell}” here" in str(caught.value)
    assert prints.read.head() == head


@pytest.mark.parametrize(
    ("row", "column", "said"),
    [
        # the other sheet of the printing would be said to have it too
        ("2031-03-05;QUAY;K1;17 s;;;", "base", "would be said of K2 too"),
        ("2031-03-05;QUAY;K1 K2 K9;;;;", "sheets", "K1, K2 are on record, and K9 is not"),
        ("2031-03-05;QUAY;K1 K2;;;30 s;8 min", "stop", "other baths are that may come after it"),
        ("2031-03-05;QUAY;K1 K2;;3;;", "develop", "has no unit"),
        ("2031-03-05;QUAY;K1 K2;;;;;yes", "as planned", "the baths of a plan are not on record"),
    ],
)
def test_what_cannot_be_added_is_refused(
    prints: Register, bring: Import, row: str, column: str, said: str
) -> None:
    bring("date;edition;sheets;fix\n2031-03-05;QUAY;K1 K2;8 min\n")
    head = prints.read.head()
    with pytest.raises(Refused) as caught:
        bring(f"date;edition;sheets;base;develop;stop;fix;as planned\n{row}\n")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, column)
    assert said in problem.what
    assert prints.read.head() == head


def test_what_is_added_from_memory_is_not_said_from_notes(prints: Register, bring: Import) -> None:
    with pytest.raises(Refused, match=r"known from another source \(notes, not memory\)"):
        bring("date;edition;sheets;base\n2031-03-06;QUAY;K3;17 s\n", source="memory")


def test_a_bath_comes_behind_those_on_record(prints: Register, bring: Import) -> None:
    table = "date;edition;sheets;fix;wash\n2031-03-06;QUAY;K3;8 min;{}\n"
    bring(table.format(""))
    bring(table.format("1 h"))
    (sheet,) = (one for one in prints.read.all(Print) if one.body.mark == "K3")
    steps = [step.body for step in prints.read.linked(sheet.id, Step, "sheets")]
    assert [step.role for step in sorted(steps, key=lambda step: step.place)] == ["fix", "wash"]


def test_what_went_as_planned_is_held_against_the_plan(register: Register, bring: Import) -> None:
    table = "date;edition;sheets;paper;process;as planned\n2031;QUAY;K1 K2;FB-1;fibre-plain;yes\n"
    bring(table)
    assert bring(table).entered[-1] == "1 printing on record already"


def test_a_template_comes_on_record_with_sheets_that_are_on_record(
    prints: Register, bring: Import
) -> None:
    table = "date;edition;sheets;process\n2031-03-05;QUAY;K1 K2;{0}\n2031-03-06;QUAY;K3;{0}\n"
    came = bring(table.format("fibre-plain"))
    assert came.entered[-1] == "added to 2 printings"
    (plan,) = prints.read.all(ProcessSheet)
    assert plan.body.code == "fibre-plain"
    held = {one.body.mark: one.body.printing for one in prints.read.all(Print)}
    for printing in held.values():
        assert prints.read.get(Printing, printing).body.process == plan.id
    assert bring(table.format("fibre-plain")).act == 0
    head = prints.read.head()
    with pytest.raises(Refused) as caught:
        bring(table.format("fibre-selenium"))
    assert {(one.line, one.field) for one in caught.value.problems} == {
        (2, "process"),
        (3, "process"),
    }
    assert "“fibre-plain” there, “fibre-selenium” here" in str(caught.value)
    with pytest.raises(Refused, match="line 2 process: there is no process sheet fibre-none"):
        bring(table.format("fibre-none"))
    assert prints.read.head() == head


@pytest.mark.parametrize("on_record", [False, True])
def test_a_sheet_that_stands_twice_in_its_row_is_told(
    register: Register, bring: Import, on_record: bool
) -> None:
    if on_record:
        bring("date;edition;sheets\n2031;QUAY;z y\n")
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring("date;edition;sheets\n2031;QUAY;z y Z z\n")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, "sheets")
    assert problem.what == "z stands 3 times in the row"
    assert register.read.head() == head


def test_a_sheet_that_stands_twice_is_told_by_its_lines(bring: Import) -> None:
    with pytest.raises(Refused) as caught:
        bring("date;edition;sheets\n2031;QUAY;K1 K2\n2031;QUAY;k2\n")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (3, "sheets")
    assert "k2 stands in line 2 already" in problem.what


def test_every_column_is_told(bring: Import) -> None:
    came = bring(
        "date;edition;sheets;;tea;fix: fix two\n2031;QUAY;K1;lost;lost;1 min\n",
        mapping={"tea": ""},
        rehearse=True,
    )
    assert came.entered[3:6] == (
        "column 4, which has no head, is left out",
        "column “tea” is left out",
        "column “fix: fix two” is the bath fix, fix two",
    )


def test_the_columns_that_there_are_are_told_once(bring: Import) -> None:
    with pytest.raises(Refused) as caught:
        bring("date,edition,sheets,tea,coffee\n")
    assert str(caught.value).count("other toner") == 1
    assert [one.field for one in caught.value.problems] == ["tea", "coffee", ""]


def test_a_sheet_that_is_on_record_otherwise_is_refused(bring: Import) -> None:
    bring(GOOD)
    with pytest.raises(Refused, match="line 2 QUAY 14/a date: is on record otherwise"):
        bring("date;edition;sheets\n2031-03-07;QUAY;14/a\n")


def test_columns_are_mapped_and_set(register: Register, bring: Import) -> None:
    text = "Tag;Blatt;egal\n2031-03-05;M1 M2;x\n"
    bring(
        text,
        mapping={"Tag": "date", "Blatt": "sheets", "egal": ""},
        fixed={"edition": "QUAY", "note": "set"},
    )
    assert {one.body.mark for one in register.read.all(Print)} == {"M1", "M2"}
    assert register.read.all(Printing)[-1].body.note == "set"
    with pytest.raises(Refused, match="no column"):
        bring(text, mapping={"Datum": "date"})


def test_the_page_names_every_column() -> None:
    for column in PLAIN:
        assert f"`{column}`" in DOC
    for role in Role.__args__:  # type: ignore[attr-defined]
        assert f"`{role}`" in DOC


def test_the_example_on_the_page_is_read(bring: Import) -> None:
    (example,) = re.findall(r"```csv\n(.*?)```", DOC, re.DOTALL)
    with pytest.raises(Refused) as refused:
        bring(example)
    # the studio of the tests lacks that paper, and nothing else is wrong with the table
    assert {problem.field for problem in refused.value.problems} == {"paper"}
