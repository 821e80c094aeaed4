"""What a person calls a record leads to that record, and a slip is told."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.edition import Edition
from provenance.model.paper import Paper
from provenance.model.prints import Print
from provenance.records.reader import Reader
from provenance.studio.certifying.certify import certify
from provenance.studio.references import resolve, resolve_as, resolve_print
from tests.studio.sheets import draw, open_desk

SHEET = """\
[[number]]
edition = "QUAY"
sheets = ["Q1"]
first = "7/25"
[[number]]
edition = "QUAY"
sheets = ["Q2"]
first = "AP II"
[[sign]]
prints = ["QUAY 7/25"]
[[scan]]
print = "QUAY 7/25"
file = "one.png"
[[paper]]
code = "QUAY"
base = "fibre"
"""


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Reader, str]]:
    """A studio with 7/25, AP II and an unnumbered sheet; the number of a certificate."""
    path: Path = tmp_path_factory.mktemp("references")
    desk = open_desk(path)
    draw(path / "one.png")
    desk.enter(SHEET)
    with desk.folder.open(desk.evening()) as register:
        held = resolve_print(register.read, "QUAY 7/25")
        issued = certify(register, desk.folder, held.id)
        yield register.read, issued.number


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("QUAY 7/25", "Q1"),
        ("quay 7", "Q1"),
        ("  QUAY   7 of 25 ", "Q1"),
        ("QUAY Q1", "Q1"),
        ("QUAY AP2", "Q2"),
        ("QUAY E.A. II", "Q2"),
        ("QUAY AP II/II", "Q2"),
        ("QUAY Q3", "Q3"),
    ],
)
def test_a_print_is_found_by_number_or_mark(
    studio: tuple[Reader, str], text: str, mark: str
) -> None:
    found = resolve(studio[0], text)
    assert isinstance(found.body, Print)
    assert found.body.mark == mark


def test_a_record_is_found_by_code_and_by_id(studio: tuple[Reader, str]) -> None:
    read = studio[0]
    paper = resolve(read, "FB-1")
    assert isinstance(paper.body, Paper)
    assert resolve(read, f"#{paper.id}") == resolve(read, f"{paper.id}") == paper
    assert resolve(read, "fb-1") == paper


def test_a_print_in_an_edition_given_apart(studio: tuple[Reader, str]) -> None:
    assert resolve_print(studio[0], "Q3", "QUAY").body.mark == "Q3"
    assert resolve_print(studio[0], "QUAY Q3", "QUAY").body.mark == "Q3"


def test_two_records_of_one_name_are_offered_by_id(studio: tuple[Reader, str]) -> None:
    with pytest.raises(Refused, match="name one by its id: #") as caught:
        resolve(studio[0], "QUAY")
    assert not isinstance(caught.value, NotFound)
    assert isinstance(resolve_as(studio[0], Edition, "QUAY").body, Edition)


def test_a_certificate_is_found_and_a_slip_is_offered_mended(studio: tuple[Reader, str]) -> None:
    read, number = studio
    assert resolve(read, number).kind == "certificate"
    slip = number.replace("-0001-", "-0010-")
    with pytest.raises(NotFound, match=f"perhaps {number}"):
        resolve(read, slip)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("QUAY 8/25", r"name it by number \(QUAY 7/25\) or by its pencil mark"),
        ("QUAY nonsense", "there is no such print"),
        ("PIER 1/10", "there is no edition PIER; on record are: QUAY"),
        ("PIER", "editions are: QUAY; prints are named like QUAY 7/25"),
        ("#9999", "no record has that id"),
        ("DR-2031-0002-00", "its check characters do not agree"),
    ],
)
def test_what_leads_nowhere_says_where_to_look(
    studio: tuple[Reader, str], text: str, told: str
) -> None:
    with pytest.raises(NotFound, match=told):
        resolve(studio[0], text)
