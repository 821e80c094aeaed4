"""The lists of the desk: which records, in which order, in which words."""

from pathlib import Path

import pytest

from provenance.records.private import Contacts
from provenance.studio import desk_rows
from provenance.studio.desk_rows import (
    AWAY,
    HERE,
    CertificateRows,
    DisclosureRows,
    WhereRows,
    asked_about,
    edition_of,
)
from provenance.studio.rows import RowSource, Sort
from tests import studios
from tests.studio.finished import Desk, another, desk


@pytest.fixture
def held(tmp_path: Path) -> Desk:
    """Three numbered prints: one away, one certified twice over, one here."""
    found = desk(tmp_path / "studio")
    second, third = another(found, "Q8", "8/25"), another(found, "Q9", "9/25")
    party = Contacts(found.folder.path).add(name="Ida Example")
    lent = studios.release(found.print, event="lent", party=party, until="2032")
    first = studios.certificate(found.register, second, b"%PDF-")
    studios.enter(found.register, lent, first)
    other = studios.certificate(found.register, third, b"%PDF-", state="issued")
    studios.enter(found.register, other)
    return found


def shown(source: RowSource, sort: Sort = Sort(), words: str = "") -> list[tuple[str, ...]]:  # noqa: B008
    """All the rows, as a table shows them."""
    order = source.order(sort, words)
    assert order is not None
    rows = source.rows(order)
    return [rows[record] for record in order]


def test_prints_stand_where_they_are_with_whom_and_until_when(held: Desk) -> None:
    assert shown(WhereRows(held.register, AWAY)) == [
        ("QUAY 7/25", "lent", "2031-04-01", "2032", "Ida Example")
    ]
    here = WhereRows(held.register, HERE)
    assert [row[0] for row in shown(here)] == ["QUAY 8/25", "QUAY 9/25"]
    assert [row[0] for row in shown(here, Sort("print", True))] == ["QUAY 9/25", "QUAY 8/25"]
    assert [row[0] for row in shown(here, words="Q9")] == ["QUAY 9/25"]


def test_it_is_said_why_somebody_cannot_be_named(held: Desk) -> None:
    contacts = Contacts(held.folder.path)
    ((key, _page),) = contacts.list()
    path = held.folder.path / "contacts" / f"{key}.json"
    path.write_bytes(path.read_bytes().replace(b"Ida", b"Ada"))
    assert shown(WhereRows(held.register, AWAY))[0][-1] == "not legible"
    contacts.erase(key)
    said = "erased, or left out of this copy"
    assert shown(WhereRows(held.register, AWAY))[0][-1] == said


def test_the_latest_certificate_comes_first_unless_turned_round(held: Desk) -> None:
    rows = CertificateRows(held.register)
    prints = [row[2] for row in shown(rows)]
    assert prints == ["QUAY 9/25", "QUAY 8/25"]
    assert [row[2] for row in shown(rows, Sort("date", True))] == prints[::-1]
    numbers = [row[0] for row in shown(rows, Sort("number"))]
    assert numbers == sorted(numbers)
    assert shown(rows)[0][4] == "in force"


def test_disclosure_counts_what_is_open_answered_and_on_record(held: Desk) -> None:
    ((code, title, open_, answered, recorded),) = shown(DisclosureRows(held.register))
    assert (code, title, answered) == ("QUAY", "Slipway", "0")
    assert int(open_) + int(recorded) == 15
    studios.enter(held.register, studios.edition(held.shelf.negative, code="NEW"))
    assert shown(DisclosureRows(held.register))[0][2:] == ("", "", "no print yet")


def test_of_many_prints_none_is_looked_for_on_the_spot(
    held: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    rows = WhereRows(held.register, HERE)
    assert len(rows.first(60)) == 2
    monkeypatch.setattr(desk_rows, "SMALL", 2)
    assert (rows.small, len(rows.first(60))) == (False, 0)


def test_a_question_leads_to_the_print_or_the_edition(held: Desk) -> None:
    read = held.register.read
    first = CertificateRows(held.register).first(1)[0]
    print_ = asked_about(read, first)
    assert read.kind_of(print_) == "print"
    assert edition_of(read, first) == edition_of(read, print_) == held.shelf.edition
    assert asked_about(read, held.shelf.negative) == held.shelf.edition
    assert edition_of(read, held.shelf.paper) is None
