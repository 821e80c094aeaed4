"""A row whose record is there already says the same in every field, or is refused by its column."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.private import Contacts
from provenance.records.register import Register
from provenance.records.terms import TermsBook
from tests.studio.tables.rows import ELSEWHERE, FIELDS, FULL, SIGNED, Full
from tests.studio.tables.test_importing import Import, importer
from tests.studios import WHO, furnish, negative, new_register, sheet


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with new_register(tmp_path / "studio") as made:
        with made.act(WHO) as act:
            shelf = furnish(act)
            act.enter(negative(code="N-2"))
            act.enter(Paper(code="FB-2", base="fibre"))
            gone = {"existence": "destroyed", "gone_on": "2031-04", "gone_evidence": "seen"}
            for place, mark in enumerate(("G1", "G2"), start=1):
                act.enter(sheet(shelf, mark, designation=f"{place}/25", **gone))
            for mark in ("G3", "G4"):
                act.enter(sheet(shelf, mark))
            away = act.enter(sheet(shelf, "G5"))
            act.enter(CustodyEvent(print=away, event="lent", on="2031-03-20"))
        yield made


@pytest.fixture
def bring(register: Register, tmp_path: Path) -> Import:
    return importer(register, tmp_path / "table.csv")


def put(register: Register, bring: Import, full: Full) -> None:
    """Bring the row in, with the prints that an edition needs for its bon à tirer."""
    bring(full.table(), full.kind)
    if full.kind == "editions":
        with register.act(WHO) as act:
            held = act.by_code(Edition, "ROPE")
            assert held is not None
            printing = act.enter(Printing(negative=held.body.negative, done_on="2031"))
            for mark, number in (("R1", "BAT"), ("R2", None)):
                act.enter(
                    Print(
                        edition=held.id,
                        printing=printing,
                        mark=mark,
                        designation=number,
                        image=held.body.image,
                        sheet=held.body.sheet,
                    )
                )
        assert "1 added to" in bring(full.table(), full.kind).entered[-1]


@pytest.mark.parametrize("full", FULL, ids=lambda full: f"{full.kind}-{len(full.cells)}")
def test_every_field_is_held_against_the_record(
    register: Register, bring: Import, full: Full
) -> None:
    put(register, bring, full)
    head = register.read.head()
    assert bring(full.table(), full.kind).act == 0
    for field, (_, other) in full.cells.items():
        if field in full.named_by:
            continue
        with pytest.raises(Refused) as caught:
            bring(full.table(**{field: other}), full.kind)
        about = {problem.field for problem in caught.value.problems}
        assert about & {field, *(field.rpartition(f"_{side}")[0] for side in ("height", "width"))}
        assert "otherwise (#" in str(caught.value), field
    assert register.read.head() == head


def test_no_field_is_left_out_of_these_tests() -> None:
    for kind, fields in FIELDS.items():
        if kind == "printings":
            continue
        said = {name for full in FULL if full.kind == kind for name in full.cells}
        assert said | ELSEWHERE >= set(fields.alike), kind


SOLD = "print;event;on;to;price;place\nQUAY G3;sold;2031-04-01;Ada;900 EUR;a town\n"


def moves(register: Register) -> list[CustodyEvent]:
    return [held.body for held in register.read.all(CustodyEvent)]


@pytest.mark.parametrize("column", ["price", "place", "note", "to", "until"])
def test_a_table_does_not_add_to_a_move_that_is_on_record(
    register: Register, bring: Import, column: str
) -> None:
    given = {"price": "900 EUR", "place": "a town", "note": "x", "to": "Ada", "until": "2033"}
    bring("print;event;on\nQUAY G3;lent;2031-04-01\n", "custody")
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring(f"print;event;on;{column}\nQUAY G3;lent;2031-04-01;{given[column]}\n", "custody")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, column)
    assert problem.what.startswith("is not on record for it (#")
    assert f"“{given[column]}” here" in problem.what
    assert register.read.head() == head


def test_what_was_erased_is_not_said_to_be_the_same(register: Register, bring: Import) -> None:
    bring(SOLD, "custody")
    sold = moves(register)[-1]
    assert sold.party is not None
    assert sold.terms is not None
    Contacts(register.folder).erase(sold.party)
    TermsBook(register.folder).erase(sold.terms)
    again = bring(SOLD.replace("900", "700"), "custody")
    assert again.act == 0
    assert [(one.line, one.field) for one in again.warnings] == [
        (2, "to"),
        (2, "price"),
        (2, "place"),
    ]
    assert all("cannot be compared" in one.what for one in again.warnings)


def test_of_a_print_that_was_sold_no_return_is_asked_for(register: Register, bring: Import) -> None:
    bring(SOLD, "custody")
    for cell, other, column in (("Ada", "Bea", "to"), ("2031-04-01", "2031-04-03", "on")):
        with pytest.raises(Refused, match="is on record otherwise") as caught:
            bring(SOLD.replace(cell, other), "custody")
        (problem,) = caught.value.problems
        assert (problem.line, problem.field) == (2, column)
        assert f"“{cell}” there, “{other}” here" in problem.what
        assert "came back" not in str(problem)


def test_two_persons_of_one_table_on_one_day_are_two_moves(
    register: Register, bring: Import
) -> None:
    began = len(moves(register))
    bring(
        "print;event;on;to\nQUAY G3;lent;2031-04-01;Ada\nQUAY G3;returned;2031-04-01;\n"
        "QUAY G3;lent;2031-04-01;Bea\n",
        "custody",
    )
    assert len(moves(register)) == began + 3


def test_a_clash_within_the_table_is_told_by_its_line(register: Register, bring: Import) -> None:
    clashes = {
        "custody": "print;event;on;to\nQUAY G3;sold;2031-04-01;Ada\nQUAY G3;sold;2031-04-01;Bea\n",
        "negatives": "code;title\nN-7;Ropes\nN-7;Knots\n",
        "prints": "edition;mark;number;date\nQUAY;S1;5;2031-03-05\nQUAY;S2;5;2031-03-05\n",
    }
    for kind, table in clashes.items():
        with pytest.raises(Refused) as caught:
            bring(table, kind)
        (problem,) = caught.value.problems
        assert problem.line == 3
        assert "line 2" in problem.what
        assert "#" not in str(problem)


def test_long_texts_are_told_from_where_they_part(bring: Import) -> None:
    table = "code;title;note\nN-7;Ropes;dense in the sky, and scratched along the left edge{}\n"
    bring(table.format(""), "negatives")
    with pytest.raises(Refused) as caught:
        bring(table.format(" too"), "negatives")
    assert "“… left edge” there, “… left edge too” here" in str(caught.value)


def test_only_what_the_table_made_is_told_by_its_line(register: Register, bring: Import) -> None:
    first = register.read.head()[0] + 1
    table = "print;event;on\nQUAY G3;lent;2031-04-01\nQUAY G4;#{0};2031\n#{1};sold;2031\n"
    with pytest.raises(Refused) as caught:
        bring(table.format(first, first + 50), "custody")
    quoted, unknown = caught.value.problems
    assert f"“#{first}” is none of its words" in str(quoted)
    assert f"#{first + 50}" in str(unknown)


@pytest.mark.parametrize("event", ["sold", "lent", "released", "given"])
@pytest.mark.parametrize("column", ["why", "evidence"])
def test_a_reason_that_has_no_place_is_refused(bring: Import, event: str, column: str) -> None:
    with pytest.raises(Refused, match=f"line 2 {column}: is kept of a print that was lost"):
        bring(f"print;event;on;{column}\nQUAY G3;{event};2031-04-01;moved house\n", "custody")


def test_a_note_of_a_sale_is_kept_beside_the_price(register: Register, bring: Import) -> None:
    bring(SOLD.replace("place", "note"), "custody")
    key = moves(register)[-1].terms
    assert key is not None
    assert TermsBook(register.folder).get(key).note == "a town"


def test_the_day_of_an_end_on_record_is_not_moved(register: Register, bring: Import) -> None:
    head = register.read.head()
    with pytest.raises(Refused, match="line 2 QUAY G1 on: is on record otherwise"):
        bring("print;event;on\nQUAY G1;destroyed;2031-03\n", "custody")
    with pytest.raises(Refused, match="line 2 QUAY G1 event: is on record otherwise"):
        bring("print;event;on\nQUAY G1;lost;2031-04\n", "custody")
    with pytest.raises(Refused, match="line 2 QUAY G1 evidence: is on record otherwise"):
        bring("print;event;on;evidence\nQUAY G1;destroyed;2031-04;a photograph\n", "custody")
    assert register.read.head() == head


def test_a_print_may_be_lost_again(register: Register, bring: Import) -> None:
    table = "print;event;on\nQUAY G3;lost;2031-04-01\n"
    bring(table, "custody")
    bring(table + "QUAY G3;found;2031-04-02\nQUAY G3;lost;2031-04-03\n", "custody")
    (print_,) = (one.body for one in register.read.all(Print) if one.body.mark == "G3")
    assert (print_.existence, print_.gone_on) == ("lost", "2031-04-03")


@pytest.mark.parametrize("column", ["why", "evidence"])
def test_how_a_print_was_lost_is_compared_after_it_was_found(
    register: Register, bring: Import, column: str
) -> None:
    table = (
        "print;event;on;why;evidence\nQUAY G3;lost;2031-04-01;in the post;a letter\n"
        "QUAY G3;found;2031-04-02;;\n"
    )
    bring(table, "custody")
    head = register.read.head()
    again = bring(table, "custody")
    assert (again.act, again.warnings) == (0, ())
    cell = {"why": "in the post", "evidence": "a letter"}[column]
    with pytest.raises(Refused) as caught:
        bring(table.replace(cell, "burnt"), "custody")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, column)
    assert f"“{cell}” there, “burnt” here" in problem.what
    bring(table.replace("2031-04-02;;\n", "2031-04-02;;\nQUAY G3;lost;2031-05;gone;\n"), "custody")
    assert bring(table, "custody").warnings == ()
    assert register.read.head() > head


@pytest.mark.parametrize(
    ("columns", "cells", "column"),
    [
        ("medium", "ink", "medium"),
        ("where", "verso", "where"),
        ("signed;signature", f'2031;"{SIGNED}"', "signed"),
        ("gone_on", "2031-04", "existence"),
        ("gone_why", "torn", "existence"),
        ("gone_evidence", "seen", "existence"),
        ("existence;gone_on", "exists;2031-04", "existence"),
        ("printing_place", "0", "printing_place"),
        ("printing_place", "3", "printing_place"),
    ],
)
def test_a_print_that_says_half_is_refused(
    register: Register, bring: Import, columns: str, cells: str, column: str
) -> None:
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring(f"edition;number;date;{columns}\nQUAY;7;2031-03-05;{cells}\n", "prints")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, column)
    assert problem.mend
    assert register.read.head() == head


PRINTING = "negative;date;paper;note\nN-1;2031-03-05;FB-1;{note}\n"


def test_a_printing_that_differs_is_entered_beside_with_a_warning(
    register: Register, bring: Import
) -> None:
    assert bring(PRINTING.format(note="dry"), "printings").warnings == ()
    was = register.read.all(Printing)[-1].id
    came = bring(PRINTING.format(note="wet"), "printings")
    (warning,) = came.warnings
    assert (warning.line, warning.field) == (2, "note")
    assert f"is on record (#{was})" in warning.what
    # both rows together are what is on record, whichever comes first
    both = PRINTING.format(note="wet") + PRINTING.format(note="dry").partition("\n")[2]
    again = bring(both, "printings")
    assert (again.act, again.warnings) == (0, ())


def test_how_a_printing_is_known_is_held_against_the_record(bring: Import) -> None:
    table = "negative;date;source\nN-1;2031-03-05;{}\n"
    bring(table.format("memory"), "printings")
    assert bring(table.format("memory"), "printings").act == 0
    with pytest.raises(Refused, match="line 2 N-1 source: is on record otherwise"):
        bring(table.format("notes"), "printings")
