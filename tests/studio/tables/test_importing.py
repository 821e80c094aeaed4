"""Tables come in whole, told by row and column, once however often they are given."""

import unicodedata
from collections.abc import Callable, Iterator
from operator import attrgetter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.exporting import export
from provenance.studio.settings import Settings
from provenance.studio.tables.importing import KINDS, Kind, import_table
from provenance.studio.tables.told import MOST_PROBLEMS
from tests.studio.tables.many import EACH, furnish_editions, import_prints, write_prints
from tests.studios import IMAGE, SHEET, WHO, furnish, new_register

Import = Callable[..., Recorded]


def furnished(folder: Path) -> Register:
    """A studio with a negative, an edition and a paper."""
    made = new_register(folder)
    with made.act(WHO) as act:
        furnish(act)
    return made


def importer(register: Register, path: Path) -> Import:
    def bring(text: str | bytes, kind: Kind, **told: object) -> Recorded:
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        given = {"mapping": {}, "fixed": {}, "source": "notes"} | told
        folder = StudioFolder(register.folder)
        return import_table(register, folder, path, kind=kind, settings=Settings(), **given)  # type: ignore[arg-type]

    return bring


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with furnished(tmp_path / "studio") as made:
        yield made


@pytest.fixture
def bring(register: Register, tmp_path: Path) -> Import:
    return importer(register, tmp_path / "table.csv")


PRINTS = (
    "edition;number;date;paper;image size;signed;inscriptions;price paid\n"
    "QUAY;1;2031-03-05;FB-1;24 x 30 cm;2031-03-09;'=SUM(A1);900\n"
    "QUAY;2/25;2031-03-05;FB-1;;;;\n"
    "QUAY;AP 1;2031~;;;;;\n"
)


def test_prints_come_in_with_their_printings(register: Register, bring: Import) -> None:
    came = bring(PRINTS, "prints")
    assert "column “number” is designation" in came.entered
    assert "column “price paid” is left out" in came.entered
    assert came.entered[-1] == "3 prints entered"
    one, two, proof = (held.body for held in register.read.all(Print))
    assert [held.designation for held in (one, two, proof)] == ["1/25", "2/25", "AP I/II"]
    assert one.mark == "1/25"
    assert one.inscriptions == "=SUM(A1)"
    assert one.signature is not None
    assert one.printing == two.printing != proof.printing
    assert register.read.get(Printing, proof.printing).body.done_on == "2031~"


@pytest.mark.parametrize("kind", ["negatives", "editions", "papers", "prints", "custody"])
def test_a_table_that_is_given_again_enters_nothing(
    register: Register, bring: Import, kind: Kind
) -> None:
    text = {
        "negatives": "code;title;size;taken by\nN-2;Ropes;6.9 x 5.6 cm;\n",
        "editions": "code;negative;title;promise;numbered;image size;sheet size\n"
        "ROPE;N-1;Rope;Ten, no more;10;24 x 30 cm;30.5 x 40.6 cm\n",
        "papers": "code,base,maker\nRC-1,resin-coated,=2+3\n",
        "prints": PRINTS,
        "custody": "print,event,date,to,price\nQUAY 1/25,sold,2031-04-01,Ada Xqbuyer,900 EUR\n",
    }[kind]
    if kind == "custody":
        bring(PRINTS, "prints")
    assert bring(text, kind, rehearse=True).act == 0
    bring(text, kind)
    head = register.read.head()
    again = bring(text, kind)
    assert (again.act, again.entries) == (0, 0)
    assert "on record already" in again.entered[-1]
    assert register.read.head() == head


def test_a_person_in_a_table_goes_into_the_contact_book(
    register: Register, bring: Import, tmp_path: Path
) -> None:
    bring(PRINTS, "prints")
    bring(
        "print,event,date,to,price,place\n"
        "QUAY 1/25,sold,2031-04-01,Ada Xqbuyer,Xqnine,Xqvenice\n"
        "QUAY 2/25,lent,2031-04-02,Ada Xqbuyer,,\n",
        "custody",
    )
    one, two = (held.body for held in register.read.all(CustodyEvent))
    assert one.party == two.party
    assert one.party is not None
    assert Contacts(register.folder).get(one.party).name == "Ada Xqbuyer"
    journal = b"".join(data for _, data, _ in register.read.entries())
    assert b"Xq" not in journal


def test_a_refused_table_leaves_no_person_behind(register: Register, bring: Import) -> None:
    bring(PRINTS, "prints")
    with pytest.raises(Refused, match="line 3 date"):
        bring(
            "print,event,date,to\nQUAY 1/25,sold,2031-04-01,Ada\nQUAY 2/25,sold,soon,Bea\n",
            "custody",
        )
    assert Contacts(register.folder).list() == []


def test_pages_that_are_broken_off_are_taken_out_again(register: Register, bring: Import) -> None:
    bring(PRINTS, "prints")

    def progress(name: str, done: int, whole: int) -> None:
        if name == "pages":
            raise KeyboardInterrupt

    head = register.read.head()
    table = "print,event,date,to,price\nQUAY 1/25,sold,2031-04-01,Ada,900 EUR\n"
    with pytest.raises(KeyboardInterrupt):
        bring(table, "custody", progress=progress)
    assert register.read.head() == head
    assert not list(register.folder.rglob("contacts/*.json"))
    assert not list(register.folder.rglob("terms/*.json"))
    bring(table, "custody")
    assert [page.name for _, page in Contacts(register.folder).list()] == ["Ada"]


def test_a_notebook_tells_how_far_it_has_come(register: Register, bring: Import) -> None:
    told = list[tuple[str, int, int]]()
    table = "date;edition;sheets;fix\n1998;QUAY;a b;5 min\n1999~;QUAY;c;\n"
    bring(table, "printings", progress=lambda *far: told.append(far))
    assert told[-1] == ("printings", 2, 2)
    assert bring(table, "printings").act == 0


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        ("prints", "edition,number,date\nQUAY,99,2031-03-05\n", "line 2 number: number 99 is more"),
        ("prints", "edition,number,date\nNONE,1,2031-03-05\n", "line 2 edition: there is no"),
        ("prints", "edition,number,date\nQUAY,1,soon\n", "line 2 date: "),
        ("prints", "edition,number,date\nQUAY,1,2041-01-01\n", "still to come"),
        ("prints", "edition,number,date\nQUAY,,2031-03-05\n", "line 2 QUAY mark: is empty"),
        ("prints", "edition,number,date,image\nQUAY,1,2031,9\n", "line 2 image: "),
        (
            "prints",
            "edition,mark,date,image_height_tenth_mm,image_width_tenth_mm\nQUAY,a,2031,1e9,5\n",
            "is not a whole number",
        ),
        (
            "prints",
            "edition,number,date,signature\nQUAY,1,2031,{}\n",
            "line 2 signature: is not written as the export writes it",
        ),
        (
            "prints",
            f"edition,number,date,signature\nQUAY,1,2031,{'[' * 9000}\n",
            "is not written as the export",
        ),
        (
            "prints",
            'edition;number;date;signature\nQUAY;1;2031;{"on":"2031","on":"2032"}\n',
            "a name stands there twice",
        ),
        ("prints", "edition,number\nQUAY,1\n", "printed_on: no column gives it"),
        ("prints", "edition,number,date,date\nQUAY,1,2031,2031\n", "is given twice"),
        ("prints", "edition,number,date\nQUAY,1,2031,x\n", "more cells than"),
        ("papers", "code,base\nFB-1,fibre\nFB-1,resin-coated\n", "line 3 FB-1 base: is on record"),
        ("papers", "code,base\nX-1,glass\n", "is none of its words"),
        ("papers", "code,base\n5 5,fibre\n", "cannot serve as a code"),
        ("custody", "print,event,on\nQUAY 1,sold,2031-04-01\n", "no such print"),
        ("custody", "print,print_id,event,on\n#1,1,sold,2031\n", "there is no print"),
        ("negatives", "code,title,made\nN-7,Rope,soon\n", "line 2 negative N-7 made: "),
        ("negatives", "code,title,frame\nN-1,Ropes,\n", "line 2 N-1 title: is on record otherwise"),
        (
            "editions",
            "code,negative,name,promise,numbered\nROPE,N-1,Rope,Ten,10\n",
            "line 2 image: is empty",
        ),
        (
            "editions",
            "code,negative,name,promise,numbered,image,sheet,exhibition_only\n"
            "ROPE,N-1,Rope,Ten,10,24 x 30 cm,30 x 40 cm,perhaps\n",
            "line 2 exhibition_only: “perhaps” is neither true nor false",
        ),
        (
            "printings",
            "negative,date,edition,sheets\nN-1,2031,QUAY,Q1\n",
            "negative: is not a column of a notebook",
        ),
        ("printings", "negative,date\nN-9,2031\n", "line 2 negative: there is no negative N-9"),
        ("printings", "negative,date,process\nN-1,2031,x\n", "line 2 process: there is no"),
        ("processes", "code,name,base,steps\np,P,fibre,[]\n", "line 2 process p steps: has no"),
    ],
)
def test_what_is_wrong_is_told_by_row_and_column_and_nothing_comes_in(
    register: Register, bring: Import, kind: Kind, text: str, said: str
) -> None:
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring(text, kind)
    assert said in str(caught.value)
    assert register.read.head() == head


def test_a_print_that_is_on_record_otherwise_is_told(bring: Import) -> None:
    bring(PRINTS, "prints")
    with pytest.raises(Refused, match="is on record otherwise") as caught:
        bring(PRINTS.replace("QUAY;2/25;2031-03-05", "QUAY;2/25;2031-03-06"), "prints")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (3, "date")


def test_of_very_many_problems_the_first_are_told(bring: Import) -> None:
    rows = "".join(f"QUAY,{place},soon\n" for place in range(150))
    with pytest.raises(Refused) as caught:
        bring("edition,number,date\n" + rows, "prints")
    assert len(caught.value.problems) == MOST_PROBLEMS + 1
    assert caught.value.problems[-1].what == "and 50 more problems"


def test_an_interrupt_leaves_nothing(register: Register, bring: Import) -> None:
    def progress(name: str, done: int, whole: int) -> None:
        raise KeyboardInterrupt

    head = register.read.head()
    with pytest.raises(KeyboardInterrupt):
        bring(PRINTS, "prints", progress=progress)
    assert register.read.head() == head
    bring(PRINTS, "prints")


def test_many_rows_tell_how_far_they_have_come_and_can_be_broken_off(
    register: Register, tmp_path: Path
) -> None:
    table, told = tmp_path / "many.csv", list[tuple[str, int, int]]()
    furnish_editions(register, 1_200)
    write_prints(table, 1_200)
    head = register.read.head()

    def progress(*far: object) -> None:
        told.append(far)  # type: ignore[arg-type]
        if len(told) == 2:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        import_prints(register, table, progress=progress)
    assert told == [("rows", 500, 1_200), ("rows", 1_000, 1_200)]
    assert register.read.head() == head
    came = import_prints(register, table)
    assert came.entered[-1] == "1200 prints entered"
    # of each edition, one printing for all of its sheets
    assert came.entries == 1_200 + 1_200 // EACH
    assert import_prints(register, table).act == 0


def test_columns_are_mapped_and_set(register: Register, bring: Import) -> None:
    bring(
        "Auflage;Nr\nx;3\n",
        "prints",
        mapping={"Auflage": "", "Nr": "designation"},
        fixed={"edition": "QUAY", "printed_on": "2031-03"},
    )
    assert register.read.all(Print)[0].body.designation == "3/25"
    for wrong in ({"mapping": {"No": "mark"}}, {"fixed": {"colour": "red"}}):
        with pytest.raises(Refused):
            bring("Nr\n3\n", "prints", **wrong)


words = st.text(st.characters(categories=["L", "N", "P", "S", "Zs"]), max_size=12)
formulas = st.builds(str.__add__, st.sampled_from(list("=+-@'＝＋－＠")), words)


@settings(
    max_examples=6,
    deadline=None,
    phases=[Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(texts=st.lists(st.one_of(words, formulas), min_size=4, max_size=12))
def test_what_was_exported_comes_in_elsewhere_as_it_was(
    tmp_path_factory: pytest.TempPathFactory, texts: list[str]
) -> None:
    """Every text of prints and papers, formulas among them, through a table and back."""
    room = tmp_path_factory.mktemp("round")
    clean = [unicodedata.normalize("NFC", text) for text in texts]
    with furnished(room / "one") as first, furnished(room / "two") as second:
        with first.act(WHO) as act:
            (edition,), (printing,) = act.all(Edition), act.all(Printing)
            for place, text in enumerate(clean):
                act.enter(Paper(code=f"P-{place}", base="fibre", maker=text, batch=text))
                act.enter(
                    Print(
                        edition=edition.id,
                        printing=printing.id,
                        mark=f"M{place}",
                        image=IMAGE,
                        sheet=SHEET,
                        inscriptions=text,
                        features=text,
                    )
                )
        export(StudioFolder(first.folder), room / "csv", "csv")
        bring = importer(second, room / "table.csv")
        for kind in ("papers", "prints"):
            bring((room / "csv" / f"{kind}.csv").read_bytes(), kind)
        for what in (Paper, Print):
            one = [held.body for held in first.read.all(what)]
            two = [held.body for held in second.read.all(what)]
            told = ("inscriptions", "features", "mark", "maker", "batch", "code")
            pick = attrgetter(*(name for name in told if name in what.__struct_fields__))
            assert list(map(pick, two)) == list(map(pick, one))


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_whatever_a_table_holds_is_entered_or_refused(bring: Import, data: st.DataObject) -> None:
    cells = st.one_of(
        st.sampled_from(
            ["QUAY", "1", "2031", "sold", "fibre", "9" * 400, "\x1b[2J", '{"a":1,"a":2}', "1e999"]
        ),
        st.text(max_size=8),
        st.binary(max_size=4),
    )
    kind = data.draw(st.sampled_from(KINDS))
    heads = {
        "negatives": "code,title,format,taken_by,copy_of",
        "editions": "code,negative,name,promise,numbered,image,sheet,exhibition_only,bon_a_tirer",
        "processes": "code,name,base,steps",
        "printings": "negative,date,paper,process,exposure",
        "papers": "code,base,sheet,bought",
        "prints": "edition,mark,number,date,image,signature",
        "custody": "print,event,on,to,price",
    }[kind]
    rows = data.draw(st.lists(st.lists(cells, max_size=6), max_size=4))
    lines = [
        b",".join(cell if isinstance(cell, bytes) else cell.encode() for cell in row)
        for row in rows
    ]
    text = b"\n".join([heads.encode(), *lines])
    try:
        bring(text, kind)
    except Refused as error:
        for problem in error.problems:
            assert problem.what
