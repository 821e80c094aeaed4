"""What a person typed is read in the order they give, and what a machine spoilt is told."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.negative import Negative
from provenance.model.printing import Printing
from provenance.records.register import Register
from provenance.studio.tables.dates import DateOrder, read_day
from provenance.studio.tables.spoilt import is_a_date
from tests.studio.tables.test_importing import Import, furnished, importer


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with furnished(tmp_path / "studio") as made:
        yield made


@pytest.fixture
def bring(register: Register, tmp_path: Path) -> Import:
    return importer(register, tmp_path / "table.csv")


@pytest.mark.parametrize(
    ("text", "order", "read"),
    [
        ("1.2.2009", "day-first", "2009-02-01"),
        ("1.2.2009", "month-first", "2009-01-02"),
        ("01/02/2009", "day-first", "2009-02-01"),
        ("1. 2. 2009", "day-first", "2009-02-01"),
        ("2009/2/1", "year-first", "2009-02-01"),
        ("2009-02-01", "day-first", "2009-02-01"),
        ("2009-02-01", None, "2009-02-01"),
        ("1998/2001", "day-first", "1998/2001"),
        ("1998~", "month-first", "1998~"),
        ("soon", "day-first", "soon"),
    ],
)
def test_a_date_in_figures_is_read_as_it_was_said(
    text: str, order: DateOrder | None, read: str
) -> None:
    assert read_day(text, order) == read


@pytest.mark.parametrize(
    ("text", "order", "said"),
    [
        ("31.2.2009", "day-first", "“31.2.2009” is not a date: February 2009 has 28 days"),
        ("13/13/2009", "day-first", "there is no month 13"),
        ("13/13/2009", "month-first", "there is no month 13"),
        ("1.2.09", "day-first", "has no year of four figures"),
        ("2009/2/1", "day-first", "has no year of four figures"),
        ("1.2.2009", "year-first", "has no year of four figures"),
        ("1.2.2009", None, "--dates day-first or month-first"),
        ("2009/2/1", None, "--dates year-first"),
    ],
)
def test_a_date_that_cannot_be_is_refused(text: str, order: DateOrder | None, said: str) -> None:
    with pytest.raises(Refused) as caught:
        read_day(text, order)
    assert said in str(caught.value)


def test_the_order_holds_for_every_column_with_a_date(register: Register, bring: Import) -> None:
    bring(
        "code;title;made;state\nN-7;Ropes;1.2.2009;retired\n",
        "negatives",
        dates="day-first",
        fixed={"state_since": "3.2.2009"},
    )
    held = register.read.by_code(Negative, "N-7")
    assert held is not None
    assert (held.body.made, held.body.state_since) == ("2009-02-01", "2009-02-03")


def test_the_order_holds_for_a_notebook(register: Register, bring: Import) -> None:
    table = "date;edition;sheets\n1.2.2031;QUAY;K1\n31.2.2031;QUAY;K2\n"
    with pytest.raises(Refused) as caught:
        bring(table, "printings")
    assert [one.line for one in caught.value.problems] == [2, 3]
    assert "--dates day-first" in str(caught.value)
    with pytest.raises(Refused, match=r"line 3 date: “31\.2\.2031”"):
        bring(table, "printings", dates="day-first")
    bring(table.partition("31.")[0], "printings", dates="month-first")
    assert register.read.all(Printing)[-1].body.done_on == "2031-01-02"


def test_impossible_dates_are_told_by_row(register: Register, bring: Import) -> None:
    head = register.read.head()
    table = "edition;number;date\nQUAY;1;31.2.2009\nQUAY;2;13.13.2009\nQUAY;3;1.2.2009\n"
    with pytest.raises(Refused) as caught:
        bring(table, "prints", dates="day-first")
    assert [(one.line, one.field) for one in caught.value.problems] == [(2, "date"), (3, "date")]
    assert register.read.head() == head


def test_moves_are_ordered_by_dates_in_figures(bring: Import) -> None:
    bring("edition;number;date\nQUAY;1;2031\n", "prints")
    table = "print;event;on\nQUAY 1;returned;2.5.2031\nQUAY 1;lent;30.4.2031\n"
    assert "2 moves entered" in bring(table, "custody", dates="day-first").entered[-1]


@pytest.mark.parametrize(
    ("data", "line", "said"),
    [
        ("code;base;tone\nP-1;fibre;\nP-2;fibre;gr\u00fcn\n".encode("cp1252"), 3, "the byte fc"),
        ("code;base\nP-1;fibre\n".encode("utf-16"), None, "is text in UTF-16"),
        ("code;base\nP-1;fibre\n".encode("utf-16-be"), 1, "has a null in it"),
    ],
)
def test_another_encoding_is_told_and_not_guessed(
    bring: Import, data: bytes, line: int | None, said: str
) -> None:
    with pytest.raises(Refused) as caught:
        bring(data, "papers")
    (problem,) = caught.value.problems
    assert problem.line == line
    assert said in problem.what
    assert "CSV in UTF-8" in problem.mend


@pytest.mark.parametrize("text", ["05.Dez", "5-Dec", "Dec-05", "5. d\u00e9c.", "05.12.2031"])
def test_a_number_that_became_a_date_is_told(bring: Import, text: str) -> None:
    with pytest.raises(Refused, match=r"line 2 number: .* a spreadsheet made a date of it"):
        bring(f"edition;number;date\nQUAY;{text};2031-03-05\n", "prints")
    with pytest.raises(Refused, match=r"line 2 .* print: .* a spreadsheet made a date of it"):
        bring(f"print;event;on\nQUAY {text};sold;2031-03-05\n", "custody")


@pytest.mark.parametrize("text", ["BAT 1", "AP 3", "7/25", "99", "no. 5", "TP-1", "marked 7"])
def test_what_is_no_date_is_not_taken_for_one(text: str) -> None:
    # “marked” begins as March does; a hint is all that comes of it
    assert is_a_date(text) is (text == "marked 7")


def test_words_may_begin_with_a_capital(bring: Import) -> None:
    assert bring("code;base\nP-1;Fibre\n", "papers").act


@pytest.mark.parametrize(("price", "ok"), [("400", False), ("1.200,50", False), ("€ 400", True)])
def test_a_price_has_a_currency(bring: Import, price: str, ok: bool) -> None:
    bring("edition;number;date\nQUAY;1;2031\n", "prints")
    table = f"print;event;on;price\nQUAY 1;sold;2031-04-01;{price}\n"
    if ok:
        assert bring(table, "custody").act
    else:
        with pytest.raises(Refused, match=r"line 2 price: .* has no currency; write it as"):
            bring(table, "custody")


def test_a_head_that_is_known_is_known_as_a_field(bring: Import) -> None:
    came = bring(
        "Nr.;Datum\n1;2031\n",
        "prints",
        mapping={"Nr.": "number", "Datum": "date"},
        fixed={"edition": "QUAY"},
    )
    assert "column “Nr.” is designation" in came.entered


def test_two_columns_of_one_head_are_told_apart_in_the_table(bring: Import) -> None:
    with pytest.raises(Refused, match="2 columns are headed “title”: change one head"):
        bring("code;title;title\nN-7;Ropes;Knots\n", "negatives")
    with pytest.raises(Refused, match='leave one out, as --map "name="'):
        bring("code;title;name\nN-7;Ropes;Knots\n", "editions", fixed={"negative": "N-1"})


def test_a_column_without_a_head_is_said_to_be_left_out(bring: Import) -> None:
    for kind, table in {
        "papers": "code;base;\nP-1;fibre;lost\n",
        "printings": "date;edition;sheets;\n2031;QUAY;K1;lost\n",
    }.items():
        came = bring(table, kind, rehearse=True)
        place = 3 if kind == "papers" else 4
        assert f"column {place}, which has no head, is left out" in came.entered
