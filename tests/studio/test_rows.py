import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.errors import Damaged, Refused
from provenance.model.check_characters import with_check_characters
from provenance.records.aside import Aside
from provenance.records.register import Register
from provenance.studio.edition_rows import EditionRows
from provenance.studio.finding import FoundRows, look_up
from provenance.studio.print_rows import PrintRows
from provenance.studio.rows import Sort
from tests.studios import (
    Shelf,
    certificate,
    edition,
    enter,
    furnish,
    new_register,
    revise,
    sheet,
    signature,
)


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with new_register(tmp_path) as register:
        yield register


@pytest.fixture
def shelf(register: Register) -> Shelf:
    with register.act("printer") as act:
        return furnish(act)


@pytest.fixture
def prints(register: Register, shelf: Shelf) -> dict[str, int]:
    """Marks in an order that is neither theirs nor that of their numbers."""
    return {
        mark: enter(register, sheet(shelf, mark, designation=number))
        for mark, number in (("Q10", "2/25"), ("Q9", "10/25"), ("Q2", "AP I/II"), ("P1", None))
    }


def marks(rows: PrintRows, sort: Sort, words: str = "") -> list[str]:
    order = rows.order(sort, words)
    assert order is not None
    texts = rows.rows(order)
    return [texts[record][2] for record in order]


@pytest.mark.parametrize(
    ("sort", "order"),
    [
        (Sort(), ["Q10", "Q9", "Q2", "P1"]),
        (Sort("edition", descending=True), ["P1", "Q2", "Q9", "Q10"]),
        (Sort("number"), ["Q10", "Q9", "Q2", "P1"]),
        (Sort("mark"), ["P1", "Q2", "Q9", "Q10"]),
        (Sort("mark", descending=True), ["Q10", "Q9", "Q2", "P1"]),
        (Sort("date"), ["Q10", "Q9", "Q2", "P1"]),
    ],
)
def test_prints_are_sorted(
    register: Register, prints: dict[str, int], sort: Sort, order: list[str]
) -> None:
    assert marks(PrintRows(register), sort) == order


def test_states_are_sorted_as_the_work_goes_on(register: Register, prints: dict[str, int]) -> None:
    revise(register, prints["Q10"], signature=signature())
    revise(register, prints["Q9"], existence="destroyed", gone_on="2031-04-01")
    rows = PrintRows(register)
    assert marks(rows, Sort("state")) == ["Q2", "P1", "Q10", "Q9"]
    states = [rows.rows([prints[mark]])[prints[mark]][3] for mark in ("Q2", "Q10", "Q9")]
    assert states == ["w at work", "n signed", "x gone"]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("q", ["Q10", "Q9", "Q2", "P1"]),  # QUAY, the edition of them all
        ("q1", ["Q10"]),
        ("quay 10", ["Q9"]),
        ("quay 10/25", ["Q9"]),
        ("ap", ["Q2"]),
        ("nothing", []),
        ("", ["Q10", "Q9", "Q2", "P1"]),
    ],
)
def test_prints_are_found_by_the_beginnings_of_words(
    register: Register, prints: dict[str, int], words: str, found: list[str]
) -> None:
    assert marks(PrintRows(register), Sort(), words) == found


def test_an_edition_has_its_own_prints_only(
    register: Register, shelf: Shelf, prints: dict[str, int]
) -> None:
    other = enter(register, edition(shelf.negative, code="ROPE"))
    mine = enter(register, sheet(shelf, "R1", edition=other))
    rows = PrintRows(register, edition=other)
    assert list(rows.order(Sort(), "") or ()) == [mine]
    assert rows.rows([mine]) == {mine: ("", "R1", "w at work", "2031-03-02", "")}
    assert list(rows.first(9)) == [mine]
    assert list(PrintRows(register).first(2)) == [prints["Q10"], prints["Q9"]]


def test_what_is_retired_is_left_out(register: Register, prints: dict[str, int]) -> None:
    version = register.read.find(prints["P1"])
    assert version is not None
    with register.act("printer") as act:
        act.void(prints["P1"], version.version, "entered twice")
    rows = PrintRows(register)
    assert prints["P1"] not in (rows.order(Sort(), "") or ())
    assert rows.rows([prints["P1"], prints["Q2"]]).keys() == {prints["Q2"]}


def test_editions_are_counted(register: Register, shelf: Shelf, prints: dict[str, int]) -> None:
    early = enter(register, edition(shelf.negative, code="ALMA", name="Alma", artist_proofs=0))
    rows = EditionRows(register)
    assert rows.small
    assert list(rows.order(Sort(), "") or ()) == [early, shelf.edition]
    assert list(rows.order(Sort("date", descending=True), "") or ()) == [shelf.edition, early]
    assert list(rows.order(Sort(), "alm") or ()) == [early]
    assert rows.rows([early, shelf.edition]) == {
        early: ("ALMA", "Slipway", "25", "0", "0", "25", ""),
        shelf.edition: ("QUAY", "Slipway", "25 + 2 AP", "4", "0", "24", "2031-03-02"),
    }


def test_what_a_name_leads_to_comes_first(register: Register, prints: dict[str, int]) -> None:
    assert look_up(register.read, "quay 2").ids[0] == prints["Q10"]
    assert look_up(register.read, "QUAY Q2").ids[0] == prints["Q2"]
    assert look_up(register.read, f"#{prints['P1']}").ids[0] == prints["P1"]
    assert look_up(register.read, "   ").ids == ()


def test_a_figure_alone_is_not_taken_for_an_id(register: Register, prints: dict[str, int]) -> None:
    assert look_up(register.read, "10").ids == (prints["Q9"],)


def test_a_mistyped_certificate_number_leads_to_the_near_one(
    register: Register, prints: dict[str, int]
) -> None:
    number = with_check_characters("DR-2031-0007")
    revise(register, prints["Q10"], signature=signature())
    issued = enter(register, certificate(register, prints["Q10"], b"", number=number))
    assert look_up(register.read, number.lower()).ids == (issued,)
    found = look_up(register.read, number.replace("07-", "70-"))
    assert found.ids == (issued,)
    assert found.note == "no certificate has this number; one slip away from it is this one"
    far = look_up(register.read, "DR-1999-5555-11")
    assert (far.ids, far.note) == ((), "no certificate has this number")


@pytest.mark.parametrize(
    "typed",
    [
        '"',
        '""',
        "*",
        "a*",
        "NEAR(a b)",
        "words:q",
        "-q",
        "^q",
        "q AND",
        "OR",
        "NOT q",
        "(",
        "{}",
        "'; DROP TABLE record; --",
        "%",
        "_",
        "\0",
        "\ud800",
        "#",
        "#999999999999999",
        "q " * 500,
    ],
)
def test_nothing_that_is_typed_is_taken_for_a_query(
    register: Register, prints: dict[str, int], typed: str
) -> None:
    found = FoundRows(register)
    order = found.order(Sort(), typed)
    assert order is not None
    found.rows(order)
    assert PrintRows(register).order(Sort(), typed) is not None


def test_a_newer_question_ends_the_one_before(register: Register) -> None:
    aside = Aside(register.folder)
    endless = (
        "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT max(i) FROM n"
    )
    answers: list[object] = []
    begun = threading.Event()

    def ask() -> None:
        def question(connection: object) -> object:
            begun.set()
            return connection.execute(endless).fetchone()  # type: ignore[attr-defined]

        answers.append(aside.ask(question))

    thread = threading.Thread(target=ask)
    thread.start()
    assert begun.wait(10)
    assert aside.ask(lambda connection: connection.execute("SELECT 1").fetchone()) == (1,)
    thread.join(10)
    assert answers == [None]


def test_an_aside_cannot_write(register: Register) -> None:
    with pytest.raises(Refused, match="nothing was written"):
        Aside(register.folder).ask(lambda connection: connection.execute("DELETE FROM impression"))


def test_a_register_that_was_spoiled_is_damaged(register: Register, prints: dict[str, int]) -> None:
    rows = PrintRows(register)
    register.close()
    (register.folder / "register.db").write_bytes(b"no database" * 1000)
    with pytest.raises(Damaged):
        rows.order(Sort(), "")
